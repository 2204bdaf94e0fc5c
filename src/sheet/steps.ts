import { cautions } from '../../shared/cautions.js';
import type { Diagnostic } from '../diagnostics/diagnostic.js';
import { lipOf, wordsOf } from '../joints/boards.js';
import { boardSteps } from './board-steps.js';
import { lettersOf } from './corners.js';
import type { SheetStep } from './document.js';
import { handWork } from './hand.js';
import type { SheetInput } from './input.js';
import { listed, wordsText } from './names.js';
import { plateSteps } from './plate-steps.js';
import { setUpSteps, trialStands } from './set-up-steps.js';
import { standsOf } from './stands.js';

/** Steps under a heading of their own, numbered on. */
export interface StepGroup {
  readonly title: string;
  readonly steps: readonly SheetStep[];
}

/** The steps in the order of work, numbers filled in; how each end lies is on the cards. */
export function stepGroups(input: SheetInput): readonly StepGroup[] {
  const { cuts, setUp } = input.solved;
  const all = 'Steps, in the order of work';
  if (setUp.at === 'boards') return [{ title: all, steps: boardSteps(input, setUp, plateSteps(input)) }];
  if (cuts.length === 0) return [{ title: all, steps: handSteps(input) }];
  return [
    {
      title: 'Before the router runs',
      steps: [...plateSteps(input), markStep(input), ...rabbetSteps(input)],
    },
    {
      title: 'The trial joint, on scrap',
      steps: [
        ...cuts.flatMap((cut, i) => setUpSteps(input, cut, i)),
        ...pareSteps(input, 'On the trial piece'),
        { text: 'Push the trial joint together, outside faces out. Measure it and fill in the boxes below.' },
        { text: `Correct by the table, one change at a time, until it fits.${otherStops(input)}` },
      ],
    },
    {
      title: 'The work',
      steps: [
        { text: workWords(input) },
        ...pareSteps(input, 'On every tail board'),
        ...grooveSteps(input),
        ...glueSteps(input),
      ],
    },
  ];
}

export const stepsOf = (input: SheetInput): readonly SheetStep[] =>
  stepGroups(input).flatMap(({ steps }) => steps);

function workWords({ solved }: SheetInput): string {
  const again =
    solved.cuts.length > 1
      ? ' The set-up that stands comes first; set up again for the next by the same blocks.'
      : '';
  return `Cut the work by the cards of page 1, in their order; tick each end.${again}`;
}

function markStep(input: SheetInput): SheetStep {
  const { pieces, solved } = input;
  const others = otherJoints(input);
  const asListed = pieces.length > 0 ? ' as the cut list says' : '';
  const had = others.length > 0 ? ` (the same parts as for ${listed(others)})` : '';
  const edge = pieces.some(({ piece }) => piece.kind === 'case') ? 'front edge' : 'bottom edge';
  const plates =
    solved.cuts.length > 0
      ? `The reference edge is the ${edge}: it lies on the stop at every cut.`
      : `The reference edge is the ${edge}.`;
  return {
    text: `Cut the parts${asListed}, with one spare of each kind${had}. Mark every end on both faces as pictured, letter and corner, and ring the marks on outside faces; a V points to the reference edge. ${plates}`,
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

/** Square tails are rounded to their sockets by hand. */
function pareSteps({ diagnostics, fmt }: SheetInput, where: string): readonly SheetStep[] {
  return diagnostics.flatMap(({ code, data }): readonly SheetStep[] => {
    if (code !== 'tails-to-pare') return [];
    const { radius, atBaseline } = data;
    return [
      {
        text: `${where} pare both inside corners of each tail round with a chisel: to a radius of ${fmt.length(radius)} at its end and ${fmt.length(atBaseline)} at the baseline.`,
        caution: cautions.fingers.text,
      },
    ];
  });
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
  const hidden = solved.boards.some(({ reach }) => reach !== undefined && reach.by < 0);
  const met = diagnostics.flatMap((one) => grooveMeets(one, hidden, solved));
  return [
    {
      text: [
        `Cut the groove for the bottom into the inside faces, as pictured: ${fmt.length(groove.width)} wide${deep}, its lower side ${fmt.length(groove.from)} from the reference edge${onFront}.`,
        ...met,
      ].join(' '),
    },
  ];
}

/** What is done where the groove comes out at a corner; in a blind socket nothing of it shows. */
function grooveMeets(found: Diagnostic, isHidden: boolean, solved: SheetInput['solved']): readonly string[] {
  const plug = 'stop it short of the ends, or plug it there';
  switch (found.code) {
    case 'groove-in-tail':
      return isHidden
        ? ['It may run from end to end: a tail hides it.']
        : [
            `On the ${solved.boards[0] ? wordsOf(solved, solved.boards[0].board).many : 'sides'} ${plug}: it comes out in the end of a tail.`,
          ];
    case 'groove-in-finger':
      return [`On ${wordsOf(solved, found.data.board).many} ${plug}: it comes out in the end of a finger.`];
    case 'groove-outside-tails':
    case 'groove-across-fingers':
      return [`It comes out where both boards show it: on all of them ${plug}.`];
    default:
      return [];
  }
}

function glueSteps(input: SheetInput): readonly SheetStep[] {
  const { setUp } = input.solved;
  const others = otherJoints(input);
  const start = `${others.length > 0 ? `Cut ${listed(others)}, too. Then glue` : 'Glue'} up; both diagonals must be equal.`;
  const flush = setUp.at === 'corners' && setUp.flush ? ` ${wordsText(setUp.flush, input.fmt)}` : '';
  return [{ text: `${start}${flush}` }];
}

const handSteps = (input: SheetInput): readonly SheetStep[] => [
  markStep(input),
  ...rabbetSteps(input),
  ...handWork(input),
  ...grooveSteps(input),
  ...glueSteps(input),
];
