import fc from 'fast-check';
import { halfBlind } from './half-blind.js';
import { length, oneOf, room, round, slack, tailRow } from './random-jobs.js';

/** Random half-blind joints: the side, the front, one bit at one depth, flush or lipped. Lengths in mm. */

const tools = fc.record({
  bit: length(6, 19),
  angle: length(7, 14),
  side: length(7, 20),
  front: length(14, 25),
  deep: room,
  slack,
  wider: room,
});

interface Tools {
  readonly bit: number;
  readonly angle: number;
  readonly front: number;
  readonly deep: number;
}

/** A depth that leaves a lap of a quarter of the front and a neck of 2.6 mm on the bit. */
function depthFor({ bit, angle, front, deep }: Tools): { readonly depth: number; readonly lean: number } {
  const k = Math.tan((angle * Math.PI) / 180);
  const deepest = Math.min(0.75 * front, (bit / 2 - 1.3) / k);
  const depth = round(4 + deep * Math.max(0, deepest - 4.01));
  return { depth, lean: depth * k };
}

/** How much longer the bit's edge is than the cut is deep, mm. */
const SPARE = 1;

/** A fifth tail is cut as the second is: what takes time is better spent on another joint. */
const MAX_TAILS = 4;

const lips = fc.record({ end: length(3, 10), lower: length(0, 10), upper: length(0, 10) });

/** One template for both boards, at an even pitch; some fronts have a lip. */
export const togetherJobs: fc.Arbitrary<string> = fc
  .record({
    tools,
    tails: fc.integer({ min: 1, max: MAX_TAILS }),
    spare: room,
    lip: oneOf(false, false, true),
    lips,
  })
  .map(({ tools: some, tails, spare, lip, lips: reach }) => {
    const { depth, lean } = depthFor(some);
    const least = 2 * some.bit - 2 * lean - some.slack;
    // Round ends of the least pitch want a side at least this thick.
    const drawn = { ...some, side: round(Math.max(some.side, (least / 2 + lean) / 2 + 0.5)) };
    const widest = Math.max(least, Math.min(2.4 * drawn.bit, 2 * (2 * drawn.side - lean)));
    const pitch = least + 0.05 + spare * Math.max(0, widest - least - 0.1);
    const width = round((tails + 1 / 8) * pitch + lean / 4);
    const bushing = round(drawn.bit + (drawn.wider - 0.3) * 3);
    const joint = {
      width,
      method: 'together',
      layout: { spacing: 'even', tails },
      ...(lip ? { lip: { ...reach, rabbet: round(depth + 0.5) } } : {}),
    };
    return halfBlind({ ...drawn, depth, bushing, joint }, SPARE);
  });

/** A template for each board, at any spacing; some fronts have a lip. */
export const apartJobs = jobsApart('rounded');

/** The same with straight slots for the tails, whose corners are pared. */
export const squareJobs = jobsApart('square');

function jobsApart(inside: 'rounded' | 'square'): fc.Arbitrary<string> {
  return fc
    .record({ tools, lip: oneOf(false, false, true), lips })
    .chain(({ tools: some, lip, lips: reach }) => {
      // Pared to more than the side's thickness, a corner would show on the outside face.
      const side = inside === 'square' ? Math.max(some.side, round(some.bit / 2 + 0.5)) : some.side;
      const drawn = { ...some, side };
      const { depth, lean } = depthFor(drawn);
      const most = 2 * drawn.bit - 2 * lean - drawn.slack;
      const bushing = round(Math.max(drawn.bit * 0.7, most - 0.02 - drawn.wider * 0.6 * drawn.bit));
      const finger = 3 + bushing - drawn.bit;
      const leastPin = Math.max(drawn.bit, 2 * lean + 3, finger + 2 * lean);
      const leastTail = Math.max(3, drawn.bit - 2 * lean, finger + drawn.slack);
      return tailRow(leastPin, lean + 3, leastTail, MAX_TAILS).map(({ layout, width }) => {
        const joint = {
          width,
          method: 'apart',
          'tails-inside': inside,
          layout,
          ...(lip ? { lip: { ...reach, rabbet: round(depth + 0.5) } } : {}),
        };
        return halfBlind({ ...drawn, depth, bushing, joint }, SPARE);
      });
    });
}
