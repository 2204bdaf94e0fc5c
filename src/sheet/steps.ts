import { cautions } from '../../shared/cautions.js';
import { sentence } from '../findings/catalogue.js';
import type { Code } from '../findings/finding.js';
import { extents } from '../geometry/outline.js';
import type { Cut } from '../joints/family.js';
import { bitExtension } from '../joints/tools.js';
import { benchOf } from './bench.js';
import { boardsOf, proudOf } from './cut-list.js';
import type { Step } from './document.js';
import { isAlongLine } from './edge-blocks.js';
import { edgeSteps } from './edge-steps.js';
import type { SheetInput } from './input.js';
import { aBoard, bitWords, boardName, capital, theBoard } from './names.js';
import { plateSteps } from './plate-steps.js';
import { sideOf } from './sides.js';

/** Findings that ask for a move at the bench, so that they stand among the steps. */
export const setUpCodes: readonly Code[] = [
  'lip-set-up',
  'second-end-mirrored',
  'second-end-turned',
  'tails-to-pare',
  'every-second-moves',
  'one-plate-placed',
];

/** The steps in the order of work, one line each, numbers filled in. */
export function stepsOf(input: SheetInput): readonly Step[] {
  const { cuts } = input.solved;
  if (isAlongLine(input.solved)) return edgeSteps(input, plateSteps(input));
  if (cuts.length === 0) return handSteps(input);
  return [
    markStep(input),
    ...plateSteps(input),
    ...cuts.flatMap((cut, i) => setUpSteps(input, cut, i)),
    {
      text: 'Push the trial joint together. Measure it and write the numbers in the boxes below.',
    },
    { text: 'Correct by the table, one change at a time, and cut another trial joint until it fits.' },
    ...partSteps(input),
    ...saying(input, ['second-end-mirrored', 'second-end-turned']),
    ...saying(input, ['tails-to-pare'], cautions.fingers.text),
    ...trimSteps(input),
  ];
}

function markStep({ pieces }: SheetInput): Step {
  const grain = pieces.length > 0 ? ' as the cut list has them' : '';
  return {
    text: `Cut the parts${grain}, with one spare of each kind. Write A to D on the outside faces and 1 to 4 at the ends, and mark each reference edge with a V.`,
  };
}

function setUpSteps(input: SheetInput, cut: Cut, index: number): readonly Step[] {
  const { say, shop, templates, solved } = input;
  const before = solved.cuts[index - 1];
  const same = before && before.bit === cut.bit && before.bushing === cut.bushing;
  const extension = bitExtension(shop, cut.depth);
  const tools: readonly Step[] = same
    ? []
    : [
        {
          text: `${cautions.unplug.text} ${capital(bitWords(cut.bit, say))} in bushing ${cut.bushing.name} (${say.length(cut.bushing.outside)}) for ${theBoard(cut.board)}. Turn the bit by hand: it touches nothing.`,
        },
      ];
  const depth: readonly Step[] =
    before?.depth === cut.depth
      ? same
        ? []
        : [{ text: `Set the bit by the same blocks, ${say.length(extension)} below the base.` }]
      : [{ text: `Set the bit ${say.length(extension)} below the base: ${blockWords(input, cut)}.` }];
  const stand = sideOf(templates, cut);
  return [
    ...tools,
    ...depth,
    ...(stand ? standSteps(input, cut, stand, index === 0) : []),
    ...moveSteps(input, cut, stand?.plate.name, index),
    trialStep(input, cut, index),
  ];
}

/** The depth as blocks to set it by: an offcut of a board where one is as thick as the cut is deep. */
function blockWords({ say, solved }: SheetInput, cut: Cut): string {
  const own = cut.stock.map(({ board }) => board);
  const [board] = solved.markings
    .filter(({ material }) => Math.abs(material.thickness - cut.depth) < SAME_THICKNESS)
    .toSorted((a, b) => Number(own.includes(a.board)) - Number(own.includes(b.board)));
  const block = board ? aBoard(board.board) : `a block ${say.length(cut.depth)} thick`;
  return `base on an offcut of the plate upon ${block}, tip just touching what they lie on`;
}

/** An offcut that is off by less sets the depth as well as the eye can, mm. */
const SAME_THICKNESS = 0.02;

