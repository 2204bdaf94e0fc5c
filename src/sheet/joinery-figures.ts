import { arrow } from '../drawing/dimension.js';
import { seen } from '../drawing/drawing.js';
import type { Item } from '../drawing/model.js';
import { polygon } from '../geometry/outline.js';
import type { Point } from '../geometry/types.js';
import { boardOf, wordsOf } from '../joints/boards.js';
import type { Figure } from './document.js';
import { hatch } from './hatch.js';
import type { SheetInput } from './input.js';
import { lettering, ruled } from './items.js';
import { capital } from './names.js';

/** Sections across a board for the cuts that no template makes: the rabbet round a lipped front, the groove for a bottom. */

type Drawn = Omit<Figure, 'share' | 'room'>;

export function joineryFigures(input: SheetInput): readonly Drawn[] {
  return [...rabbetFigure(input), ...grooveFigure(input)];
}

const LETTERS = 2.4;

/** How much of a board is drawn above the cut, mm. */
const SHOWN = 10;

/** The lower edge of a lipped front, its inside face at the right. */
function rabbetFigure({ solved, fmt }: SheetInput): readonly Drawn[] {
  const front = solved.boards.find(({ lip }) => lip);
  if (!front?.lip) return [];
  const { lip, material } = front;
  const { thickness } = material;
  // The lip at the reference edge is drawn; where there is none, that at the ends.
  const wide = lip.lower > 0 ? lip.lower : lip.end;
  const where = lip.lower > 0 ? 'reference edge' : 'end';
  const inside = thickness - lip.rabbet;
  return [
    {
      title: `Rabbet of the ${wordsOf(solved, front.board).name}, at its ${where}`,
      words: `Section: ${fmt.length(wide)} wide, ${fmt.length(lip.rabbet)} deep into the inside face; the lip is ${fmt.length(inside)} thick.`,
      scaled: true,
      draw: (scale) => {
        const board = polygon(
          points(scale, [
            [0, 0],
            [inside, 0],
            [inside, wide],
            [thickness, wide],
            [thickness, wide + SHOWN],
            [0, wide + SHOWN],
          ]),
        );
        return [
          ...wood(board),
          ...measured(at(thickness, 0, scale), at(thickness, wide, scale), `${fmt.length(wide)} wide`),
          ...across(at(inside, 0, scale), at(thickness, 0, scale), `${fmt.length(lip.rabbet)} deep`),
          side('outside', at(0, wide + SHOWN, scale), 'start'),
          side('inside', at(thickness, wide + SHOWN, scale), 'end'),
        ];
      },
    },
  ];
}

/** A side in section with the groove and the bottom's edge in it, its reference edge below. */
function grooveFigure({ solved, joint, pieces, fmt }: SheetInput): readonly Drawn[] {
  const { groove } = joint.layout;
  const [first] = solved.boards;
  const piece = pieces.find(({ piece: one }) => one.grooveDepth !== undefined)?.piece;
  if (!groove || !first) return [];
  const thickness = boardOf(solved, first.board)?.material.thickness ?? first.material.thickness;
  const deep = piece?.grooveDepth ?? thickness / 2;
  const { from, width } = groove;
  const depth = piece?.grooveDepth === undefined ? '' : `, ${fmt.length(deep)} deep`;
  return [
    {
      title: `Groove for the bottom: ${wordsOf(solved, first.board).name}`,
      words: `Section: the groove is ${fmt.length(width)} wide${depth}, ${fmt.length(from)} above the reference edge.`,
      scaled: true,
      draw: (scale) => {
        const board = polygon(
          points(scale, [
            [0, 0],
            [thickness, 0],
            [thickness, from],
            [thickness - deep, from],
            [thickness - deep, from + width],
            [thickness, from + width],
            [thickness, from + width + SHOWN],
            [0, from + width + SHOWN],
          ]),
        );
        const high = at(thickness, from + width + SHOWN, scale);
        return [
          ...wood(board),
          ...measured(at(thickness, 0, scale), at(thickness, from, scale), fmt.length(from)),
          ...measured(
            at(thickness, from, scale),
            at(thickness, from + width, scale),
            `${fmt.length(width)} wide${depth}`,
          ),
          side('outside', at(0, from + width + SHOWN, scale), 'start'),
          side('inside', high, 'end'),
          lettering('reference edge', { x: 0, y: -LETTERS - 1.6 }, LETTERS),
        ];
      },
    },
  ];
}

const at = (x: number, y: number, scale: number): Point => ({ x: x * scale, y: y * scale });

const points = (scale: number, corners: readonly (readonly [number, number])[]): Point[] =>
  corners.map(([x, y]) => at(x, y, scale));

const wood = (outline: ReturnType<typeof polygon>): readonly Item[] => [
  { kind: 'closed', layer: 'REF', style: 'wood', outline },
  ...hatch(outline, 'board', 2.2),
  { kind: 'closed', layer: 'REF', style: 'edge', outline },
];

/** A height to the right of the section, its words beside it. */
function measured(low: Point, high: Point, words: string): readonly Item[] {
  const x = low.x + 6;
  const middle = (low.y + high.y) / 2;
  return [
    ruled('guide', { x: low.x + 1, y: low.y }, { x: x + 1.5, y: low.y }),
    ruled('guide', { x: high.x + 1, y: high.y }, { x: x + 1.5, y: high.y }),
    ...seen('guide', arrow({ x, y: middle }, { x, y: high.y }, { head: 1.4 })),
    ...seen('guide', arrow({ x, y: middle }, { x, y: low.y }, { head: 1.4 })),
    lettering(words, { x: x + 2.5, y: middle - LETTERS / 2 }, LETTERS),
  ];
}

/** A width below the section. */
function across(left: Point, right: Point, words: string): readonly Item[] {
  const y = left.y - 4;
  const middle = (left.x + right.x) / 2;
  return [
    ruled('guide', { x: left.x, y: left.y - 1 }, { x: left.x, y: y - 1.5 }),
    ruled('guide', { x: right.x, y: right.y - 1 }, { x: right.x, y: y - 1.5 }),
    ...seen('guide', arrow({ x: middle, y }, { x: left.x, y }, { head: 1.4 })),
    ...seen('guide', arrow({ x: middle, y }, { x: right.x, y }, { head: 1.4 })),
    lettering(words, { x: left.x, y: y - 2.6 - LETTERS }, LETTERS),
  ];
}

const side = (words: string, { x, y }: Point, align: 'start' | 'end'): Item =>
  lettering(
    capital(words),
    { x: align === 'start' ? x - 1 : x + 1, y: y + 1.2 },
    LETTERS,
    align === 'start' ? 'end' : 'start',
  );
