import { cautions } from '../../shared/cautions.js';
import { wordsOf } from '../joints/boards.js';
import type { BoardStand, OnBoards } from '../joints/contract.js';
import type { Cut } from '../joints/family.js';
import { bitExtension } from '../joints/tools.js';
import type { SheetStep } from './document.js';
import type { SheetInput } from './input.js';
import { capital, listed, wordsText } from './names.js';
import { depthWords, toolWords } from './set-up-steps.js';
import { sideOf } from './sides.js';
import { faceWords } from './stands.js';

/**
 * The steps for a joint that makes no corner, each board flat under its template or on end as the family's stands say. What
 * every such joint needs is said here; what is peculiar to one comes from its family.
 */
export function boardSteps(
  input: SheetInput,
  setUp: OnBoards,
  plates: readonly SheetStep[],
): readonly SheetStep[] {
  const { cuts } = input.solved;
  const said = (words: OnBoards['glue']): SheetStep => ({ text: wordsText(words, input.fmt) });
  if (cuts.length === 0) {
    return [
      said(setUp.prepare),
      ...(setUp.byHand ?? []).map(({ words, careful }) => ({
        ...said(words),
        ...(careful && { caution: cautions.fingers.text }),
      })),
    ];
  }
  return [
    said(setUp.prepare),
    ...plates,
    ...cuts.flatMap((cut, i) => cutSteps(input, setUp, cut, i)),
    said(setUp.close),
    { text: 'Correct by the table, one change at a time, and cut another trial joint until it fits.' },
    setUp.work ? said(setUp.work) : { text: workWords(input, setUp) },
    said(setUp.glue),
  ];
}

/** The stands of the boards under one template. */
const standsUnder = ({ stands }: OnBoards, { stock }: Cut): readonly BoardStand[] =>
  stands.filter((stand) => stock.some(({ board }) => board === stand.board));

/** `board one`, or `the left side` where a board has stands of its own. */
function standWords({ solved }: SheetInput, { board, name }: BoardStand): string {
  return name === undefined ? wordsOf(solved, board).the : `the ${name}`;
}

function cutSteps(input: SheetInput, setUp: OnBoards, cut: Cut, index: number): readonly SheetStep[] {
  const before = input.solved.cuts[index - 1];
  const same = before && before.bit === cut.bit && before.depth === cut.depth;
  return [
    ...(before?.bit === cut.bit ? [] : [{ text: toolWords(input, cut, before) }]),
    ...(same ? [] : [depthStep(input, cut)]),
    ...standsUnder(setUp, cut).flatMap((stand, i) => layAndCut(input, cut, stand, index === 0 && i === 0)),
  ];
}

/** How thick the board under a template is where it is cut right through. */
function throughOf(cut: Cut): number | undefined {
  const thickness = cut.stock[0]?.thickness;
  return thickness !== undefined && cut.depth > thickness ? thickness : undefined;
}

function depthStep(input: SheetInput, cut: Cut): SheetStep {
  const { shop, fmt, solved } = input;
  const thickness = throughOf(cut);
  if (thickness === undefined) return { text: depthWords(input, cut) };
  return {
    text: `Set the bit ${fmt.length(bitExtension(shop, cut.depth))} below the base: stand the base on offcuts of the plate that lie on offcuts of ${wordsOf(solved, cut.board).name}, lower the bit between them until its tip touches the bench, then by ${fmt.length(cut.depth - thickness)} more. Go down to that depth in two or three passes.`,
  };
}

function layAndCut(input: SheetInput, cut: Cut, stand: BoardStand, first: boolean): readonly SheetStep[] {
  const { fmt } = input;
  const board = standWords(input, stand);
  const on = throughOf(cut) === undefined ? 'on the bench' : 'on a board that may be cut into';
  const over = wordsText(stand.lay ?? [], fmt);
  const lay = `Lay ${board} ${on}, ${faceWords(stand)}${over}. Lay ${plateName(input, cut, stand)} on it: the ${stand.toward} is toward you and on the scored line, the ${stand.against} against a stop on the ${stand.stop} line marked STOP.`;
  const how = stand.trial ? `: ${wordsText(stand.trial, fmt)}` : '';
  const trial = `Cut a trial piece for ${board}, of scrap as thick as the work${how}.`;
  if (!first) return [{ text: lay }, { text: trial }];
  const spoken = [cautions.start, cautions.eyes, cautions.noise, cautions.dust].map(({ text }) => text);
  return [
    { text: lay, caution: cautions.secure.text },
    { text: trial, caution: spoken.join(' ') },
  ];
}

/** The plate that a stand is cut under: the cut's own, or its mirror image. */
export function plateName({ templates }: SheetInput, cut: Cut, { mirrored }: BoardStand): string {
  const own = sideOf(templates, cut)?.plate.name ?? '';
  return mirrored ? `${own}-mirrored` : own;
}

function workWords(input: SheetInput, setUp: OnBoards): string {
  const ways = input.solved.cuts
    .flatMap((cut) => standsUnder(setUp, cut).map((stand) => ({ cut, stand })))
    .map(
      ({ cut, stand }) =>
        `${standWords(input, stand)} under ${plateName(input, cut, stand)}, at the ${stand.stop} stop`,
    );
  return capital(`cut the work as the table says: ${listed(ways)}.`);
}
