import { cautions } from '../../shared/cautions.js';
import { boardName } from '../findings/board-names.js';
import type { Cut } from '../joints/family.js';
import { bitExtension } from '../joints/tools.js';
import type { Step } from './document.js';
import type { SheetInput } from './input.js';
import { toolWords } from './set-up-steps.js';
import { sideOf } from './sides.js';
import { lieWords } from './stands.js';

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
      text: 'Turn board two over again, so that both outside faces are up, and push the trial joint together on a flat bench, reference edges in line. Hold it against a light: it must close all along the line.',
    },
    { text: 'Correct by the table, one change at a time, and cut another trial joint until it fits.' },
    {
      text: 'Cut all boards two while this set-up stands, outside face down; then lay finger-template-one on and cut all boards one, outside face up.',
    },
    {
      text: 'Glue up flat, reference edges in line, and clamp across the joint until it closes. Plane both faces, then cut the panel to its finished size.',
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
  const before = input.solved.cuts[index - 1];
  const same = before && before.bit === cut.bit && before.depth === cut.depth;
  return [
    ...(before?.bit === cut.bit ? [] : [{ text: toolWords(input, cut, before) }]),
    ...(same ? [] : [depthStep(input, cut)]),
    ...layAndCut(input, cut, index === 0),
  ];
}

function depthStep({ shop, say }: SheetInput, cut: Cut): Step {
  const thickness = cut.stock[0]?.thickness ?? cut.depth;
  return {
    text: `Set the bit ${say.length(bitExtension(shop, cut.depth))} below the base: stand the base on offcuts of the plate that lie on offcuts of ${boardName(cut.board)}, lower the bit between them until its tip touches the bench, then by ${say.length(cut.depth - thickness)} more. Go down to that depth in two or three passes.`,
  };
}

function layAndCut(input: SheetInput, cut: Cut, first: boolean): readonly Step[] {
  const { joint, templates, say } = input;
  const board = boardName(cut.board);
  const plate = sideOf(templates, cut)?.plate.name ?? '';
  const over =
    cut.board === 'two'
      ? ', turned over about the straight edge like the page of a book, so that the same stop serves'
      : '';
  const lay = `Lay ${board} on a board that may be cut into, ${lieWords(joint.kind, cut.board)}${over}. Lay ${plate} on it: the straight edge is toward you and on the scored line, the reference edge against a stop on the left line marked STOP.`;
  const trial = `Cut a trial piece for ${board}, of scrap as thick as the work: saw ${say.length(SAWN_TO)} outside the line, then rout from left to right, the bushing against the plate.`;
  if (!first) return [{ text: lay }, { text: trial }];
  const spoken = [cautions.start, cautions.eyes, cautions.noise, cautions.dust].map(({ text }) => text);
  return [
    { text: lay, caution: cautions.secure.text },
    { text: trial, caution: spoken.join(' ') },
  ];
}

function handSteps(input: SheetInput): readonly Step[] {
  return [
    markStep(input),
    {
      text: 'Print the patterns at 100 %, measure their scale bars, and glue them over the straight edges, each face as its pattern says, reference edge on reference edge.',
    },
    {
      text: `Saw board one on the waste side, which is crossed out, ${input.say.length(1)} outside the line. Work down to the line with rasp and file, square to the face.`,
      caution: cautions.fingers.text,
    },
    {
      text: 'Lay board one on board two, reference edges in line, and mark board two from it if the pattern differs.',
    },
    {
      text: 'Saw board two and work it to the line. Try the joint against a light and file where no light comes through.',
    },
    {
      text: 'Glue up flat, reference edges in line. Plane both faces, then cut the panel to its finished size.',
    },
  ];
}
