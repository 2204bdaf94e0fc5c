import type { PaperSize } from '../../../shared/paper.js';
import { type Diagnostic, diagnostic } from '../../diagnostics/diagnostic.js';
import { frameOf, hasSpace, joining, leastSpace, madeFor, printing } from './frame.js';
import { defaultOverlap, type PrintOptions } from './types.js';

/**
 * Whether a paper leaves room for any drawing: refused when title, instructions and scale bars take too much
 * of it both upright and turned. `at` is the key that named the paper. What passes here, `tileDrawing` takes.
 */
export function judgePaper(paper: PaperSize, options: PrintOptions, at: string): readonly Diagnostic[] {
  const overlap = options.overlap ?? defaultOverlap;
  const words = { title: longestTitle, instructions: [...printing, joining, ...madeFor(options)] };
  const frames = [false, true].map((turned) => frameOf(paper, turned, options, words));
  if (frames.some((frame) => hasSpace(frame, overlap))) return [];
  const rooms = frames.map(({ area }) => ({ roomX: area.maxX - area.minX, roomY: area.maxY - area.minY }));
  const [upright = { roomX: 0, roomY: 0 }, turned = upright] = rooms;
  const best =
    Math.min(turned.roomX, turned.roomY) > Math.min(upright.roomX, upright.roomY) ? turned : upright;
  const { width, height } = paper;
  return [
    diagnostic('paper-small', 'refused', at, {
      width,
      height,
      margin: options.margin,
      ...best,
      least: leastSpace(overlap),
    }),
  ];
}

/** Takes the most lines that a title gets, on any paper. */
const longestTitle = 'Specimen cabinet '.repeat(40);
