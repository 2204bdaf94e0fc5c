import { cautions } from '../../shared/cautions.js';
import { sentence } from '../diagnostics/catalogue.js';
import type { Diagnostic } from '../diagnostics/diagnostic.js';
import { lipOf, wordsOf } from '../joints/boards.js';
import { boardSteps } from './board-steps.js';
import { lettersOf } from './corners.js';
import { boardsOf } from './cut-list.js';
import type { SheetStep } from './document.js';
import type { SheetInput } from './input.js';
import { capital, listed, wordsText } from './names.js';
import { partSteps } from './part-steps.js';
import { plateSteps } from './plate-steps.js';
import { setUpSteps, trialStands } from './set-up-steps.js';
import { standsOf } from './stands.js';

/** The steps in the order of work, one line each, numbers filled in. */
export function stepsOf(input: SheetInput): readonly SheetStep[] {
  const { cuts, setUp } = input.solved;
  if (setUp.at === 'boards') return boardSteps(input, setUp, plateSteps(input));
  if (cuts.length === 0) return handSteps(input);
  return [
    markStep(input),
    ...rabbetSteps(input),
    ...plateSteps(input),
    ...cuts.flatMap((cut, i) => setUpSteps(input, cut, i)),
    ...pareSteps(input, 'On the trial piece'),
    {
      text: 'Push the trial joint together, outside faces out. Measure it and fill in the boxes below.',
    },
    {
      text: `Correct by the table, one change at a time, until it fits.${otherStops(input)}`,
    },
    ...partSteps(input),
    ...pareSteps(input, 'On every tail board'),
    ...grooveSteps(input),
    ...glueSteps(input),
  ];
}

function markStep(input: SheetInput): SheetStep {
  const { pieces } = input;
  const others = otherJoints(input);
  const asListed = pieces.length > 0 ? ' as the cut list says' : '';
  const had = others.length > 0 ? ` (the same parts as for ${listed(others)})` : '';
  return {
    text: `Cut the parts${asListed}, with one spare of each kind${had}. Letter the outside faces and number the ends as pictured; mark each reference edge with a V.`,
  };
}

/** Joints at the other corners of the same pieces. */
function otherJoints({ joint, pieces }: SheetInput): readonly string[] {
  const names = pieces.flatMap(({ front, back }) => [front.joint.name, ...(back ? [back.joint.name] : [])]);
  return [...new Set(names)].filter((name) => name !== joint.name);
}

/** The stops that the trial corner does not use are tried at another corner. */
function otherStops(input: SheetInput): string {
  const stands = standsOf(input);
  const used = trialStands(stands).map(({ board, stop, template }) => `${board} ${stop} ${template}`);
  const other = stands.find(({ board, stop, template }) => !used.includes(`${board} ${stop} ${template}`));
  return other ? ` Then try corner ${other.corner}, at the other stops.` : '';
}

/** The rabbet of a lipped front, cut before its sockets, so that the bit comes out over the lip. */
function rabbetSteps(input: SheetInput): readonly SheetStep[] {
  const { solved, fmt } = input;
  const front = solved.boards.find(({ lip }) => lip);
  const lip = front?.lip;
  if (!lip) return [];
  const sides: readonly (readonly [number, string])[] = [
    [lip.end, 'both ends'],
    [lip.lower, 'the reference edge'],
    [lip.upper, 'the other edge'],
  ];
  const widths = [...new Set(sides.map(([width]) => width))].filter((width) => width > 0);
  const where = widths.map((width) => {
    const along = sides.filter((one) => one[0] === width).map((one) => one[1]);
    return `${fmt.length(width)} wide ${along.length === sides.length ? 'all round' : `along ${listed(along)}`}`;
  });
  const letters = lettersOf(standsOf(input).filter(({ board }) => board === front.board));
  return [
    {
      text: `Cut the rabbet on the inside face of ${letters} and of its trial piece first, before the sockets: ${listed(where)}, ${fmt.length(lip.rabbet)} deep, with a straight or rabbeting bit in a router table.`,
    },
  ];
}

function pareSteps(input: SheetInput, where: string): readonly SheetStep[] {
  return input.diagnostics
    .filter(({ code }) => code === 'tails-to-pare')
    .map((one) => ({ text: `${where} ${sentence(one, input.fmt)}.`, caution: cautions.fingers.text }));
}

/** Where the groove for a bottom goes, and what it meets at the corner. */
function grooveSteps({ joint, solved, pieces, diagnostics, fmt }: SheetInput): readonly SheetStep[] {
  const { groove } = joint.layout;
  if (!groove) return [];
  const depths = [...new Set(pieces.flatMap(({ piece }) => piece.grooveDepth ?? []))];
  const deep = depths.length === 1 ? `, ${fmt.length(depths[0] ?? 0)} deep` : '';
  const lower = lipOf(solved)?.lower ?? 0;
  const onFront =
    lower > 0 ? `, on the front ${fmt.length(groove.from + lower)} from the edge of its lip` : '';
  const met = diagnostics
    .filter(({ code }) => grooveCodes.includes(code) && code !== 'groove-in-tail')
    .map((one) => ` ${capital(sentence(one, fmt))}.`);
  return [
    {
      text: `Cut the groove for the bottom into the inside faces: ${fmt.length(groove.width)} wide${deep}, its lower side ${fmt.length(groove.from)} from the reference edge${onFront}.${met.join('')}`,
    },
  ];
}

export const grooveCodes: readonly Diagnostic['code'][] = [
  'groove-in-tail',
  'groove-in-finger',
  'groove-outside-tails',
  'groove-across-fingers',
];

function glueSteps(input: SheetInput): readonly SheetStep[] {
  const { setUp } = input.solved;
  const others = otherJoints(input);
  const start = `${others.length > 0 ? `Cut ${listed(others)}, too. Then glue` : 'Glue'} up; both diagonals must be equal.`;
  const flush = setUp.at === 'corners' && setUp.flush ? ` ${wordsText(setUp.flush, input.fmt)}` : '';
  return [{ text: `${start}${flush}` }];
}

function handSteps(input: SheetInput): readonly SheetStep[] {
  const [first, second] = boardsOf(input).map(({ board }) => wordsOf(input.solved, board).the);
  return [
    markStep(input),
    {
      text: 'Print the patterns at 100 % and measure their scale bars. Glue them over the ends as the table says, reference edge on reference edge.',
    },
    {
      text: `Cut the lines of ${first} through the paper with a knife. Saw on the waste side, which is crossed out.`,
      caution: cautions.fingers.text,
    },
    {
      text: `Chop to the baseline from both faces. Lay ${first} on ${second} and mark it from there, if the pattern differs.`,
    },
    {
      text: `Saw and chop ${second}. Try the joint once, not all the way, and pare where it binds.`,
    },
    ...grooveSteps(input),
    ...glueSteps(input),
  ];
}
