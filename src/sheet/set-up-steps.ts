import { cautions } from '../../shared/cautions.js';
import { lipOf, wordsOf } from '../joints/boards.js';
import type { Cut } from '../joints/family.js';
import { bitExtension } from '../joints/tools.js';
import { trialCorner } from '../set-up/ends.js';
import type { Plate, PlateSide } from '../template/plate.js';
import { benchOf } from './bench.js';
import type { SheetStep } from './document.js';
import { twiceWords } from './hold-words.js';
import type { SheetInput } from './input.js';
import { bitWords, capital, listed } from './names.js';
import { sideOf } from './sides.js';
import { type Stand, standsApart, standsOf } from './stands.js';

/** Tools, depth, plate and trial cut of one template, in the order of work. */
export function setUpSteps(input: SheetInput, cut: Cut, index: number): readonly SheetStep[] {
  const { templates, solved } = input;
  const place = sideOf(templates, cut);
  const before = solved.cuts[index - 1];
  return [
    ...toolSteps(input, cut, before),
    ...(place ? [plateStep(input, cut, place, before)] : []),
    ...(index === 0 ? [routeStep(input)] : []),
    trialStep(input, cut, index === 0),
  ];
}

/** Nothing is said of what stays as it is. */
function toolSteps(input: SheetInput, cut: Cut, before: Cut | undefined): readonly SheetStep[] {
  const sameTools = before?.bit === cut.bit && before.bushing === cut.bushing;
  const sameDepth = before?.depth === cut.depth;
  const { fmt, shop } = input;
  const again = `Set the bit by the same blocks, ${fmt.length(bitExtension(shop, cut.depth))} below the base.`;
  return [
    ...(sameTools ? [] : [{ text: toolWords(input, cut, before) }]),
    ...(sameTools && sameDepth ? [] : [{ text: sameDepth ? again : depthWords(input, cut) }]),
  ];
}

/** Bit and bushing, unplugged; a bushing that stays in is not said again. */
export function toolWords({ fmt, solved }: SheetInput, cut: Cut, before?: Cut): string {
  const { bit, bushing } = cut;
  const tools =
    before?.bushing === bushing
      ? bitWords(bit, fmt)
      : `${bitWords(bit, fmt)} and the bushing ${bushing.name} (${fmt.length(bushing.outside)} outside)`;
  return `${cautions.unplug.text} Put in the ${tools} for ${wordsOf(solved, cut.board).the}. Turn the bit by hand: it must touch nothing.`;
}

/** The depth by blocks: offcuts of a board where one is as thick as the cut is deep. */
export function depthWords({ fmt, solved, shop }: SheetInput, cut: Cut): string {
  const own = cut.stock.map(({ board }) => board);
  const [board] = solved.boards
    .filter(({ material }) => Math.abs(material.thickness - cut.depth) < SAME_THICKNESS)
    .toSorted((a, b) => Number(own.includes(a.board)) - Number(own.includes(b.board)));
  const blocks = board
    ? `offcuts of ${wordsOf(solved, board.board).the}`
    : `blocks ${fmt.length(cut.depth)} thick`;
  return `Set the bit ${fmt.length(bitExtension(shop, cut.depth))} below the base: stand the base on offcuts of the plate, laid on ${blocks}; the tip just touches the bench.`;
}

/** An offcut that is off by less sets the depth as well as the eye can, mm. */
const SAME_THICKNESS = 0.02;

function plateStep(
  input: SheetInput,
  cut: Cut,
  { side, plate }: NonNullable<ReturnType<typeof sideOf>>,
  before: Cut | undefined,
): SheetStep {
  const first = before === undefined;
  const carried = input.templates.some((one) => one.plate === plate && one.carrier);
  const onEnd = benchOf(side).backing !== undefined;
  const text =
    cut.stock.length > 1
      ? bothWords(input, cut, plate.name)
      : onEnd
        ? carried
          ? carriedWords(input, side, plate)
          : onEndWords(input, side, plate, first)
        : flatWords(input, cut, plate.name, carried);
  const stops = first && cut.stock.length === 1 && !carried ? [STOPS] : [];
  const words = [text, ...stops, ...twoCutsWords(input, cut)].join(' ');
  return { text: words, ...(first && { caution: cautions.secure.text }) };
}

/** A board on end under a plate with its carrier. */
function carriedWords({ solved }: SheetInput, side: PlateSide, plate: Plate): string {
  const { name: board } = wordsOf(solved, side.cut.board);
  const [near, far] = plate.sides;
  if (near && far && side !== near)
    return `Turn plate and carrier by half a turn, so that the ${board}'s edge faces you.`;
  const edge = near && far ? ` The ${board}'s edge faces you.` : '';
  return `Hold ${plate.name} on its carrier in the vice. The ${board} stands with its back against the fence, its end up against the plate, its reference edge on the stop that its card shows.${edge}`;
}

/** Where stops go, whatever the end. */
const STOPS = 'Clamp a stop at the line marked STOP, left or right, as each end needs.';

/** Of a plate that carries every second slot: where the stop stays and when the spacer is in, at either side. */
function twoCutsWords(input: SheetInput, cut: Cut): readonly string[] {
  const boards = cut.stock.map(({ board }) => board);
  const stands = standsOf(input).filter(({ board, twice }) => twice && boards.includes(board));
  if (stands.length === 0) return [];
  const ways = [...new Set(stands.map((one) => twiceWords(one, input.fmt)))];
  const cross = stands.some(({ twice }) => twice?.leaveOut)
    ? ' At the second cut leave out the opening with the cross beside it.'
    : '';
  return [`Each end takes two cuts: ${ways.join('; ')}.${cross}`];
}

