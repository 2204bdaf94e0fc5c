import type { Formatter } from '../diagnostics/formatter.js';
import { rectangle } from '../geometry/outline.js';
import { wordsOf } from '../joints/boards.js';
import type { BoardStand } from '../joints/contract.js';
import type { Stand } from '../set-up/stands.js';
import type { LengthUnit } from '../units/length.js';
import { toSet } from '../units/to-set.js';
import { benchOf } from './bench.js';
import { cardItems } from './card-figure.js';
import type { Bench, Card, SetNumber, Setting } from './document.js';
import type { SheetInput } from './input.js';
import { capital, listed } from './names.js';
import { passesToSet } from './passes.js';

/** What stands on the first page of a sheet: a card for each cut in the order of work, under the numbers that are set. */

export function benchPage(input: SheetInput): Bench {
  const groups = cutsOf(input.setUp.stands);
  const cards = groups.map((group, i) => ({ group, card: cardOf(input, group, i + 1) }));
  const settings: { stand: Stand; cards: Card[] }[] = [];
  for (const { group, card } of cards) {
    const [stand] = group;
    const last = settings.at(-1);
    if (last && stand && isSameSetting(last.stand, stand)) last.cards.push(card);
    else if (stand) settings.push({ stand, cards: [card] });
  }
  return {
    kind: 'bench',
    settings: settings.map(
      ({ stand, cards: own }): Setting => ({ numbers: numbersOf(stand, input.fmt, input.units), cards: own }),
    ),
    trial: trialOf(input, groups).map((group) => groups.indexOf(group) + 1),
  };
}

/** What lies under the router at once; ends of several copies of a piece that lie in the same way are one. */
type Together = readonly Stand[];

function cutsOf(stands: readonly Stand[]): readonly Together[] {
  const orders = [...new Set(stands.map(({ order }) => order))];
  const held = orders.map((order) => stands.filter((one) => one.order === order));
  const keys = held.map((group) => group.map(withoutCopy).join());
  return [...new Set(keys)].map((key) => held.filter((_, i) => keys[i] === key).flat());
}

const withoutCopy = ({ of, place, piece, corner, board, template, everySecond }: Stand): string =>
  [of ?? piece, place ?? piece, corner, board, template, everySecond?.cut].join(':');

/** The cuts of the trial joint, in the order in which it is made: last come those whose set-up goes on to the work. */
function trialOf({ setUp: { trial } }: SheetInput, groups: readonly Together[]): readonly Together[] {
  const piece = groups.flat().find(({ corner }) => corner === trial)?.of;
  const own = groups.filter((group, i) => {
    if (trial !== undefined) return group.some(({ corner, of }) => corner === trial && of === piece);
    // Of a joint that makes no corner each board is tried as it is cut first.
    const before = groups.slice(0, i).flat();
    return group.every(({ board }) => before.every((one) => one.board !== board));
  });
  return own.toReversed();
}

const isSameSetting = (a: Stand, b: Stand): boolean =>
  a.bit.name === b.bit.name && a.bushing.name === b.bushing.name && a.depth === b.depth;

/** What is set at the router. */
export function numbersOf(
  {
    bit,
    bushing,
    extension,
    depth,
    passes,
  }: Pick<Stand, 'bit' | 'bushing' | 'extension' | 'depth' | 'passes'>,
  fmt: Formatter,
  units: LengthUnit,
): readonly SetNumber[] {
  const angle = bit.kind === 'dovetail' ? `, ${fmt.angle(bit.angle)}` : '';
  const set = (label: string, mm: number, usual: string): SetNumber => {
    const { value, beside } = toSet(mm, units);
    return { label, value, detail: beside ?? usual };
  };
  const [first = '', ...more] = passesToSet(passes, units).map((one) => fmt.length(one));
  return [
    { label: 'Bit', value: bit.name, detail: `${bit.kind} ${fmt.length(bit.diameter)}${angle}` },
    { label: 'Bushing', value: bushing.name, detail: `${fmt.length(bushing.outside)} outside` },
    set('Bit below the base', extension, 'plate and depth'),
    set('Depth of cut', depth, 'below the plate'),
    more.length === 0
      ? { label: 'Pass', value: 'one', detail: 'at full depth' }
      : { label: `${passes.length} passes`, value: first, detail: `deep, then ${listed(more)}` },
  ];
}

