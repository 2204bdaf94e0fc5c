import type { PaperSize } from '../../shared/paper.js';
import { type Finding, finding } from '../findings/finding.js';
import { frameOf, hasRoom, joining, leastRoom, madeFor, printing } from './tiling-frame.js';
import { type PrintOptions, usualOverlap } from './tiling-types.js';

/**
 * Whether a paper leaves room for any drawing: refused when title, instructions and scale bars take too much
 * of it both upright and turned. `at` is the key that named the paper. What passes here, `tileDrawing` takes.
 */
export function judgePaper(paper: PaperSize, options: PrintOptions, at: string): readonly Finding[] {
  const overlap = options.overlap ?? usualOverlap;
  const words = { title: longestTitle, instructions: [...printing, joining, ...madeFor(options)] };
  const frames = [false, true].map((turned) => frameOf(paper, turned, options, words));
  if (frames.some((frame) => hasRoom(frame, overlap))) return [];
  const rooms = frames.map(({ area }) => ({ roomX: area.maxX - area.minX, roomY: area.maxY - area.minY }));
  const [upright = { roomX: 0, roomY: 0 }, turned = upright] = rooms;
  const best =
    Math.min(turned.roomX, turned.roomY) > Math.min(upright.roomX, upright.roomY) ? turned : upright;
  const { width, height } = paper;
  return [
    finding('paper-small', 'refused', at, {
      width,
      height,
      margin: options.margin,
      ...best,
      least: leastRoom(overlap),
    }),
  ];
}

/** Takes the most lines that a title gets, on any paper. */
const longestTitle = 'Specimen cabinet '.repeat(40);
