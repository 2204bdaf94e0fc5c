import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cellsAlong } from '../../src/drawing/tiling/seams.js';

interface Count {
  reads: number;
}

/** Spans of a joint, every second one a finger to keep clear of; whoever asks where one lies is counted. */
function fingers(width: number, span: number, most: number, count: Count) {
  const read = (value: number): number => {
    count.reads += 1;
    if (count.reads > most) throw new Error(`places were asked for more than ${most} times`);
    return value;
  };
  return Array.from({ length: Math.floor(width / (2 * span)) }, (_, i) => ({
    get from() {
      return read(2 * i * span);
    },
    get to() {
      return read((2 * i + 1) * span);
    },
  }));
}

const OVERLAP = 10;

function readsOf(width: number, pages: number): number {
  const count = { reads: 0 };
  // Every seam may look at every pair of stretches a few times.
  const most = 8 * pages * (width / 24) ** 2;
  // Pages a little too short for one page fewer leave their seams the most room to stand in.
  const longest = OVERLAP + (width - OVERLAP) / (pages - 1 + 0.01);
  const keepClear = fingers(width, 12, most, count);
  expect(cellsAlong(0, width, { longest, overlap: OVERLAP, keepClear })).toHaveLength(pages);
  return count.reads;
}

describe('the work of finding seams', () => {
  test.each([10, 19, 33, 60])(
    'stays bounded on %i pages: places free before several seams do not multiply',
    (pages) => {
      expect(readsOf(2412, pages) / readsOf(1206, pages)).toBeLessThan(5);
    },
  );
});

test('cells show the whole length, none more than a page takes, whatever is kept clear', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 50, max: 2500, noNaN: true }),
      fc.double({ min: 40, max: 400, noNaN: true }),
      fc.array(
        fc.tuple(fc.double({ min: 0, max: 2500, noNaN: true }), fc.double({ min: 0, max: 60, noNaN: true })),
        {
          maxLength: 60,
        },
      ),
      (width, longest, places) => {
        const keepClear = places.map(([from, length]) => ({ from, to: from + length }));
        const cells = cellsAlong(0, width, { longest, overlap: 10, keepClear });
        expect(cells[0]?.from).toBe(0);
        expect(cells.at(-1)?.to).toBe(width);
        for (const [i, { to, shownFrom, shownTo }] of cells.entries()) {
          expect(shownTo - shownFrom).toBeLessThan(longest + 1e-6);
          expect(cells[i + 1]?.from ?? to).toBe(to);
        }
      },
    ),
    { numRuns: 300, seed: 5 },
  );
});
