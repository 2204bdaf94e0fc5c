import type { Item } from '../drawing/model.js';
import type { Extents, Point } from '../geometry/types.js';
import { DESCENT, inLines, lettering, ruled } from './items.js';

/** Words beside a figure, each with a line to the thing that it names. */
export interface Callout {
  /** The place that is named, mm on paper. */
  readonly at: Point;
  /** A line feed begins a new line. */
  readonly text: string;
}

/** Capital height of the words, mm. */
export const CALLOUT_LETTERS = 2.4;
const LINE_STEP = 1.65 * CALLOUT_LETTERS;

/** Room between two callouts, and between the figure and the column, mm. */
const GAP = 1.8;
const ASIDE = 5;

interface Label {
  readonly callout: Callout;
  readonly lines: readonly string[];
  readonly height: number;
}

/**
 * A column of callouts at one side of a box, in the order of their places from above, so that lines do not
 * cross words. `width` is the column's, mm.
 */
export function calloutColumn(
  callouts: readonly Callout[],
  around: Extents,
  side: 'left' | 'right',
  width: number,
): readonly Item[] {
  const labels = callouts
    .toSorted((a, b) => b.at.y - a.at.y)
    .map((callout): Label => {
      const lines = callout.text.split('\n').flatMap((words) => inLines(words, CALLOUT_LETTERS, width));
      return { callout, lines, height: (lines.length - 1) * LINE_STEP + (1 + DESCENT) * CALLOUT_LETTERS };
    });
  const edge = side === 'left' ? around.minX - ASIDE : around.maxX + ASIDE;
  const outward = side === 'left' ? -1 : 1;
  const tops = topsOf(labels, around);
  return labels.flatMap(({ callout, lines }, i) => {
    const top = tops[i] ?? 0;
    const end = { x: edge, y: top - CALLOUT_LETTERS / 2 };
    return [
      ruled('guide', callout.at, end),
      ...lines.map((words, k) =>
        lettering(
          words,
          { x: edge + outward * 1.2, y: top - CALLOUT_LETTERS - k * LINE_STEP },
          CALLOUT_LETTERS,
          side === 'left' ? 'end' : 'start',
        ),
      ),
    ];
  });
}

/** Tops of the labels: each as near to its place as the one above lets it, the column kept to the box if it can be. */
function topsOf(labels: readonly Label[], around: Extents): readonly number[] {
  const total = labels.reduce((sum, { height }) => sum + height + GAP, -GAP);
  const room = Math.max(around.maxY - around.minY, total);
  const ceiling = (around.maxY + around.minY) / 2 + room / 2;
  let below = total;
  let next = ceiling;
  return labels.map(({ callout, height }) => {
    // What stands below this one must still find its room above the floor.
    const least = ceiling - room + below;
    const top = Math.max(Math.min(next, callout.at.y + CALLOUT_LETTERS / 2), Math.min(next, least));
    next = top - height - GAP;
    below -= height + GAP;
    return top;
  });
}
