import { wordsOf } from '../joints/boards.js';
import type { BoardStand } from '../joints/contract.js';
import type { Cut } from '../joints/family.js';
import { bitExtension } from '../joints/tools.js';
import { toSet } from '../units/to-set.js';
import { benchOf } from './bench.js';
import { cardItems, type LyingBoard } from './card-figure.js';
import type { Bench, Card, SetNumber, Setting } from './document.js';
import { twiceWords } from './hold-words.js';
import type { SheetInput } from './input.js';
import { capital, listed } from './names.js';
import { passesOf } from './passes.js';
import { trialStands } from './set-up-steps.js';
import { sideOf } from './sides.js';
import { faceWords, type Stand, standsOf } from './stands.js';

/** What stands on the first page of a sheet: a card for each cut in the order of work, under the numbers that are set. */

/** A card before it has its number. */
interface Lying {
  readonly cut: Cut;
  readonly isTrial: boolean;
  readonly card: Omit<Card, 'number'>;
}

export function benchPage(input: SheetInput): Bench {
  // The set-up that stands when the trial joint fits goes on; the others follow.
  const cuts = input.solved.cuts.toReversed();
  const lying = cuts.flatMap((cut) => lyingUnder(input, cut));
  const numbered = lying.map((one, i) => ({ ...one, card: { ...one.card, number: i + 1 } }));
  const groups: { cut: Cut; cards: Card[] }[] = [];
  for (const { cut, card } of numbered) {
    const last = groups.at(-1);
    if (last && isSameSetting(last.cut, cut)) last.cards.push(card);
    else groups.push({ cut, cards: [card] });
  }
  return {
    kind: 'bench',
    settings: groups.map(({ cut, cards }): Setting => ({ numbers: numbersOf(input, cut), cards })),
    // The trial is cut in the order of the plates.
    trial: input.solved.cuts.flatMap((cut) =>
      numbered.filter((one) => one.isTrial && one.cut === cut).map(({ card }) => card.number),
    ),
  };
}

const isSameSetting = (a: Cut, b: Cut): boolean =>
  a.bit === b.bit && a.bushing === b.bushing && a.depth === b.depth;

export function numbersOf(
  { fmt, shop, units }: Pick<SheetInput, 'fmt' | 'shop' | 'units'>,
  { bit, bushing, depth }: Cut,
): readonly SetNumber[] {
  const angle = bit.kind === 'dovetail' ? `, ${fmt.angle(bit.angle)}` : '';
  const passes = passesOf(bit, depth, units).map((one) => fmt.length(one));
  const set = (label: string, mm: number, detail: string): SetNumber => {
    const { value, beside = detail } = toSet(mm, units);
    return { label, value, detail: beside };
  };
  return [
    { label: 'Bit', value: bit.name, detail: `${bit.kind} ${fmt.length(bit.diameter)}${angle}` },
    { label: 'Bushing', value: bushing.name, detail: `${fmt.length(bushing.outside)} outside` },
    set('Bit below the base', bitExtension(shop, depth), 'plate and depth'),
    set('Depth of cut', depth, 'below the plate'),
    {
      label: passes.length === 1 ? 'Pass' : `${passes.length} passes`,
      value: passes.length === 1 ? 'one' : (passes[0] ?? ''),
      detail: passes.length === 1 ? 'at full depth' : `deep, then ${listed(passes.slice(1))}`,
    },
  ];
}

function lyingUnder(input: SheetInput, cut: Cut): readonly Lying[] {
  const { setUp } = input.solved;
  if (setUp.at === 'boards') {
    const stands = setUp.stands.filter(({ board }) => cut.stock.some((stock) => stock.board === board));
    return stands.map((stand) => boardCard(input, cut, stand));
  }
  const all = standsOf(input);
  const boards = cut.stock.map(({ board }) => board);
  const trial = trialStands(all);
  const own = all.filter(({ board }) => boards.includes(board));
  // Boards that are cut at once are one card.
  const corners = [...new Set(own.map(({ corner }) => corner))];
  const groups =
    boards.length > 1
      ? corners.map((corner) => own.filter((one) => one.corner === corner))
      : own.map((one) => [one]);
  return groups
    .toSorted((a, b) => stopOrder(a) - stopOrder(b))
    .map((group) => cornerCard(input, cut, group, trial.includes(group[0] as Stand)));
}

