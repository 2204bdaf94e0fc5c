import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { plateNote } from '../../src/cam/plate-note.js';
import { formatterFor } from '../../src/diagnostics/formatter.js';
import type { Drawing, Item } from '../../src/drawing/model.js';
import type { Segment } from '../../src/geometry/types.js';
import { solveJob } from '../../src/outputs/joint.js';
import { cuttingOf } from '../../src/outputs/plates.js';
import { writtenAs } from '../../src/template/finger-template.js';
import { markerOf } from '../../src/template/patterns/marker.js';
import { patterns } from '../../src/template/patterns/pattern.js';
import { readSample, root } from '../support/jobs.js';

/**
 * Every drawing of every sample as text that can be read: one line for an outline, a path or a word, in
 * thousandths of a millimetre, kept beside this file. A drawing that has become another is written next to
 * the kept one with `-changed` in its name, to be looked at and taken over by hand, one at a time.
 */

const kept = 'tests/template/golden';
const samples = readdirSync(join(root, 'samples')).filter(
  (name) => name.endsWith('.yaml') && !name.startsWith('shop') && !name.startsWith('refused'),
);

interface Named {
  readonly name: string;
  readonly drawing: Drawing;
}

function drawingsOf(sample: string): readonly Named[] {
  const job = readSample(sample);
  const fmt = formatterFor(job.units);
  const cutting = cuttingOf(job.shop);
  const held = cutting.ok ? plateNote(cutting.value, fmt).label : undefined;
  return solveJob(job).flatMap(({ joint, made }) => {
    if (!made) return [];
    return [
      ...made.templates.flatMap(writtenAs),
      ...markerOf(made.solved, joint.marker ?? {}, job.title, fmt, held),
      ...patterns(made.solved, job.title, fmt),
    ].map(({ name, drawing }) => ({ name: `${joint.name}-${name}`, drawing }));
  });
}

describe.each(samples)('drawings of %s', (sample) => {
  const drawings = drawingsOf(sample);

  test('there are some', () => {
    expect(drawings.length).toBeGreaterThan(1);
  });

  test.each(drawings)('$name is as it was kept', ({ name, drawing }) => {
    const folder = `${kept}/${sample.replace(/\.yaml$/, '')}`;
    const file = join(root, folder, `${name}.txt`);
    const changed = join(root, folder, `${name}-changed.txt`);
    const text = textOf(drawing);
    const before = existsSync(file) ? readFileSync(file, 'utf8') : undefined;
    if (before === text) {
      rmSync(changed, { force: true });
      return;
    }
    mkdirSync(join(root, folder), { recursive: true });
    writeFileSync(changed, text);
    expect.fail(
      `${name} ${before === undefined ? 'was not kept before' : `differs from the kept drawing at ${firstDifference(before, text)}`}. ` +
        `Look at it (halfpin make samples/${sample} -o out --as svg --force); if it is right, take it over:\n` +
        `  mv ${folder}/${name}-changed.txt ${folder}/${name}.txt`,
    );
  });
});

test('a drawing that moved by a hundredth of a millimetre is another, one moved by less than a thousandth is not', () => {
  const [first] = drawingsOf(samples[0] ?? '');
  if (!first) throw new Error('no drawing');
  const shifted = (dx: number): Drawing => ({
    ...first.drawing,
    items: first.drawing.items.map((item) =>
      item.kind === 'text' ? { ...item, at: { x: item.at.x + dx, y: item.at.y } } : item,
    ),
  });
  expect(textOf(shifted(0.01))).not.toBe(textOf(first.drawing));
  expect(textOf(shifted(1e-7))).toBe(textOf(first.drawing));
});

function firstDifference(before: string, after: string): string {
  const [old, now] = [before.split('\n'), after.split('\n')];
  const line = now.findIndex((text, i) => text !== old[i]);
  return `line ${line + 1}: it was "${old[line] ?? ''}" and is "${now[line] ?? ''}"`;
}

/** Title, notes, then the items in their order: layer, kind, coordinates in mm with three decimals. */
function textOf({ title, notes, items }: Drawing): string {
  return `${[title, ...notes.map((note) => `note: ${note}`), ...items.map(lineOf)].join('\n')}\n`;
}

function lineOf(item: Item): string {
  switch (item.kind) {
    case 'text':
      return `${item.layer} "${item.text}" at ${place(item.at)} ${item.align} height ${number(item.height)}${item.angle === 0 ? '' : ` turned ${number((item.angle * 180) / Math.PI)}°`}`;
    case 'closed':
      return `${item.layer} closed${chain(item.outline.segments)}`;
    case 'area':
      return `${item.layer} area${item.region.map((one) => chain(one.segments)).join(',')}`;
    case 'open':
      return `${item.layer} ${item.dashed ? 'dashed' : 'open'}${chain(item.path.segments)}`;
  }
}

/** The first point, then each step: to a point, or round a center to a point, ccw or cw. */
function chain(segments: readonly Segment[]): string {
  const [first] = segments;
  if (!first) return '';
  const steps = segments.map((segment) =>
    segment.kind === 'line'
      ? ` to ${place(segment.to)}`
      : ` ${segment.ccw ? 'ccw' : 'cw'} about ${place(segment.center)} to ${place(segment.to)}`,
  );
  return ` from ${place(first.from)}${steps.join('')}`;
}

function place({ x, y }: { readonly x: number; readonly y: number }): string {
  return `${number(x)},${number(y)}`;
}

/** Three decimals, without the zeros at the end; a value on the edge of two thousandths always goes one way. */
function number(value: number): string {
  return `${Number((Math.round(value * 1000 + 1e-5) / 1000).toFixed(3)) + 0}`;
}
