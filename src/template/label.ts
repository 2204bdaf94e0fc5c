import { textWidth } from '../drawing/lettering.js';
import type { TextItem } from '../drawing/model.js';

/** A block of engraved lines that fits the room it is given. */
export interface LabelRoom {
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

/** The paragraphs, each wrapped to the room, in the tallest letters that leave all of it inside. */
export function labelItems(paragraphs: readonly string[], room: LabelRoom): readonly TextItem[] {
  const height = fittingHeight(paragraphs, room);
  const lines = wrapAll(paragraphs, height, room.width);
  const block = (lines.length - 1) * LINE_STEP * height + height;
  const top = (room.from + room.to) / 2 + block / 2 - height;
  return lines.map((text, i) => ({
    kind: 'text',
    layer: 'ENGRAVE',
    text,
    at: { x: room.x, y: top - i * LINE_STEP * height },
    height,
    angle: 0,
    align: 'middle',
  }));
}

function fittingHeight(paragraphs: readonly string[], room: LabelRoom): number {
  for (let height = TALLEST; height > SMALLEST; height -= 0.1) {
    const lines = wrapAll(paragraphs, height, room.width);
    const tall = ((lines.length - 1) * LINE_STEP + 1) * height;
    const wide = Math.max(...lines.map((line) => textWidth(line, height)));
    if (tall <= room.to - room.from && wide <= room.width) return height;
  }
  return SMALLEST;
}

function wrapAll(paragraphs: readonly string[], height: number, width: number): readonly string[] {
  return paragraphs.flatMap((paragraph) => wrap(paragraph, height, width));
}

function wrap(paragraph: string, height: number, width: number): readonly string[] {
  const lines: string[] = [];
  for (const word of paragraph.split(' ')) {
    const longer = lines.length > 0 ? `${lines.at(-1)} ${word}` : word;
    if (lines.length > 0 && textWidth(longer, height) <= width) lines[lines.length - 1] = longer;
    else lines.push(word);
  }
  return lines;
}
