import { posix } from 'node:path';
import type { Job } from '../src/input/types.js';
import type { JointOutcome } from '../src/outputs/joint.js';
import { formatInches, formatMm, type LengthUnit } from '../src/units/length.js';
import type { Remark } from './job.js';
import { paint, shown } from './terminal.js';

/**
 * What people read on the terminal: short lines, columns that line up, every size in both units with the
 * job's own first.
 */

export function describeJoints(outcomes: readonly JointOutcome[], { title, units }: Job): string {
  const joints = outcomes.flatMap((outcome) => ['', ...describeJoint(outcome, units)]);
  return [paint('bold', title), ...joints].join('\n');
}

function describeJoint({ joint, made }: JointOutcome, units: LengthUnit): readonly string[] {
  const head = `${paint('bold', joint.name)}  ${joint.kind}, ${bothUnits(joint.width, units).join(' = ')} wide`;
  if (!made) return [head, `  ${paint('red', 'cannot be made as asked')}`];
  const spans = made.solved.layout.spans.map(({ part, from, to }, index, all) => [
    index === 0 || index === all.length - 1 ? `end ${part}` : part,
    ...bothUnits(to - from, units),
    'from',
    ...bothUnits(from, units),
  ]);
  const cuts = made.report.cuts.flatMap(({ board, bit, bushing, depth, bitExtension }) => [
    [`cut ${board}`, `bit ${bit.name}`, `bushing ${bothUnits(bushing, units).join(' = ')}`],
    ['', 'depth', bothUnits(depth, units).join(' = ')],
    ['', 'bit below base', bothUnits(bitExtension, units).join(' = ')],
  ]);
  const { slack, from } = made.report.fit;
  const fit = [
    ['slack', bothUnits(slack, units).join(' = '), from === 'job' ? 'as the job asks' : 'default'],
  ];
  const notes = made.report.findings
    .filter(({ level }) => level === 'ok')
    .map(({ text }) => `  note: ${text}`);
  return [head, ...columns(spans), ...columns(cuts), ...columns(fit), ...notes];
}

/** What is worth knowing of the files asked for, beyond what each joint says of itself. */
export function describeNotes(remarks: readonly Remark[], outcomes: readonly JointOutcome[]): string {
  const said = new Set(outcomes.flatMap(({ made }) => made?.report.findings.map(({ text }) => text) ?? []));
  return remarks
    .filter(({ level, text }) => level === 'ok' && !said.has(text))
    .map(({ text }) => `note: ${text}\n`)
    .join('');
}

/** The made files, one line for each drawing with its formats, and which to look at first. */
export function describeFiles(folder: string, paths: readonly string[]): string {
  const drawings = new Map<string, string[]>();
  for (const path of paths) {
    const { dir, name, ext } = posix.parse(path);
    const stem = posix.join(dir, name);
    drawings.set(stem, [...(drawings.get(stem) ?? []), ext]);
  }
  const rows = [...drawings].map(([stem, endings]) => [stem, endings.join(' ')]);
  const first = lookAtFirst(paths);
  return [
    `Made in ${shown(folder)}:`,
    ...columns(rows),
    ...(first === undefined
      ? []
      : [shown(`${paths.length} files are in ${folder}. Look first at ${posix.join(folder, first)}`)]),
  ].join('\n');
}

const bestFirst = [
  /^index\.html$/,
  /set-up\.pdf$/,
  /finger-template-.*\.svg$/,
  /pattern-.*\.pdf$/,
  /\.(svg|pdf)$/,
  /./,
];

function lookAtFirst(paths: readonly string[]): string | undefined {
  return bestFirst.flatMap((kind) => paths.find((path) => kind.test(path)) ?? [])[0];
}

export function bothUnits(mm: number, units: LengthUnit): readonly [string, string] {
  return units === 'mm' ? [formatMm(mm), formatInches(mm)] : [formatInches(mm), formatMm(mm)];
}

/** Rows as text, each column as wide as its widest cell. */
export function columns(rows: readonly (readonly string[])[]): readonly string[] {
  const widths: number[] = [];
  for (const row of rows) {
    row.forEach((cell, index) => {
      widths[index] = Math.max(widths[index] ?? 0, cell.length);
    });
  }
  return rows.map((row) =>
    `  ${row.map((cell, index) => cell.padEnd(widths[index] ?? 0)).join('  ')}`.trimEnd(),
  );
}