function standSteps(
  { joint, say }: SheetInput,
  cut: Cut,
  { side, plate }: NonNullable<ReturnType<typeof sideOf>>,
  first: boolean,
): readonly Step[] {
  const bench = benchOf(side, joint.kind);
  const stop = `Clamp the stop with its edge on the line marked STOP`;
  const turned = side.turned ? ', the plate turned by half a turn' : '';
  if (bench.backing) {
    const thick = bench.backing.to - bench.backing.from;
    if (!first && !turned) {
      return [
        {
          text: `Fit ${plate.name} with a fresh place of the backing, ${say.length(thick)} thick or more, behind it; stop as before.`,
        },
      ];
    }
    return [
      {
        text: `${stop}${turned}; behind the work the backing, ${say.length(thick)} thick or more, its face on the scored fence line.`,
        ...(first && { caution: cautions.secure.text }),
      },
    ];
  }
  const both = cut.stock.length > 1;
  const offset = both ? offsetOf(cut) : 0;
  return [
    {
      text: both
        ? `Clamp a stop for each board on the lines marked STOP: the tail board stands ${say.length(Math.abs(offset))} further along than the pin board, its end flush with the pin board's inside face.`
        : `Under ${plate.name} the board lies flat, its end on the scored line, against a stop on the line marked STOP.`,
      ...(first && { caution: cautions.secure.text }),
    },
  ];
}

function offsetOf(cut: Cut): number {
  const [one, other] = cut.stock.map(({ outline }) => extents(outline).minX);
  return (one ?? 0) - (other ?? 0);
}

function trialStep({ solved }: SheetInput, cut: Cut, index: number): Step {
  const text = `Cut one end of a trial piece for ${theBoard(cut.board)}, of scrap as thick and as wide as the work.`;
  const spoken = [
    ...(index === 0 ? [cautions.eyes.text, cautions.noise.text, cautions.dust.text] : []),
    ...(index === solved.cuts.length - 1 ? [cautions.start.text] : []),
  ];
  return spoken.length > 0 ? { text, caution: spoken.join(' ') } : { text };
}

function partSteps(input: SheetInput): readonly Step[] {
  const { cuts } = input.solved;
  const [first, second] = cuts;
  if (!second) {
    return [
      {
        text: 'Cut all corners of one hand at the left stop, then all of the other hand at the right stop, as the table of corners says.',
      },
    ];
  }
  const again =
    first && first.bit !== second.bit
      ? `Set up for ${theBoard(first.board)} again by the same blocks and cut all of them, both ends.`
      : `Then cut every ${boardName(first?.board ?? '')}, both ends.`;
  return [
    {
      text: `Cut every ${boardName(second.board)}, both ends, as the table of corners says, while this set-up stands.`,
    },
    { text: again },
  ];
}

function trimSteps(input: SheetInput): readonly Step[] {
  const { joint, say } = input;
  if (joint.kind === 'half-blind-dovetail')
    return [{ text: 'Glue up, check both diagonals, and sand the sides flush.' }];
  const proud = proudOf(input);
  return [
    {
      text:
        proud > 0
          ? `Glue up, check both diagonals, and trim the pins, ${say.length(proud)} proud, flush.`
          : 'Glue up, check both diagonals, and plane or sand the ends flush where they stand proud.',
    },
  ];
}

/** Moves that belong to one cut, said before its trial. */
function moveSteps(
  input: SheetInput,
  cut: Cut,
  template: string | undefined,
  index: number,
): readonly Step[] {
  const ofThisCut = input.findings.filter((one) => {
    if (one.code === 'lip-set-up') return cut.board === 'sockets';
    if (one.code === 'every-second-moves') return one.data.template === template;
    return one.code === 'one-plate-placed' && index === 0;
  });
  return saying({ ...input, findings: ofThisCut }, setUpCodes);
}

/** The sentences of findings that ask for a move, each as a step of its own. */
function saying(input: SheetInput, codes: readonly Code[], caution?: string): readonly Step[] {
  return input.findings
    .filter(({ code }) => codes.includes(code))
    .map((one) => ({ text: `${capital(sentence(one, input.say))}.`, ...(caution && { caution }) }));
}

function handSteps(input: SheetInput): readonly Step[] {
  const [first, second] = boardsOf(input);
  return [
    markStep(input),
    {
      text: 'Print the patterns at 100 %, measure their scale bars, glue them over the ends on the reference edges.',
    },
    {
      text: `Knife the lines of ${theBoard(first.board)} through the paper; saw on the waste side, which is crossed.`,
      caution: cautions.fingers.text,
    },
    {
      text: `Chop to the baseline from both faces, and mark ${theBoard(second.board)} from it before you trust the pattern.`,
    },
    {
      text: `Saw and chop ${theBoard(second.board)}; try the joint once, not home, and pare where it binds.`,
    },
    ...saying(input, ['tails-to-pare']),
    ...trimSteps(input),
  ];
}
