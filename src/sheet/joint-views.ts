import { movedDrawing } from '../drawing/drawing.js';
import type { Drawing, Item } from '../drawing/model.js';
import { rectangle } from '../geometry/outline.js';
import { mirrorY } from '../geometry/transform.js';
import type { Outline, Path } from '../geometry/types.js';
import type { BoardMarking, SolvedJoint } from '../joints/family.js';
import { apartViews, meetAlongLine } from './board-blocks.js';
import { hatch } from './hatch.js';
import { lettering, outlined } from './items.js';

/**
 * The closed joint seen on the outside face of each board, one view over the other, at full size: the face
 * itself, and in it the end grain of the other board, hatched. For reading only.
 */
export function jointViews(solved: SolvedJoint, title: string): Drawing {
  if (meetAlongLine(solved)) {
    const notes = ['The two boards drawn apart, full size in mm; waste is hatched. For reading only.'];
    return { title, notes, items: apartViews(solved, GAP) };
  }
  const views = solved.markings.map((marking) => faceView(marking));
  const step = Math.max(...views.map(({ height }) => height)) + GAP;
  return {
    title,
    notes: ['The closed joint, full size in mm; end grain is hatched. For reading only.'],
    items: views.flatMap(({ items }, i) => movedDrawing({ title, notes: [], items }, 0, -i * step).items),
  };
}

/** Board shown beyond the joint, as a share of the joint's width, and room between two views, mm. */
const SHOWN = 0.22;
const GAP = 14;

/** Distance of hatching lines, mm. */
const HATCH = 2.2;

function faceView(marking: BoardMarking): { readonly items: readonly Item[]; readonly height: number } {
  const { width, depth, board, outsideFace } = marking;
  const height = depth + SHOWN * width;
  // The end of the board is up, so that the joint is seen as it is held.
  const upright = <T extends Outline | Path>(shape: T): T => mirrorY(shape, height);
  const ends = outsideFace.waste.map(upright);
  const items: Item[] = [
    outlined('board', rectangle(0, 0, width, height)),
    ...ends.map((outline) => outlined('outline', outline)),
    ...ends.flatMap((end) => hatch(end, 'hatch', HATCH)),
    lettering(
      `${board.toUpperCase()}, OUTSIDE FACE`,
      { x: width / 2, y: (SHOWN * width) / 2 - 1.5 },
      3,
      'middle',
    ),
  ];
  return { items, height };
}
