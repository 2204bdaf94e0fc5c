import { wordsOf } from '../joints/boards.js';
import type { Cut } from '../joints/family.js';
import { alikeOf } from './corners.js';
import type { SheetStep } from './document.js';
import { endsWords } from './hold-words.js';
import type { SheetInput } from './input.js';
import { capital, listed } from './names.js';
import { sideOf } from './sides.js';
import { faceWords, type Stand, standsOf } from './stands.js';

/** Cutting the work once the trial joint fits: the set-up that stands first, then the others. */
export function partSteps(input: SheetInput): readonly SheetStep[] {
  const order = input.solved.cuts.toReversed();
  return order.map((cut, i) => {
    const text = `${againWords(input, cut, order[i - 1])}${cutWords(input, cut)}.`;
    return { text: capital(text) };
  });
}

/** What comes back on the router and on the fence; nothing for the set-up that stands. */
function againWords(input: SheetInput, cut: Cut, before: Cut | undefined): string {
  if (!before) return '';
  const { templates } = input;
  const place = sideOf(templates, cut);
  const plate =
    place && place.plate.sides.length > 1
      ? 'turn plate and fence back by half a turn'
      : `fit ${place?.plate.name ?? ''} again, with a fresh backing`;
  if (before.bit === cut.bit && before.depth === cut.depth) return `${plate}, and `;
  return `unplug the router, set up for ${wordsOf(input.solved, cut.board).the} again by the same blocks, ${plate}, and `;
}

/** Every end that a cut makes, in the words of its stands; the face where it is not the same for all. */
function cutWords(input: SheetInput, cut: Cut): string {
  const boards = cut.stock.map(({ board }) => board);
  const stands = standsOf(input).filter(({ board }) => boards.includes(board));
  if (boards.length > 1) return togetherWords(stands);
  const [first] = stands;
  const ends = alikeOf(stands).flatMap((group) => {
    const [one] = group;
    if (!one) return [];
    const turned = stands.some(({ face }) => face !== first?.face) ? `, ${faceWords(one)},` : '';
    return [`${endsWords(group)}${turned} at the ${one.stop} stop${plateWords(one, input, cut)}`];
  });
  const twice = first?.twice ? ', each end in two cuts' : '';
  return `cut the ${wordsOf(input.solved, boards[0] ?? '').many} as the table says${twice}: ${ends.join('; ')}`;
}

/** The plate that stands, or its mirror image in its place. */
function plateWords(stand: Stand, { templates }: SheetInput, cut: Cut): string {
  const own = sideOf(templates, cut)?.plate.name;
  if (!stand.template || stand.template === own) return '';
  return ` under ${stand.template}, which is ${own} upside down`;
}

/** Both boards of a corner at once, at the stops of either hand. */
function togetherWords(stands: readonly Stand[]): string {
  const corners = (stop: Stand['stop']) =>
    [...new Set(stands.filter((one) => one.stop === stop).map(({ corner }) => corner))].map((corner) => {
      const ends = stands.filter((one) => one.corner === corner).map(({ letter, end }) => `${letter} ${end}`);
      return `corner ${corner} (${ends.join(' with ')})`;
    });
  return `cut all corners as the table says: ${listed(corners('left'))} at the left stops, then ${listed(corners('right'))} at the right stops`;
}