/** Ends at one stop follow one another. */
const stopOrder = ([one]: readonly Stand[]): number => (one?.stop === 'left' ? 0 : 1);

function cornerCard(input: SheetInput, cut: Cut, stands: readonly Stand[], isTrial: boolean): Lying {
  const { solved, templates, fmt } = input;
  const place = sideOf(templates, cut);
  const [first] = stands;
  if (!place || !first) throw new Error(`no plate for ${cut.board}`);
  const mirrored = first.template !== undefined && first.template !== place.plate.name;
  const boards = stands.flatMap((stand) => lyingBoard(cut, stand, `${stand.letter}${stand.corner}`));
  const ends = stands.map(({ letter, end }) => `${letter} ${end}`);
  const plate = place.plate.name.replace('finger-template-', '');
  const how = mirrored ? ', upside down' : first.halfTurned ? ', turned around' : '';
  return {
    cut,
    isTrial,
    card: {
      title: listed(ends),
      place: `corner ${first.corner}`,
      ticks: 1,
      lines: [
        ...stands.map((one) =>
          stands.length === 1
            ? capital(faceWords(one))
            : `${capital(wordsOf(solved, one.board).name)}: ${faceWords(one)}`,
        ),
        `${capital(first.stop)} stop, plate ${plate}${how}`,
        ...(first.twice ? [capital(twiceWords(first, fmt))] : []),
      ],
      picture: pictureOf(
        input,
        cut,
        boards,
        first.stop,
        mirrored,
        `${listed(ends)} under ${place.plate.name}${how}`,
      ),
    },
  };
}

function boardCard(input: SheetInput, cut: Cut, stand: BoardStand): Lying {
  const place = sideOf(input.templates, cut);
  if (!place) throw new Error(`no plate for ${cut.board}`);
  const name = stand.name ?? wordsOf(input.solved, stand.board).name;
  const plate = place.plate.name.replace('finger-template-', '');
  const mirrored = stand.mirrored === true;
  return {
    cut,
    isTrial: stand === firstOf(input, stand.board),
    card: {
      title: capital(name),
      place: '',
      ticks: 1,
      lines: [
        `${capital(faceWords(stand))}`,
        `${capital(stand.toward)} toward you`,
        `${capital(stand.against)} at the ${stand.stop} stop`,
        `Plate ${plate}${mirrored ? ', upside down' : ''}`,
      ],
      picture: pictureOf(
        input,
        cut,
        lyingBoard(cut, stand, stand.board),
        stand.stop,
        mirrored,
        `${name} under ${place.plate.name}`,
      ),
    },
  };
}

function firstOf({ solved }: SheetInput, board: string): BoardStand | undefined {
  return solved.setUp.at === 'boards' ? solved.setUp.stands.find((one) => one.board === board) : undefined;
}

function lyingBoard(
  cut: Cut,
  { board, posture, face, shows }: Pick<BoardStand, 'board' | 'posture' | 'face' | 'shows'>,
  mark: string,
): readonly LyingBoard[] {
  const stock = cut.stock.find((one) => one.board === board);
  // Of a board that lies face down, the other face is seen.
  const seen = shows === 'down' ? (face === 'outside' ? 'inside' : 'outside') : face;
  return stock ? [{ outline: stock.outline, posture, mark, ringed: seen === 'outside' }] : [];
}

function pictureOf(
  { templates }: SheetInput,
  cut: Cut,
  boards: readonly LyingBoard[],
  stop: 'left' | 'right',
  mirrored: boolean,
  words: string,
): Card['picture'] {
  const place = sideOf(templates, cut);
  if (!place) throw new Error(`no plate for ${cut.board}`);
  const view = { ...place, mirrored, stop, boards, bench: benchOf(place.side) };
  return {
    words: `${words}, from above, and the face toward you; the stop at the ${stop}; the router goes from left to right.`,
    draw: (width, height) => cardItems(view, width, height),
  };
}
