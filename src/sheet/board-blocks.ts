import type { Item } from '../drawing/model.js';
import { rectangle } from '../geometry/outline.js';
import { difference } from '../geometry/regions/boolean.js';
import { mirrorY, scale as scaled, translate } from '../geometry/transform.js';
import type { Outline, Region } from '../geometry/types.js';
import { placementOf, wordsOf } from '../joints/boards.js';
import type { BoardMarking, SolvedJoint } from '../joints/family.js';
import type { Figure } from './document.js';
import { hatch } from './hatch.js';
import { lettering, outlined } from './items.js';
import { capital } from './names.js';

/** What a set-up sheet says and shows of a joint that makes no corner. */

/** The joint drawn for reading: two boards as they meet and apart, or each marked board with its waste. */
export function boardFigures(solved: SolvedJoint): readonly Omit<Figure, 'share' | 'room'>[] {
  return meetAlongLine(solved) ? lineFigures(solved) : solved.markings.map((one) => wasteFigure(solved, one));
}

/** Both boards are marked along an edge, and the second is turned over about x onto the first. */
function meetAlongLine(solved: SolvedJoint): boolean {
  const { markings } = solved;
  const place = placementOf(solved);
  return (
    markings.length === 2 &&
    markings.every(({ over }) => over === 'edge') &&
    place?.turned === true &&
    place.angle === 0
  );
}

/** The y of the line on both boards, added. */
const lineHeight = (solved: SolvedJoint): number => placementOf(solved)?.y ?? 0;

/** One board on the face that its pattern has in front, its waste hatched. */
function wasteFigure(solved: SolvedJoint, marking: BoardMarking): Omit<Figure, 'share' | 'room'> {
  const { width, depth, faceUpright = 'outside', outsideFace, insideFace, over = 'end' } = marking;
  const panel = faceUpright === 'outside' ? outsideFace : insideFace;
  const name = capital(wordsOf(solved, marking.board).name);
  return {
    title: `${name}, ${faceUpright} face`,
    words: `The ${over} that the template is laid over is below; what is cut away is hatched.`,
    scaled: true,
    draw: (scale) => {
      const high = depth + SHOWN * width;
      const wood = rectangle(0, 0, width * scale, high * scale);
      return [outlined('board', wood), ...wasteItems(panel.waste.map((one) => scaled(one, scale)))];
    },
  };
}

/** Board shown beyond the line, as a share of the joint's width; room between the boards when apart, mm on paper. */
const SHOWN = 0.12;
const APART = 6;
const LETTERS = 2.4;

/** Both boards as they meet, and drawn apart with the waste hatched: outside faces up, reference edges left. */
function lineFigures(solved: SolvedJoint): readonly Omit<Figure, 'share' | 'room'>[] {
  const names = solved.markings.map(({ board }) => wordsOf(solved, board).name);
  return [
    {
      title: 'The closed joint, outside faces up',
      words: `${capital(names[0] ?? '')} above the line and ${names[1] ?? ''} below it, reference edges at the left.`,
      scaled: true,
      draw: (scale) => lineViews(solved, scale, 0),
    },
    {
      title: 'Drawn apart, the waste hatched',
      words: 'The two blanks with their straight edges to one another; what is cut away is hatched.',
      scaled: true,
      draw: (scale) => lineViews(solved, scale, lineHeight(solved) + APART / scale),
    },
  ];
}

/** Both boards at a scale, the first moved away by `apart` mm before scaling, and then its waste and the other's shown. */
function lineViews(solved: SolvedJoint, scale: number, apart: number): readonly Item[] {
  const { markings, width } = solved;
  const meeting = lineHeight(solved);
  return markings.flatMap((marking, i) => {
    // Board two's own y runs from its straight edge away from board one.
    const place = (shape: Outline): Outline =>
      scaled(i === 0 ? translate(shape, 0, apart) : translate(mirrorY(shape), 0, meeting), scale);
    const reach = marking.depth + SHOWN * width;
    const middle = marking.depth + (SHOWN * width) / 2;
    const y = (i === 0 ? apart + middle : meeting - middle) * scale - LETTERS / 2;
    return [
      ...woodOf(marking, reach).map((one): Item => outlined('board', place(one))),
      ...(apart > 0 ? wasteItems(marking.outsideFace.waste.map(place)) : []),
      lettering(
        `${capital(wordsOf(solved, marking.board).name)}, outside face`,
        { x: (width / 2) * scale, y },
        LETTERS,
        'middle',
      ),
    ];
  });
}

function woodOf({ width, outsideFace }: BoardMarking, reach: number): Region {
  return difference([rectangle(0, 0, width, reach)], outsideFace.waste);
}

function wasteItems(waste: Region): readonly Item[] {
  return waste.flatMap((outline): readonly Item[] => [
    outlined('outline', outline),
    ...hatch(outline, 'hatch', 1.6),
  ]);
}
