import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { edgeJobs } from '../../support/edge-jobs.js';
import { apartJobs, squareJobs, togetherJobs } from '../../support/random-half-blind.js';
import { boxJobs, throughDovetailJobs } from '../../support/random-jobs.js';
import { type SolidJoint, solidJoint } from '../../support/solid-joint.js';

/**
 * Random joints in solid wood against the slices of the test cut, which are summed over nine levels. The slices are
 * Clipper's polygons, the solids are manifold's: nothing of the one is used by the other but where the bushing goes.
 */

/** The promise for each board, as a share of its volume. */
const AGREED = 0.005;

/** Jobs to be built of each kind, and how many more are drawn, for those that are refused. */
const WANTED = 2;
const SPARE = 4;
const SEED = 20261125;

/** Ample for a busy machine, ms. */
const TIME = 600_000;

/** What surfaces within a few thousandths of a mm, and slices that bend between two levels, can make of a room. */
const SHARE_OF_SPACE = 5e-4;

describe.each([
  ['through-dovetail', throughDovetailJobs],
  ['box', boxJobs],
  ['half-blind, together', togetherJobs],
  ['half-blind, apart', apartJobs],
  ['half-blind, square tails', squareJobs],
  ['edge', edgeJobs],
])('random joints in solid wood: %s', (_, jobs) => {
  test(
    'have the volumes that the slices have, and no wood in one place twice',
    async () => {
      const built: SolidJoint[] = [];
      for (const text of fc.sample(jobs, { numRuns: WANTED + SPARE, seed: SEED })) {
        if (built.length === WANTED) break;
        const joint = await solidJoint(text);
        if ('solid' in joint) built.push(joint);
      }
      expect(built).toHaveLength(WANTED);
      const worst = { board: 0, overlap: 0, voids: 0 };
      for (const { solid, slices } of built) {
        const { room, boards, overlap, voids } = solid.volumes;
        expect(boards).toHaveLength(2);
        for (const [i, { volume }] of boards.entries()) {
          const off = Math.abs(volume / (slices.boards[i]?.volume ?? 0) - 1);
          expect(off).toBeLessThan(AGREED);
          worst.board = Math.max(worst.board, off);
        }
        const [one, two] = boards.map(({ volume }) => volume);
        // Every part of the room is one board's, or nobody's.
        expect(((one ?? 0) + (two ?? 0) - overlap + voids) / room).toBeCloseTo(1, 4);
        expect(Math.abs(voids - slices.voids) / room).toBeLessThan(SHARE_OF_SPACE);
        expect(overlap / room).toBeLessThan(SHARE_OF_SPACE);
        worst.overlap = Math.max(worst.overlap, overlap / room);
        worst.voids = Math.max(worst.voids, Math.abs(voids - slices.voids) / room);
      }
      console.info(
        `${WANTED} joints, ${_}: boards within ${worst.board.toExponential(1)} of the slices; of the room, ` +
          `overlap ${worst.overlap.toExponential(1)}, voids within ${worst.voids.toExponential(1)}`,
      );
    },
    TIME,
  );
});
