import fc from 'fast-check';
import { expect, test } from 'vitest';
import { formatDiagnostic } from '../../src/diagnostics/format.js';
import { formatterFor } from '../../src/diagnostics/formatter.js';
import { readJob } from '../../src/input/read-job.js';
import { families } from '../../src/joints/list.js';
import { type JointOutcome, solveJob } from '../../src/outputs/joint.js';
import type { LengthUnit } from '../../src/units/length.js';
import { soundJob } from './bad-files.js';

/** Odd numbers in every numeric place of jobs and shops: read as finite sizes or refused, and nothing breaks. */

const starters = [...families.map(({ starter }) => starter), soundJob];

const extra = `  laser: { kerf: 0.01, bed: [24, 16], speed: 40, power: 800, score-speed: 90, score-power: 200, lead-in: 0.1 }
  cnc: { cutter: 1/8, bed: [24, 16], rpm: 18000, feed: 60, plunge: 15, pass: 1/8, safe-height: 1/4, through: 0.01, ramp: 3, tabs: { count: 4, width: 1/4, height: 1/16 }, engraver: { tip: 0.01, depth: 0.01 } }
  print: { hole-growth: 0.01, ease: 0.01, marker: 0.05 }
  printer: { paper: [8.5, 11], margin: 0.4, scale-x: 1.01, scale-y: 0.99 }
`;
const fields = `    template: { nose: 1/2, spine: 2-1/2, margin: 1, hole: 1/4, copies: 2 }
`;
const rows = `    layout: { spacing: varied, tails: 3, pin: 1/2, end-pin: 3/8, least-pin: 1/4, seed: 7, spread: 0.2, groove: { from: 1/2, width: 1/4 } }
`;
const pieces = `pieces:
  tray: { kind: box, corners: corner, outside: { length: 12, width: 8, height: 3-1/2 }, count: 2, groove-depth: 1/8 }
`;
const rich = soundJob.replace(/^ {4}layout: .*\n/m, rows).replace(/^joints:/m, `${extra}joints:`);
const texts = [...starters, `${rich}${fields}${pieces}`, soundJob.replace(/^ {4}layout: .*\n/m, '')];

/** Numbers of a text, each with its fraction and unit: what is put in place of one keeps the rest a job. */
const NUMBER = /(?<=[:[,] *)-?\d[\d./-]*(?: (?:mm|in))?(?=[\s,}\]]|$)/gm;

const odd = fc.oneof(
  fc.constantFrom(
    '1e308',
    '-1e308',
    '1e999',
    '1e-308',
    '5e-324',
    '.nan',
    '.inf',
    '-.inf',
    '0x10',
    '0o17',
    '1e3',
    '8.9e1',
    '1e21',
    '1e-7',
    '0',
    '-0',
    '-1',
    '0.001',
    '1e16',
    '9007199254740993',
    '99999999999999999999',
    '1e308 mm',
    '1e300 in',
    '1e-300 mm',
    '1:1e308',
    '1/1e308',
    '1/0',
    '0/1',
    '1/99999999999',
    '99999999999/1',
    '1_000',
    '+5',
    '1e309 ft',
    '1e20 m',
    '~',
    'true',
    '[]',
    '{}',
  ),
  fc.double().map(String),
  fc.double({ noNaN: true }).map((value) => `${value} mm`),
  fc.integer().map(String),
  fc
    .tuple(fc.double({ min: 1e-3, max: 20, noNaN: true }), fc.constantFrom('', ' in', ' mm'))
    .map(([n, unit]) => `${n}${unit}`),
);

/** Every number in a value, by its path. */
function numbersIn(value: unknown, path = ''): readonly (readonly [string, number])[] {
  if (typeof value === 'number') return [[path, value]];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => numbersIn(inner, `${path}.${key}`));
}

function judged(text: string): readonly JointOutcome[] | undefined {
  const { result, locate, units } = readJob({ name: 'job.yaml', text }, families, () => undefined);
  const aloud = (diagnostics: typeof result.diagnostics, said: LengthUnit) => {
    for (const one of diagnostics)
      expect(formatDiagnostic(one, locate, formatterFor(said)).length).toBeLessThan(2000);
  };
  aloud(result.diagnostics, units);
  if (!result.ok) return undefined;
  for (const [path, value] of numbersIn(result.value)) {
    expect(Number.isFinite(value), path).toBe(true);
    expect(Math.abs(value), path).toBeLessThan(5e9);
  }
  const outcomes = solveJob(result.value);
  for (const { diagnostics } of outcomes) aloud(diagnostics, units);
  return outcomes;
}

test('the texts are sound, with a number of every kind', () => {
  for (const text of texts) {
    const { result } = readJob({ name: 'job.yaml', text }, families, () => undefined);
    expect(result.diagnostics.filter(({ level }) => level === 'refused')).toEqual([]);
  }
});

test('one odd number in any place is read or refused, and what is read is solved or refused', () => {
  const counts = { read: 0, refused: 0 };
  const places = texts.map((text) =>
    [...text.matchAll(NUMBER)].map(({ index, 0: number }) => [index, number.length] as const),
  );
  expect(places.flat().length).toBeGreaterThan(150);
  fc.assert(
    fc.property(fc.nat(texts.length - 1), fc.nat(), odd, (which, where, number) => {
      const text = texts[which] ?? '';
      const all = places[which] ?? [];
      const [index, length] = all[where % all.length] ?? [0, 0];
      const changed = `${text.slice(0, index)}${number}${text.slice(index + length)}`;
      counts[judged(changed) === undefined ? 'refused' : 'read']++;
    }),
    { numRuns: 600 },
  );
  expect(counts.read).toBeGreaterThan(20);
  expect(counts.refused).toBeGreaterThan(200);
}, 120_000);

test('the worst number in every place of every text is refused or harmless', () => {
  for (const text of texts) {
    for (const { index, 0: number } of text.matchAll(NUMBER)) {
      for (const worst of ['1e308', '.nan', '5e-324']) {
        judged(`${text.slice(0, index)}${worst}${text.slice(index + number.length)}`);
      }
    }
  }
}, 120_000);
