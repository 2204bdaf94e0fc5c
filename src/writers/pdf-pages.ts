import { linesOf } from '../drawing/drawing.js';
import { type Letter, lettersSet } from '../drawing/lettering.js';
import type { Item, Layer, TextItem, WriterOptions } from '../drawing/model.js';
import type { Dash, Mark } from '../drawing/tiling-types.js';
import { extents } from '../geometry/outline.js';
import type { Extents, Path } from '../geometry/types.js';
import { firstContent, formContent, type PageMark, pageContent } from './pdf-content.js';
import { type PdfForm, pdfFile } from './pdf-file.js';

/** A page that is composed already, mm from the lower left corner of its paper, x right, y up. */
export interface ComposedPage {
  readonly width: number;
  readonly height: number;
  readonly items: readonly Item[];
}

/**
 * PDF 1.7 of pages to be read, not cut: at true size and with lettering in black single strokes, no fonts, no
 * dates, no random ids. A letter's shape stands in the file once and is set as often as it is read. For drawings that are spread over pages see `pdfWriter`.
 */
export async function writePages(
  pages: readonly ComposedPage[],
  { title, subject }: { readonly title: string; readonly subject: string },
  { colours }: WriterOptions,
): Promise<Uint8Array> {
  const letters = letterForms();
  const drawn = pages.map(({ width, height, items }) => {
    const sheet = { width, height, factorX: 1, factorY: 1 };
    const marks = items.flatMap((item) => (item.kind === 'text' ? letters.set(item) : marksOf(item)));
    return { width, height, contents: [firstContent(sheet, [], colours), pageContent(marks, colours)] };
  });
  return pdfFile(drawn, { title, subject }, letters.forms());
}

/** The letters of one file: each shape is a form, made when it is first set. */
function letterForms() {
  const made = new Map<string, PdfForm>();
  const formOf = ({ letter, strokes }: Letter, height: number): PdfForm => {
    const key = `${height} ${letter}`;
    const known = made.get(key);
    if (known) return known;
    const lines = strokes();
    const form = {
      name: `L${made.size}`,
      box: roomOf(lines, letterPen(height)),
      content: formContent(lines),
    };
    made.set(key, form);
    return form;
  };
  return {
    set: (item: TextItem): readonly PageMark[] =>
      lettersSet(item).map((letter) => ({
        form: formOf(letter, item.height).name,
        at: letter.at,
        angle: item.angle,
        ink: 'black',
        pen: letterPen(item.height),
      })),
    forms: (): readonly PdfForm[] => [...made.values()],
  };
}

function roomOf(lines: readonly Path[], pen: number): Extents {
  const { minX, minY, maxX, maxY } = extents(...lines);
  return { minX: minX - pen, minY: minY - pen, maxX: maxX + pen, maxY: maxY + pen };
}

/** Letters are heavier than lines: they are read from further away. */
const letterPen = (height: number): number => Math.max(0.2, height * 0.11);

const pens: Readonly<Record<Layer, number>> = {
  CUT: 0.4,
  SCORE: 0.25,
  ENGRAVE: 0.18,
  REF: 0.15,
  STOCK: 0.3,
};

const dash: Dash = { pattern: [2, 1.2], phase: 0 };

function marksOf(item: Item): readonly Mark[] {
  const lines = linesOf(item).filter((line) => line.segments.length > 0);
  const dashed = item.kind === 'open' && item.dashed === true;
  return lines.map((line) => ({ line, ink: item.layer, pen: pens[item.layer], ...(dashed && { dash }) }));
}
