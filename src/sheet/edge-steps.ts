import { cautions } from '../../shared/cautions.js';
import type { Cut } from '../joints/family.js';
import { bitExtension } from '../joints/tools.js';
import { faceTo } from './bench.js';
import type { Step } from './document.js';
import type { SheetInput } from './input.js';
import { bitWords, boardName, capital } from './names.js';
import { sideOf } from './sides.js';

/**
 * The steps for two boards that meet edge to edge along a line. Each lies flat under a template of its own,
 * straight edge toward the operator, on a board that may be cut into. Board two is turned over about the joint:
 * its reference edge then goes against the same stop, and a bit that does not stand quite square slants both
 * edges the same way, so that they still close.
 */
export function edgeSteps(input: SheetInput, plates: readonly Step[]): readonly Step[] {
  const { cuts } = input.solved;
  if (cuts.length === 0) return handSteps(input);
  return [
    markStep(input),
    ...plates,
    ...cuts.flatMap((cut, i) => cutSteps(input, cut, i)),
    {
      text: 'Turn board two over again, so that both outside faces are up, and push the trial joint home on a flat bench, reference edges in line. Held against a light it closes all along the line.',
    },
    { text: 'Correct by the table, one change at a time, and cut another trial joint until it fits.' },
    {
      text: 'Cut every board two while this set-up stands, outside face down; then every board one, outside face up.',
    },
    {
      text: 'Glue up flat, reference edges in line, and clamp across the joint until it closes. Plane both faces, then cut the panel to its finished width.',
    },
  ];
}

/** Waste left standing beside the line before the router comes, mm. Common practice, no source. */
const SAWN_TO = 3;

function markStep({ solved, say }: SheetInput): Step {
  return {
    text: `Cut the blanks, with one spare of each kind: one edge straight and square to the reference edge, and together ${say.length(solved.meeting ?? 0)} wider across the joint than the finished panel. On each outside face write ONE or TWO and an arrow to the straight edge, and mark the reference edge with a V; it lies left on board one with the arrow toward you, left on board two with the arrow away from you.`,
  };
}

function cutSteps(input: SheetInput, cut: Cut, index: number): readonly Step[] {
  const { solved, say } = input;
  const before = solved.cuts[index - 1];
  const same = before && before.bit === cut.bit && before.bushing === cut.bushing;
  const tools: readonly Step[] = same
    ? []
    : [
        {
          text: `${cautions.unplug.text} ${capital(bitWords(cut.bit, say))} in bushing ${cut.bushing.name} (${say.length(cut.bushing.outside)}) for ${boardName(cut.board)}. Turn the bit by hand: it touches nothing.`,
        },
      ];
  const sameDepth = same && before.depth === cut.depth;
  return [...tools, ...(sameDepth ? [] : [depthStep(input, cut)]), ...layAndCut(input, cut, index)];
}

function depthStep({ shop, say }: SheetInput, cut: Cut): Step {
  const thickness = cut.stock[0]?.thickness ?? cut.depth;
  return {
    text: `Set the bit ${say.length(bitExtension(shop, cut.depth))} below the base: base on an offcut of the plate upon an offcut of ${boardName(cut.board)}, tip touching what they lie on, then ${say.length(cut.depth - thickness)} lower. Go down to it in two or three passes.`,
  };
}

function layAndCut(input: SheetInput, cut: Cut, index: number): readonly Step[] {
  const { joint, templates, solved, say } = input;
  const board = boardName(cut.board);
  const plate = sideOf(templates, cut)?.plate.name ?? '';
  const over =
    cut.board === 'two'
      ? ': turned over about the straight edge, like the page of a book, so that the same stop serves'
      : '';
  const last = index === solved.cuts.length - 1;
  return [
    {
      text: `Lay ${board} on a board that may be cut into, ${faceTo(joint.kind, cut.board)}${over}. ${plate} goes upon it, the board's straight edge toward you and on the scored line, its reference edge against a stop on the left line marked STOP.`,
      ...(index === 0 && { caution: cautions.secure.text }),
    },
    {
      text: `Cut a trial piece for ${board}, of scrap as thick as the work: saw to ${say.length(SAWN_TO)} before the line, then rout from left to right, bushing on the plate.`,
      caution: [
        ...(index === 0 ? [cautions.eyes.text, cautions.noise.text, cautions.dust.text] : []),
        ...(last ? [cautions.start.text] : []),
      ].join(' '),
    },
  ].map(({ caution, ...step }) => (caution ? { ...step, caution } : step));
}

function handSteps(input: SheetInput): readonly Step[] {
  return [
    markStep(input),
    {
      text: 'Print the patterns at 100 %, measure their scale bars, and glue them over the straight edges, face on face by their words, reference edges on reference edges.',
    },
    {
      text: `Saw board one on the waste side, which is crossed, ${input.say.length(1)} before the line; work down to the line with rasp and file, square to the face.`,
      caution: cautions.fingers.text,
    },
    {
      text: 'Lay board one on board two, reference edges in line, and mark board two from it before you trust the pattern.',
    },
    {
      text: 'Saw board two and work it to the line; try the joint against a light, and ease where it is dark.',
    },
    {
      text: 'Glue up flat, reference edges in line. Plane both faces, then cut the panel to its finished width.',
    },
  ];
}