function onEndWords({ fmt, solved }: SheetInput, side: PlateSide, plate: Plate, first: boolean): string {
  const [near, far] = plate.sides;
  if (near && far) {
    const words = (one: PlateSide) => wordsOf(solved, one.cut.board).name;
    const board = words(side);
    if (side !== near) return `Turn plate and fence by half a turn, so that the ${board}'s edge faces you.`;
    return `${fenceWords([near, words(near)], [far, words(far)], plate.name, fmt.length)} The ${board}'s edge faces you.`;
  }
  const { backing } = benchOf(side);
  const thick = `a fresh backing, ${fmt.length((backing?.to ?? 0) - (backing?.from ?? 0))} thick or more`;
  if (!first) return `Fit ${plate.name} in its place, with ${thick}.`;
  return `Fit ${plate.name} to the fence with ${thick}, on the scored line farther from you.`;
}

/** A fence narrower than this holds no screws, mm. Common practice, no source. */
const MIN_FENCE = 20;

/** One fence under both edges of a plate: with a backing on either side it is as wide as the two lines are apart. */
export function sharedFence(near: PlateSide, far: PlateSide) {
  const whole = far.turned?.y ?? 0;
  const backings = [near, far].map((side) => benchOf(side).backing?.to ?? 0);
  const fence = whole - backings.reduce((sum, one) => sum + one, 0);
  return fence < MIN_FENCE ? { whole } : { whole, fence, backings };
}

function fenceWords(
  [near, nearBoard]: readonly [PlateSide, string],
  [far, farBoard]: readonly [PlateSide, string],
  name: string,
  say: (mm: number) => string,
): string {
  const { whole, fence, backings } = sharedFence(near, far);
  const lines = 'each face on the scored line of its own side, the one farther from the edge';
  if (fence === undefined || !backings) {
    return `Screw ${name} to a fence ${say(whole)} wide: ${lines}. The fence is the backing, too: the bit cuts into it.`;
  }
  const [one = 0, other = 0] = backings;
  const both =
    say(one) === say(other)
      ? `a backing ${say(one)} thick on either side`
      : `a backing ${say(one)} thick on the ${nearBoard}'s side and ${say(other)} on the ${farBoard}'s side`;
  return `Screw ${name} to a fence ${say(fence)} wide with ${both}: ${say(whole)} in all, ${lines}.`;
}

function flatWords({ solved }: SheetInput, cut: Cut, name: string, carried: boolean): string {
  const lip = lipOf(solved);
  const end = lip ? 'the end of its lip' : 'its end';
  const flat = `Under ${name} ${wordsOf(solved, cut.board).the} lies flat, ${end} toward you and on the scored line.`;
  const gauge = carried
    ? " Push the gauge against the tips of the plate's fingers and the board's end against the gauge; clamp, and take the gauge away."
    : '';
  if (!lip) return `${flat}${gauge}`;
  const stop = carried ? '' : ' Take a stop as thick as the board, to reach the lip below the rabbet.';
  return `${flat}${gauge} The marks allow for the lip: use no spacer.${stop}`;
}

function bothWords({ fmt, solved }: SheetInput, cut: Cut, name: string): string {
  const apart = standsApart(cut);
  const [standing = '', lying = ''] = cut.stock.map(({ board }) => board);
  const [one, two] = [wordsOf(solved, standing), wordsOf(solved, lying)];
  const stop = (board: string) => `STOP ${board.toUpperCase()}`;
  return `Under ${name} ${two.the} lies flat, inside face up, its end toward you. ${capital(one.the)} stands before it on end, inside face toward you, its end flush with ${two.the}'s inside face and its outside face against ${two.the}'s end, on the scored line that is farther from you. Clamp stops on the lines marked ${stop(lying)} and ${stop(standing)}, left or right as each corner needs them: at either hand ${one.the} stands ${fmt.length(Math.abs(apart))} farther ${apart > 0 ? 'right' : 'left'}.`;
}

/** The corner that is tried first, of the first piece that has it. */
export function trialStands(stands: readonly Stand[]): readonly Stand[] {
  const trial = stands.filter(({ corner }) => corner === trialCorner(stands));
  return trial.filter(({ board }, i) => trial.findIndex((one) => one.board === board) === i);
}

/** How the router goes, against tear-out: common practice, no source. */
function routeStep({ solved, fmt, units }: SheetInput): SheetStep {
  const light = fmt.length(units === 'in' ? 25.4 / 16 : 1.5);
  const shows = solved.boards.some(({ hold }) => hold?.posture === 'on end' && hold.face === 'outside');
  const facing = shows
    ? ' Where the face toward you will show, clamp a thin facing scrap over it and cut through that as well.'
    : '';
  return {
    text: `At every cut first score: once along the near face from left to right, no more than ${light} into the wood. Then take the openings from left to right, into each along its left side and out along its right; one pass after the other where there are several.${facing}`,
    caution: [cautions.start, cautions.eyes, cautions.noise, cautions.dust].map((one) => one.text).join(' '),
  };
}

/** The trial pieces, by the cards that show how they lie. */
function trialStep(input: SheetInput, cut: Cut, first: boolean): SheetStep {
  const boards = cut.stock.map(({ board }) => board);
  const stands = trialStands(standsOf(input)).filter(({ board }) => boards.includes(board));
  const pieces =
    stands.length > 1
      ? 'the trial pieces for both boards'
      : `the trial piece for ${wordsOf(input.solved, cut.board).the}`;
  const cards = listed(stands.map(({ letter, corner }) => `${letter}${corner}`));
  const scrap = first ? ' Trial pieces are scrap, as thick and as wide as the work.' : '';
  return { text: `Cut ${pieces} as the card of ${cards} shows.${scrap}` };
}
