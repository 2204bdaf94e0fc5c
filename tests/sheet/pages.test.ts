import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { paperSizes } from '../../shared/paper.js';
import type { Item } from '../../src/drawing/model.js';
import type { Job } from '../../src/input/types.js';
import { families } from '../../src/joints/list.js';
import { layPages } from '../../src/sheet/pages.js';
import { readSample, readText, root } from '../support/jobs.js';
import { problemsOn } from './overlaps.js';
import { makeSheets } from './sheets.js';

const samples = readdirSync(join(root, 'samples')).filter(
  (name) => name.endsWith('.yaml') && !/^shop|refused/.test(name),
);
const MARGIN = 10;

/** Every page of every sheet of a job, with what is wrong on it. */
function judged(job: Job, paper: keyof typeof paperSizes) {
  const size = paperSizes[paper] ?? { width: 0, height: 0 };
  return makeSheets(job).map(({ name, document }) => {
    const pages = layPages(document, { ...size, margin: MARGIN });
    return { name, pages, troubles: pages.flatMap((page) => problemsOn(page, MARGIN)) };
  });
}

describe('every sample, on Letter and A4', () => {
  test.each(samples)('%s: nothing overlaps, nothing is cut off, no more than three pages', (name) => {
    for (const paper of ['letter', 'a4']) {
      const sheets = judged(readSample(name), paper);
      expect(sheets.length).toBeGreaterThan(0);
      for (const sheet of sheets) {
        expect(sheet.troubles, `${sheet.name} on ${paper}`).toEqual([]);
        expect(sheet.pages.length, `${sheet.name} on ${paper}`).toBeLessThanOrEqual(3);
      }
    }
  });
});

const tray = (fields: { title?: string; width?: string; layout?: string }) => `
title: ${fields.title ?? 'Specimen cabinet'}
units: in
shop: ./shop.yaml
joints:
  tray:
    kind: through-dovetail
    width: ${fields.width ?? '5-1/2'}
    boards: { tails: { thickness: 1/2 }, pins: { thickness: 1/2 } }
    layout: { ${fields.layout ?? 'spacing: even'} }
    cutters: { tails: half-8, pins: straight-38 }
    bushing: seven-sixteenths
`;

const withKind = (kind: string, more: string) => `
title: Specimen cabinet
units: in
shop: ./shop.yaml
joints:
  part:
    kind: ${kind}
    ${more}
`;

describe('every way of cutting', () => {
  const jobs: readonly (readonly [string, string])[] = [
    ...families.map(({ kind, starter }) => [`starter job: ${kind}`, starter] as const),
    [
      'one plate for both boards',
      withKind(
        'through-dovetail',
        'width: 5\n    boards: { tails: { thickness: 1/2 }, pins: { thickness: 1/2 } }\n    cutters: { tails: half-8, pins: straight-38 }\n    bushing: seven-sixteenths\n    template: { plate: one }',
      ),
    ],
    [
      'every second slot',
      withKind(
        'box',
        'width: 3-1/2\n    boards: { one: { thickness: 3/8 }, two: { thickness: 3/8 } }\n    layout: { finger: 1/2 }\n    cutter: straight-38\n    bushing: five-eighths\n    template: { slots: every-second }',
      ),
    ],
    [
      'square tails and a lip',
      withKind(
        'half-blind-dovetail',
        'width: 5-1/4\n    boards: { tails: { thickness: 1/2 }, pins: { thickness: 3/4 } }\n    layout: { tails: 2 }\n    tails-inside: square\n    depth: 1/2\n    lip: { end: 3/8, lower: 3/8, upper: 3/8, rabbet: 1/2 }\n    cutter: half-8\n    bushing: seven-sixteenths',
      ),
    ],
    [
      'by hand',
      withKind(
        'half-blind-dovetail',
        'width: 90 mm\n    slope: 1:7\n    boards: { tails: { thickness: 12 mm }, pins: { thickness: 19 mm } }',
      ),
    ],
  ];
  test.each(jobs)('%s', (_, text) => {
    const sheets = judged(readText(text), 'letter');
    expect(sheets.length).toBeGreaterThan(0);
    for (const { troubles } of sheets) expect(troubles).toEqual([]);
  });
});

describe('odd sizes', () => {
  test.each([
    [
      'a title of many words',
      tray({ title: 'Cabinet for pressed specimens of the northern moors '.repeat(3).trim() }),
    ],
    ['a title without a space', tray({ title: 'x'.repeat(200) })],
    ['a narrow joint', tray({ width: '1-3/4' })],
    ['a wide joint', tray({ width: '31' })],
    ['many tails', tray({ width: '24', layout: 'spacing: even, tails: 15' })],
    ['an uneven row', tray({ width: '9', layout: 'spacing: graduated, tails: 4, ratio: 1.2' })],
  ])('%s', (_, text) => {
    for (const paper of ['letter', 'a4', 'a5']) {
      for (const { troubles } of judged(readText(text), paper)) expect(troubles, paper).toEqual([]);
    }
  });

  test('the check finds words on words and a line through words', () => {
    const words = (x: number) => ({
      kind: 'text' as const,
      face: 'sans' as const,
      layer: 'ENGRAVE' as const,
      text: 'stop',
      at: { x, y: 50 },
      height: 3,
      angle: 0,
      align: 'start' as const,
    });
    const line = {
      kind: 'open' as const,
      layer: 'REF' as const,
      path: {
        closed: false as const,
        segments: [{ kind: 'line' as const, from: { x: 20, y: 51 }, to: { x: 60, y: 51 } }],
      },
    };
    const page = (...items: Item[]) => ({ width: 100, height: 100, parts: [{ items }] });
    expect(problemsOn(page(words(30), words(32), line), 10)).toHaveLength(3);
    expect(problemsOn(page(words(5)), 10)).toHaveLength(1);
  });
});
