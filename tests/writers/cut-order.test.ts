import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { Job } from '../../src/input/types.js';
import { solveJob } from '../../src/outputs/joint.js';
import { readSample, root } from '../support/jobs.js';
import { makeFiles } from '../support/made.js';

/** Many machines work from the top of a file down: what is cut free early is engraved, or cut, while it moves. */

const samples = readdirSync(join(root, 'samples')).filter(
  (name) => name.endsWith('.yaml') && !name.startsWith('shop') && !name.startsWith('refused'),
);

const order = ['ENGRAVE', 'SCORE', 'CUT', 'REF', 'STOCK'];

interface Line {
  readonly layer: string;
  /** Corners of the rectangle around its vertices. */
  readonly low: readonly [number, number];
  readonly high: readonly [number, number];
}

/** Polylines of a DXF file in the order of the file, read by the format's own rule: code and value take turns. */
function dxfLines(text: string): readonly Line[] {
  const rows = text.split('\n');
  const entities = rows.indexOf('ENTITIES');
  const lines: { layer: string; xs: number[]; ys: number[] }[] = [];
  for (let i = entities + 1; i + 1 < rows.length && rows[i + 1] !== 'ENDSEC'; i += 2) {
    const [code, value = ''] = [Number(rows[i]), rows[i + 1]];
    if (code === 0) lines.push({ layer: '', xs: [], ys: [] });
    const last = lines.at(-1);
    if (code === 8 && last) last.layer = value;
    if (code === 10) last?.xs.push(Number(value));
    if (code === 20) last?.ys.push(Number(value));
  }
  return lines.map(({ layer, xs, ys }) => boxed(layer, xs, ys));
}

/** Paths of an SVG file in the order of the file; ends of arcs stand for arcs. */
function svgLines(text: string): readonly Line[] {
  return [...text.matchAll(/<g id="(\w+)">(.*?)<\/g>/gs)].flatMap(([, layer = '', group = '']) =>
    [...group.matchAll(/ d="([^"]+)"/g)].map(([, data = '']) => {
      const ends = [...data.matchAll(/[ML]?(?:A\S+ \S+ 0 [01] [01] )?(-?[\d.]+) (-?[\d.]+)(?=[LAZ]|$)/g)];
      return boxed(
        layer,
        ends.map(([, x]) => Number(x)),
        ends.map(([, , y]) => Number(y)),
      );
    }),
  );
}

const boxed = (layer: string, xs: readonly number[], ys: readonly number[]): Line => ({
  layer,
  low: [Math.min(...xs), Math.min(...ys)],
  high: [Math.max(...xs), Math.max(...ys)],
});

const isInside = (inner: Line, outer: Line): boolean =>
  inner.low.every((one, i) => one > (outer.low[i] ?? 0)) &&
  inner.high.every((one, i) => one < (outer.high[i] ?? 0));

function judge(lines: readonly Line[], path: string): void {
  const ranks = lines.map(({ layer }) => order.indexOf(layer));
  expect(ranks, path).not.toContain(-1);
  expect(ranks, path).toEqual([...ranks].sort((a, b) => a - b));
  const cut = lines.filter(({ layer }) => layer === 'CUT');
  // Plates are convex as far as their holes go: what lies in a rectangle around an outline lies in the outline, or is
  // cut before it all the same.
  const late = cut.filter((one, i) => cut.slice(0, i).some((earlier) => isInside(one, earlier)));
  expect(late, path).toEqual([]);
}

async function judgeAll(job: Job): Promise<number> {
  const only = ['finger', 'marker', 'pattern', ...(job.shop.plate.sheet ? (['nest'] as const) : [])] as const;
  const files = await makeFiles(job, solveJob(job), { only, as: ['svg', 'dxf'] });
  let cut = 0;
  for (const { path, content } of files) {
    const lines = path.endsWith('.dxf')
      ? dxfLines(`${content}`)
      : path.endsWith('.svg')
        ? svgLines(`${content}`)
        : [];
    judge(lines, path);
    cut += lines.filter(({ layer }) => layer === 'CUT').length;
  }
  return cut;
}

describe.each(samples)('every drawing of %s', (sample) => {
  test('is engraved and scored before it is cut, and cut from the inside outward; REF and STOCK come last', async () => {
    const job = readSample(sample);
    expect(await judgeAll(job)).toBeGreaterThan(1);
    const laser = { ...job.shop.laser, kerf: 0.2 };
    const plate = { ...job.shop.plate, cutFor: 'laser', sheet: [2600, 900] } as const;
    expect(await judgeAll({ ...job, shop: { ...job.shop, laser, plate } })).toBeGreaterThan(1);
  });
});
