import type { PaperSize } from '../../../shared/paper.js';
import { rectangle } from '../../geometry/outline.js';
import { line } from '../../geometry/segment.js';
import { closed, open, text } from '../drawing.js';
import { wrapped } from '../lettering/wrapped.js';
import type { Drawing, Item } from '../model.js';
import { tileDrawing } from './tiling.js';
import type { Frame, PrintOptions } from './types.js';

/** A page that shows how true a printer prints, with the bars along its edges. */
export interface ScalePage {
  readonly drawing: Drawing;
  readonly frame: Frame;
}

/**
 * The scale-check page for one paper: instructions and a square, inside the scale bars that every printed page
 * has, so that it goes on one sheet. Takes the largest letters and square that do. The paper must have room
 * (see `judgePaper`); throws if it has not.
 */
export function scalePage(paper: PaperSize, options: PrintOptions): ScalePage {
  for (const square of squares) {
    for (const height of letterHeights) {
      const drawing = pageDrawing(paper, options, square, height);
      const { frame, pages } = tileDrawing(drawing, paper, options);
      if (pages.length === 1) return { drawing, frame };
    }
  }
  const drawing = { title: TITLE, notes: [NOTE], items: [] };
  return { drawing, frame: tileDrawing(drawing, paper, options).frame };
}

const TITLE = 'halfpin: scale check of a printer';
const NOTE = 'Print at 100 %, measure both scale bars between the outer edges of their end ticks.';

/** Sides of the square, mm, the largest first; 0 leaves it out. */
const squares = [150, 100, 50, 0] as const;

/** Heights of capitals, mm; a line takes 1.9 of it. */
const letterHeights = [3, 2.4, 1.8] as const;
const LINE = 1.9;

/** What scale bars and their words take of the width beside the drawing, mm. */
const BESIDE = 12;

function pageDrawing(paper: PaperSize, options: PrintOptions, square: number, height: number): Drawing {
  const width = (paper.width - 2 * options.margin) / Math.max(1, options.scaleX) - BESIDE;
  const lines = instructions(options, square).flatMap((one) => wrapped(one, height, width));
  const foot = square === 0 ? 0 : square + 2 * height * LINE;
  const words = lines.map((one, i) =>
    text('REF', one, { x: 0, y: foot + (lines.length - 1 - i) * height * LINE }, height),
  );
  return { title: TITLE, notes: [NOTE], items: [...words, ...squareItems(square)] };
}

function instructions({ scaleX, scaleY }: PrintOptions, square: number): readonly string[] {
  const plain = scaleX === 1 && scaleY === 1;
  return [
    '1. Print this page at 100 % ("actual size"), without "fit to page", on the paper, in the tray and with the settings that the patterns will be printed with.',
    '2. Let the paper lie for a few minutes. With a caliper or a steel rule measure both scale bars at the edges of this page, from the outer edge of the first end tick to the outer edge of the last. The x bar runs along the short edge of the paper, the y bar along the long edge.',
    '3. Type what you measured, in mm or with a unit (5.89 in), and the name of your shop file for SHOP:',
    `halfpin printer set SHOP --x ... --y ... --page ${plain ? 'plain' : 'corrected'}`,
    plain
      ? '4. The factors are then in the shop file. Print this page once more with the shop (halfpin printer page SHOP): its bars should come out true.'
      : '4. This page was made with the factors of the shop. If its bars are true, the factors are right and there is nothing to type.',
    ...(square === 0
      ? []
      : [
          `5. The two diagonals of the square must be equally long (nominal ${(square * Math.SQRT2).toFixed(1)} mm). If they are not, the paper runs askew, which no factor cures.`,
        ]),
  ];
}

function squareItems(side: number): readonly Item[] {
  if (side === 0) return [];
  const corner = { x: side, y: side };
  return [
    closed('REF', rectangle(0, 0, side, side)),
    open('REF', { closed: false, segments: [line({ x: 0, y: 0 }, corner)] }, true),
    open('REF', { closed: false, segments: [line({ x: 0, y: side }, { x: side, y: 0 })] }, true),
  ];
}
