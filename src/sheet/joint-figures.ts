import type { Item } from '../drawing/model.js';
import { rectangle } from '../geometry/outline.js';
import { difference } from '../geometry/regions/boolean.js';
import { mirrorY, scale as scaled, translate } from '../geometry/transform.js';
import type { Outline, Path } from '../geometry/types.js';
import { wordsOf } from '../joints/boards.js';
import type { BoardMarking, MarkedPanel, SolvedJoint } from '../joints/family.js';
import type { Figure } from './document.js';
import { hatch } from './hatch.js';
import { boxOf, lettering, movedItems, outlined } from './items.js';
import { capital } from './names.js';

/** Board shown beyond the joint, as a share of the joint's width; room between two views, mm on paper. */
const SHOWN = 0.18;
const GAP = 3.5;

/** Capital height of the words under a view, mm. */
const LETTERS = 2.4;

/** The closed joint seen on the outside face of each board, end grain hatched. */
export function closedFigure(solved: SolvedJoint): Omit<Figure, 'share' | 'room'> {
  const { markings } = solved;
  return {
    title: 'The closed joint from both faces',
    words: 'Two views of the closed joint; the end grain of the other board is hatched.',
    scaled: true,
    draw: (scale) => {
      const views = markings.map((marking) => faceView(marking, scale));
      return stacked(
        views,
        markings.map((one) => `${wordsOf(solved, one.board).name}, outside face`),
      );
    },
  };
}

/** The joint opened up: each board as it is cut, its end turned to the other's; end grain hatched. */
export function openedFigure(solved: SolvedJoint): Omit<Figure, 'share' | 'room'> {
  const { markings } = solved;
  return {
    title: 'Opened up',
    words: 'Inside face and end grain of each board with the waste gone; reference edge at the left.',
    scaled: true,
    draw: (scale) => {
      const views = markings.map((marking, i) => openedView(marking, scale, i > 0));
      return stacked(
        views,
        markings.map((one) => `${wordsOf(solved, one.board).name}: inside face and end`),
      );
    },
  };
}

function faceView(marking: BoardMarking, scale: number): readonly Item[] {
  const { width, depth, outsideFace } = marking;
  const height = depth + SHOWN * width;
  // The end of the board is up, so that the joint is seen as it is held.
  const upright = <T extends Outline | Path>(shape: T): T => scaled(mirrorY(shape, height), scale);
  const ends = outsideFace.waste.map(upright);
  return [
    outlined('board', scaled(rectangle(0, 0, width, height), scale)),
    ...ends.map((outline): Item => outlined('outline', outline)),
    ...ends.flatMap((outline) => hatch(outline, 'hatch', 1.6)),
  ];
}

/** Inside face below, end grain above it; turned over for the board that meets it from the other side. */
function openedView(marking: BoardMarking, scale: number, turned: boolean): readonly Item[] {
  const { width, depth, material, insideFace, endGrain } = marking;
  const { thickness } = material;
  const long = depth + SHOWN * width;
  const face = wood(insideFace, rectangle(0, 0, width, long));
  const end = wood(endGrain, rectangle(0, 0, width, thickness));
  const gap = 2 / scale;
  const whole = long + gap + thickness;
  const place = (shape: Outline): Outline => scaled(turned ? mirrorY(shape, whole) : shape, scale);
  const faces = face.map((one) => place(mirrorY(one, long)));
  // Looked at from the inside, the inside face's edge of the end grain is the nearer one.
  const ends = end.map((one) => place(translate(mirrorY(one, thickness), 0, long + gap)));
  return [
    ...faces.map((outline): Item => outlined('board', outline)),
    ...ends.map((outline): Item => outlined('outline', outline)),
    ...ends.flatMap((outline) => hatch(outline, 'hatch', 1.6)),
  ];
}

/** What is left of a panel once its waste is gone. */
function wood(panel: MarkedPanel, whole: Outline): readonly Outline[] {
  return panel.waste.length === 0 ? [whole] : difference([whole], panel.waste);
}

/** Views one under the other, each with its words below it. */
function stacked(views: readonly (readonly Item[])[], words: readonly string[]): readonly Item[] {
  let top = 0;
  return views.flatMap((view, i) => {
    const { minX, minY, maxX, maxY } = boxOf(view);
    const dy = top - maxY;
    const below = dy + minY - GAP / 2 - LETTERS;
    top = below - GAP;
    const at = { x: (minX + maxX) / 2, y: below };
    return [...movedItems(view, 0, dy), lettering(capital(words[i] ?? ''), at, LETTERS, 'middle')];
  });
}
