import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { formatterFor } from '../../../src/diagnostics/formatter.js';
import { extentsOf } from '../../../src/drawing/drawing.js';
import type { Region } from '../../../src/geometry/types.js';
import type { SolvedJoint } from '../../../src/joints/family.js';
import { patterns } from '../../../src/template/patterns/pattern.js';
import { area, intersection, type Polygons, rectangle, union } from '../../../src/verify/cut/polygons.js';
import { handJobs } from '../../support/hand-jobs.js';
import { readSample, readText, solveOnly } from '../../support/jobs.js';
import { boxJobs, throughDovetailJobs } from '../../support/random-jobs.js';
import { crossedTexts, meetingTexts, textBoxes } from '../../support/text-boxes.js';

const SEED = 20261125;

function solvedOf(text: string): SolvedJoint | undefined {
  return solveOnly(readText(text)).made?.solved;
}

/** Straight-sided outlines as the polygon library takes them. */
function polygonsOf(region: Region, dy = 0): Polygons {
  return region.map(({ segments }) =>
    segments.map(({ kind, from }) => {
      if (kind === 'arc') throw new Error('a straight-sided outline was expected');
      return { x: from.x, y: from.y + dy };
    }),
  );
}

describe('both strips mate when they are laid together', () => {
  test.each([
    ['through-dovetail', throughDovetailJobs, 50],
    ['box', boxJobs, 50],
    ['by hand', handJobs, 120],
  ])('what one board loses on its face the other keeps on its end: %s', (_, jobs, runs) => {
    let laid = 0;
    fc.assert(
      fc.property(jobs, (text) => {
        const solved = solvedOf(text);
        const [first, second] = solved?.markings ?? [];
        if (!solved || !first || !second) return;
        laid += 1;
        // The face of the first board, from its end to the baseline, lies on the second one's end grain, its
        // baseline on the inside face: below the lap, where there is one.
        const lap = second.material.thickness - first.depth;
        const face = polygonsOf(first.outsideFace.waste, lap);
        const end = polygonsOf(second.endGrain.waste);
        const panel = [rectangle({ minX: 0, minY: lap, maxX: solved.width, maxY: lap + first.depth })];
        expect(area(intersection(face, end))).toBeLessThan(1e-3);
        expect(Math.abs(area(union(face, end)) - area(panel))).toBeLessThan(1e-3);
        expect(Math.abs(area(face) + area(end) - area(panel))).toBeLessThan(1e-3);
      }),
      { numRuns: runs, seed: SEED },
    );
    expect(laid).toBeGreaterThan(runs / 3);
  });

  test('and a strip with one wall moved by 0.1 mm does not', () => {
    const solved = solvedOf(handThrough(90));
    const [first, second] = solved?.markings ?? [];
    if (!first || !second) throw new Error('no markings');
    const moved = polygonsOf(first.outsideFace.waste).map((ring, i) =>
      i === 1 ? ring.map(({ x, y }) => ({ x: x + 0.1, y })) : ring,
    );
    expect(area(intersection(moved, polygonsOf(second.endGrain.waste)))).toBeGreaterThan(0.5);
  });
});

function handThrough(width: number): string {
  return JSON.stringify({
    title: 'Specimen cabinet',
    units: 'mm',
    joints: {
      tray: {
        kind: 'through-dovetail',
        width,
        boards: { tails: { thickness: 8 }, pins: { thickness: 12 } },
        slope: '1:6',
        layout: { tails: 3 },
      },
    },
  });
}

describe('the strip', () => {
  test('no words meet each other, a wall, a mark, a fold or the edge, 20 mm to 900 mm wide', () => {
    let drawn = 0;
    fc.assert(
      fc.property(handJobs, (text) => {
        const solved = solvedOf(text);
        if (!solved) return;
        for (const { drawing } of patterns(
          solved,
          'Specimen cabinet, tray for the pressed ferns',
          formatterFor('in'),
        )) {
          drawn += 1;
          expect(meetingTexts(drawing)).toEqual([]);
          expect(crossedTexts(drawing, ['CUT', 'SCORE', 'ENGRAVE', 'REF'])).toEqual([]);
          const edge = extentsOf(drawing, ['CUT']);
          for (const { box } of textBoxes(drawing)) {
            expect(box.minX).toBeGreaterThan(0.5);
            expect(box.maxX).toBeLessThan(solved.width - 0.5);
            expect(box.minY).toBeGreaterThan((edge?.minY ?? 0) + 0.5);
            expect(box.maxY).toBeLessThan((edge?.maxY ?? 0) - 0.5);
          }
        }
      }),
      { numRuns: 50, seed: SEED },
    );
    expect(drawn).toBeGreaterThan(50);
  });

  test('says the slope as ratio and degrees (Noyes 1910: 3 by 5/8 is 11.77°, 1:4.8)', () => {
    const solved = solvedOf(handThrough(90).replace('1:6', '1:4.8'));
    if (!solved) throw new Error('refused');
    for (const { drawing } of patterns(solved, 'x', formatterFor('mm'))) {
      expect(textBoxes(drawing).map(({ text }) => text)).toContain('slope 1:4.8, 11.77°');
    }
  });

  test('carries the face mark once, on the outside face, and the edge mark on both faces, at the reference edge', () => {
    for (const name of ['case-corner.yaml', 'small-tray.yaml', 'slide-box.yaml']) {
      const solved = solveOnly(readSample(name)).made?.solved;
      if (!solved) throw new Error('refused');
      for (const { drawing } of patterns(solved, 'x', formatterFor('mm'))) {
        const starts = drawing.items.flatMap((item) =>
          item.kind === 'open' && item.layer === 'ENGRAVE' && item.path.segments[0]?.from.x === 0
            ? [item.path.segments]
            : [],
        );
        const loops = starts.filter((segments) => segments.some(({ kind }) => kind === 'arc'));
        expect(loops).toHaveLength(1);
        expect(loops[0]?.[0]?.from.y).toBeLessThan(0);
        const points = starts.filter((segments) => segments.length === 1).map((all) => all[0]?.from.y);
        expect(new Set(points).size).toBe(2);
      }
    }
  });

  test('words on the inside face stand on their head, to be read once it is folded over', () => {
    const solved = solvedOf(handThrough(90));
    if (!solved) throw new Error('refused');
    for (const { drawing } of patterns(solved, 'x', formatterFor('mm'))) {
      const angle = (words: string) =>
        drawing.items.find((item) => item.kind === 'text' && item.text === words);
      expect(angle('INSIDE FACE')).toMatchObject({ angle: Math.PI });
      expect(angle('OUTSIDE FACE')).toMatchObject({ angle: 0 });
    }
  });
});
