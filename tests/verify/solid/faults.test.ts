import { describe, expect, test } from 'vitest';
import { families } from '../../../src/joints/list.js';
import type { TestCutRequest } from '../../../src/verify/assemble.js';
import { solidOrThrow } from '../../support/solid-joint.js';

/** What the volumes say of a joint that is cut wrongly. */

const starter = (kind: string): string => families.find((one) => one.kind === kind)?.starter ?? '';

/** Narrow: a few tails show what a whole drawer shows. */
const narrow = (text: string): string => text.replace('width: 4-1/2', 'width: 2-1/2');

const withTools =
  ({ bushing = 0, bit = 0 }: { readonly bushing?: number; readonly bit?: number }) =>
  (request: TestCutRequest): TestCutRequest => ({
    ...request,
    boards: request.boards.map((board) => ({
      ...board,
      bushing: board.bushing + bushing,
      cutter: { ...board.cutter, diameter: board.cutter.diameter + bit },
    })),
  });

describe.each([
  ['through-dovetail', { bushing: 0.4 }],
  // Its openings are as wide as the bushing: a larger one does not go in.
  ['box', { bit: -0.4 }],
  ['half-blind-dovetail', { bushing: 0.4 }],
])('a faulty %s', (kind, fault) => {
  test('wants more of one room with a bushing too large for its bit, and leaves more of it with one too small', async () => {
    const text = narrow(starter(kind));
    const sound = (await solidOrThrow(text)).solid.volumes;
    const tight = await solidOrThrow(text, withTools(fault));
    const loose = (await solidOrThrow(text, withTools({ bushing: -0.4 }))).solid.volumes;
    expect(sound.overlap / sound.room).toBeLessThan(2e-4);
    expect(tight.solid.volumes.overlap / sound.room).toBeGreaterThan(2e-3);
    expect(Math.abs(tight.solid.volumes.overlap / tight.slices.overlap - 1)).toBeLessThan(0.02);
    expect(tight.solid.volumes.voids).toBeLessThan(sound.voids);
    expect(loose.overlap / sound.room).toBeLessThan(2e-4);
    expect(loose.voids).toBeGreaterThan(sound.voids + 2e-3 * sound.room);
  });
});

test('a board shifted by 0.3 mm shows as overlap on one side and voids on the other, alike', async () => {
  const text = starter('box').replace(/slack: [\d./]+/, 'slack: 0');
  const moved = await solidOrThrow(text, (request) => ({
    ...request,
    boards: request.boards.map((board, i) =>
      i === 0
        ? {
            ...board,
            drawing: {
              ...board.drawing,
              layers: {
                ...board.drawing.layers,
                CUT: (board.drawing.layers.CUT ?? []).map((ring) =>
                  ring.map(({ x, y }) => ({ x: x + 0.3, y })),
                ),
              },
            },
          }
        : board,
    ),
  }));
  const { overlap, voids, room } = moved.solid.volumes;
  expect(overlap / room).toBeGreaterThan(1e-3);
  expect(overlap / voids).toBeGreaterThan(0.8);
  expect(overlap / voids).toBeLessThan(1.25);
});
