import { closed, open } from '../../drawing/drawing.js';
import type { Drawing, Item, Layer } from '../../drawing/model.js';
import type { ToolProgram } from '../../drawing/tool-moves.js';
import { circle, rectangle } from '../../geometry/outline.js';
import type { Segment } from '../../geometry/types.js';
import { type Motion, replay } from './interpreter.js';

/**
 * A picture of what a program does, drawn from its text: CUT where the tool is at its lowest, SCORE where it
 * marks or goes down in passes and ramps, REF dashed where it travels, STOCK the blank and the places where
 * the tool goes in. Program coordinates, mm.
 */
export function backplot(text: string, title: string, { width, height }: ToolProgram['blank']): Drawing {
  const { motions } = replay(text);
  const across = motions.filter(({ from, to }) => from.x !== to.x || from.y !== to.y);
  const bottom = Math.min(...motions.map(({ to }) => to.z ?? 0));
  const entries = motions.filter(
    ({ rapid, from, to }, i) =>
      !rapid && motions[i - 1]?.rapid === true && from.x === to.x && from.y === to.y,
  );
  return {
    title: `${title}, backplot`,
    notes: ['Drawn from the program by replaying it: solid where the tool cuts, dashed where it travels.'],
    items: [
      ...across.flatMap((motion) => itemOf(motion, bottom)),
      ...entries.flatMap(({ to }) =>
        to.x === undefined || to.y === undefined ? [] : [closed('STOCK', circle({ x: to.x, y: to.y }, 0.6))],
      ),
      closed('STOCK', rectangle(0, 0, width, height)),
    ],
  };
}

function itemOf(motion: Motion, bottom: number): readonly Item[] {
  const along = segmentOf(motion);
  if (!along) return [];
  const isLow = (motion.to.z ?? 0) <= bottom + 1e-6;
  const layer: Layer = motion.rapid ? 'REF' : isLow ? 'CUT' : 'SCORE';
  return [open(layer, { closed: false, segments: [along] }, motion.rapid)];
}

/** The way of a motion seen from above; none from a place that nothing has set. */
export function segmentOf({ from, to, arc }: Motion): Segment | undefined {
  if (from.x === undefined || from.y === undefined || to.x === undefined || to.y === undefined)
    return undefined;
  const [start, end] = [
    { x: from.x, y: from.y },
    { x: to.x, y: to.y },
  ];
  return arc ? { kind: 'arc', from: start, to: end, ...arc } : { kind: 'line', from: start, to: end };
}