function cardOf(input: SheetInput, group: Together, number: number): Card {
  const [first] = group;
  if (!first) throw new Error('a card without a stand');
  const { corner, end } = first;
  const boards = [...new Set(group.map(({ board }) => board))];
  const copies = group.filter(({ board }) => board === first.board);
  const title = boards.map((board) => {
    const own = group.filter((one) => one.board === board);
    return `${listed(own.map(({ piece }) => piece))}${own[0]?.end === undefined ? '' : ` ${own[0].end}`}`;
  });
  const words = end === undefined ? capital(boardName(input, first)) : listed(title);
  return {
    number,
    title: words,
    place: corner === undefined ? '' : `corner ${corner}`,
    ticks: copies.length,
    lines: linesOf(input, group, first),
    picture: pictureOf(input, group, first, words),
  };
}

/** Of a joint that makes no corner: the family's name for the board. */
const boardName = ({ solved }: SheetInput, { piece, board }: Stand): string =>
  piece === board ? wordsOf(solved, board).name : piece;

function linesOf(input: SheetInput, group: Together, first: Stand): readonly string[] {
  const { solved, fmt } = input;
  const stop = first.referenceEdge === 'left-stop' ? 'left' : 'right';
  const family = familyStand(input, first);
  const plate = first.template.replace('finger-template-', '');
  const how = first.plateSide === 'turned' ? ', upside down' : first.placed ? ', turned around' : '';
  const several = new Set(group.map(({ board }) => board)).size > 1;
  const faces = firstOfEach(group).map((one) =>
    several ? `${capital(wordsOf(solved, one.board).name)}: ${faceOf(one)}` : capital(faceOf(one)),
  );
  return [
    ...faces,
    ...(family ? [`${capital(family.toward)} toward you`] : []),
    `${family ? `${capital(family.against)} at the ${stop} stop` : `${capital(stop)} stop`}, plate ${plate}${how}`,
    ...secondLines(first, fmt),
  ];
}

/** One stand of each board. */
const firstOfEach = (group: Together): readonly Stand[] =>
  group.filter(({ board }, i) => group.findIndex((one) => one.board === board) === i);

const faceOf = ({ faceToOperator, posture }: Stand): string =>
  `${faceToOperator} face ${posture === 'flat' ? 'up' : 'toward you'}`;

function familyStand({ solved: { setUp } }: SheetInput, { piece, board }: Stand): BoardStand | undefined {
  return setUp.at === 'boards'
    ? setUp.stands.find((one) => (one.name ?? one.board) === piece && one.board === board)
    : undefined;
}

/** Of an end that is cut twice under a plate with every second slot. */
function secondLines({ everySecond, along }: Stand, fmt: Formatter): readonly string[] {
  if (!everySecond) return [];
  const { cut, mark, leaveOut } = everySecond;
  const spacer = along > 0 ? `spacer of ${fmt.length(along)}` : 'no spacer';
  const cross = leaveOut ? '; leave out the opening with the cross' : '';
  return [`${cut === 1 ? 'First' : 'Second'} cut: stop on STOP ${mark}, ${spacer}${cross}`];
}

function pictureOf({ templates }: SheetInput, group: Together, first: Stand, words: string): Card['picture'] {
  const template = templates.find(({ plate }) => plate.name === first.template);
  const sides = template?.plate.sides ?? [];
  const side =
    sides.find(({ turned }) => (turned !== undefined) === (first.placed !== undefined)) ?? sides[0];
  if (!template || !side) throw new Error(`no plate ${first.template}`);
  const stop = first.referenceEdge === 'left-stop' ? 'left' : 'right';
  const shown = firstOfEach(group);
  const view = {
    plate: template.plate,
    side,
    mirrored: first.plateSide === 'turned',
    stop,
    along: first.along,
    boards: shown.map(({ rect, posture, piece, corner, faceToOperator }) => ({
      outline: rectangle(rect.x0, rect.y0, rect.x1, rect.y1),
      posture,
      mark: corner === undefined ? piece : `${piece}${corner}`,
      ringed: faceToOperator === 'outside',
    })),
    bench: benchOf(side),
  } as const;
  return {
    words: `${words} under ${first.template}, from above, and the face toward you; the stop at the ${stop}; the router goes from left to right.`,
    draw: (width, height) => cardItems(view, width, height),
  };
}
