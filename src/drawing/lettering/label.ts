import type { TextItem } from '../model.js';
import { textWidth } from './lettering.js';
import { wrapped } from './wrapped.js';

/** Blocks of engraved lines that fit the room they are given: no line wider than it, none outside it. */

export interface LabelSpace {
  /** Middle of every line. */
  readonly x: number;
  /** Lowest and highest y that letters may touch. */
  readonly from: number;
  readonly to: number;
  readonly width: number;
}

/** Capital height of a label with room to spare, and the least that can still be read, mm. */
const TALLEST = 3.5;
const SMALLEST = 1.8;

/** Distance of base lines, in capital heights. */
const LINE_STEP = 1.65;

/** How far letters like g and y, or a comma, reach below the base line, in capital heights. */
const DESCENT = 0.35;

/**
 * The paragraphs, each wrapped to the room, in the tallest letters that leave all of it inside. Where even the
 * smallest letters leave no room for all of them, the last paragraphs are left out: say the weightiest first.
 */
export function labelItems(paragraphs: readonly string[], room: LabelSpace): readonly TextItem[] {
  const said = paragraphs.slice(0, writable(paragraphs, room));
  if (said.length === 0) return [];
  const height = tallestFor(said, room);
  const lines = setLines(said, height, room.width);
  const middle = (room.from + room.to) / 2;
  const top = middle + blockHeight(lines.length, height) / 2 - height;
  return lines.map((words, i) => lineItem(words, room.x, top - i * LINE_STEP * height, height));
}

/** The lines of a block that hangs down from y = `top`, and the y below which the next thing may stand. */
export function hangingBlock(
  paragraphs: readonly string[],
  height: number,
  { x, top, width }: { readonly x: number; readonly top: number; readonly width: number },
): { readonly items: readonly TextItem[]; readonly bottom: number } {
  const lines = setLines(paragraphs, height, width);
  const items = lines.map((words, i) => lineItem(words, x, top - height - i * LINE_STEP * height, height));
  return { items, bottom: top - blockHeight(lines.length, height) };
}

/** From the top of the first line's capitals to the lowest that the last line's letters reach. */
function blockHeight(lines: number, height: number): number {
  return ((lines - 1) * LINE_STEP + 1 + DESCENT) * height;
}

/** Wrapped between words; a word wider than the room alone is broken wherever it must. */
export function setLines(paragraphs: readonly string[], height: number, width: number): readonly string[] {
  return paragraphs.flatMap((paragraph) => wrapped(paragraph, height, width));
}

/** The tallest letters, up to `tallest`, in which every word stays whole, or `smallest` where none do. */
export function wholeWordHeight(
  paragraphs: readonly string[],
  width: number,
  tallest: number,
  smallest = SMALLEST,
): number {
  const longest = Math.max(...paragraphs.flatMap((one) => one.split(' ')).map((word) => textWidth(word, 1)));
  return Math.max(smallest, Math.min(tallest, width / longest));
}

function lineItem(words: string, x: number, y: number, height: number): TextItem {
  return { kind: 'text', layer: 'ENGRAVE', text: words, at: { x, y }, height, angle: 0, align: 'middle' };
}

/** How many of the paragraphs, from the first on, fit into the room at all. */
export function writable(paragraphs: readonly string[], room: LabelSpace): number {
  for (let count = paragraphs.length; count > 0; count -= 1) {
    if (textFits(paragraphs.slice(0, count), SMALLEST, room)) return count;
  }
  return 0;
}

function tallestFor(paragraphs: readonly string[], room: LabelSpace): number {
  const whole = wholeWordHeight(paragraphs, room.width, TALLEST);
  for (let height = whole; height > SMALLEST; height -= 0.1) {
    if (textFits(paragraphs, height, room)) return height;
  }
  return SMALLEST;
}

function textFits(paragraphs: readonly string[], height: number, room: LabelSpace): boolean {
  const lines = setLines(paragraphs, height, room.width);
  return blockHeight(lines.length, height) <= room.to - room.from;
}
