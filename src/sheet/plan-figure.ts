import { arrow } from '../drawing/dimension.js';
import type { Item, Layer } from '../drawing/model.js';
import { bushingOpening } from '../geometry/compensate.js';
import { offsetRegion } from '../geometry/offset.js';
import { circle, extents, rectangle } from '../geometry/outline.js';
import { clipLine } from '../geometry/regions/clip.js';
import type { Extents, Outline, Point } from '../geometry/types.js';
import { boardOf, wordsOf } from '../joints/boards.js';
import type { Cut, SolvedJoint } from '../joints/family.js';
import { turnedShape } from '../template/one-plate.js';
import { boardsUnder, type Plate, type PlateSide } from '../template/plate.js';
import type { Bench } from './bench.js';
import { CALLOUT_LETTERS, type Callout, calloutColumn } from './callouts.js';
import type { Figure } from './document.js';
import { boxOf, lettering, scaledLines, stroke } from './items.js';
import { lieWords } from './stands.js';

/** A plate over its boards from above, with stops, fence and backing, and the bit in its bushing. */
export function planFigure(
  plate: Plate,
  side: PlateSide,
  bench: Bench,
  solved: SolvedJoint,
  say: (mm: number) => string,
): Omit<Figure, 'share' | 'room'> {
  const { cut, box: frame, turned } = side;
  const here = (shape: Outline): Outline => (turned ? turnedShape(shape, turned) : shape);
  const lines: readonly Item[] = [
    ...[plate.outline, ...plate.holes].map(
      (shape): Item => ({ kind: 'closed', layer: 'CUT', outline: here(shape) }),
    ),
    ...cut.stock.map(({ outline }): Item => ({ kind: 'closed', layer: 'STOCK', outline })),
  ];
  const boards = cut.stock.map(({ outline }) => extents(outline));
  const whole = boardsUnder(cut);
  const left = side.referenceEdge === 0;
  const stop = stopOf(boards[0] ?? whole, left);
  const bit = onLine(cut, whole) ?? bitPlace(cut.waste, cut.cutterRadius, cut.bushing.outside / 2, frame);
  const behind = bench.backing === undefined ? [] : [bench.backing, bench.fence];
  return {
    title: `The plate over the work, from above: ${plate.name.replaceAll('-', ' ')}`,
    words: `Plate with its openings over the end of the work; reference edge at the ${left ? 'left' : 'right'} stop; you stand below.`,
    scaled: true,
    draw: (scale) => {
      const at = ({ x, y }: Point): Point => ({ x: x * scale, y: y * scale });
      const rect = (layer: Layer, box: Extents): Item => ({
        kind: 'closed',
        layer,
        outline: rectangle(box.minX * scale, box.minY * scale, box.maxX * scale, box.maxY * scale),
      });
      const items: readonly Item[] = [
        ...scaledLines(lines, scale),
        ...behind.map((band) =>
          rect('REF', { minX: frame.minX, maxX: frame.maxX, minY: band.from, maxY: band.to }),
        ),
        rect('SCORE', stop),
        { kind: 'closed', layer: 'SCORE', outline: circle(at(bit), (cut.bushing.outside / 2) * scale) },
        { kind: 'closed', layer: 'SCORE', outline: circle(at(bit), (cut.bit.diameter / 2) * scale) },
      ];
      const box = boxOf(items);
      const middleOf = (band: { from: number; to: number }) => (band.from + band.to) / 2;
      const edge = left ? frame.minX : frame.maxX;
      const other = left ? frame.maxX : frame.minX;
      const near: readonly Callout[] = [
        {
          at: at({ x: (stop.minX + stop.maxX) / 2, y: (stop.minY + stop.maxY) / 2 }),
          text: `${left ? 'left' : 'right'} stop, here at the reference edge`,
        },
        { at: at({ x: edge + (left ? 4 : -4), y: frame.maxY - 4 }), text: 'plate' },
        { at: at(bit), text: 'bit in its bushing' },
      ];
      const far: readonly Callout[] = [
        ...cut.stock.map(({ board }, i): Callout => {
          const { maxX, minX, minY, maxY } = boards[i] ?? whole;
          const onEnd = boardOf(solved, board)?.hold?.posture !== 'flat';
          return {
            at: at({ x: left ? maxX - 2 : minX + 2, y: (minY + maxY) / 2 }),
            text: `${wordsOf(solved, board).name}, ${onEnd ? 'on end' : 'flat'}: ${lieWords(solved, board)}`,
          };
        }),
        ...(bench.backing
          ? [
              { at: at({ x: other, y: middleOf(bench.backing) }), text: 'backing' },
              { at: at({ x: other, y: middleOf(bench.fence) }), text: 'fence, under the plate' },
            ]
          : []),
      ];
      const column = 38;
      const named = [
        ...items,
        ...calloutColumn(near, box, left ? 'left' : 'right', column),
        ...calloutColumn(far, box, left ? 'right' : 'left', column),
      ];
      const first = boards[0] ?? whole;
      return [
        ...named,
        ...widthBelow(
          first,
          { ...box, minY: boxOf(named).minY },
          scale,
          (width) => `${say(width)} wide; you stand on this side`,
        ),
      ];
    },
  };
}

/** The board's width below everything else, its words clear of the extension lines. */
function widthBelow(
  { minX, maxX }: Extents,
  box: Extents,
  scale: number,
  words: (width: number) => string,
): readonly Item[] {
  const [from, to] = [minX * scale, maxX * scale];
  const y = box.minY - 4;
  const middle = (from + to) / 2;
  return [
    ...[from, to].map((x) => stroke('REF', { x, y: box.minY - 1 }, { x, y: y - 1.2 })),
    ...arrow({ x: middle, y }, { x: from, y }, { head: 2 }),
    ...arrow({ x: middle, y }, { x: to, y }, { head: 2 }),
    lettering(words(maxX - minX), { x: middle, y: y - 2 - CALLOUT_LETTERS }, CALLOUT_LETTERS, 'middle'),
  ];
}

/** A block whose edge stands on the board's reference edge, beside the near face. */
function stopOf(board: Extents, left: boolean): Extents {
  const size = 14;
  const y = { minY: board.minY, maxY: Math.min(board.maxY, board.minY + 2 * size) };
  return left
    ? { minX: board.minX - size, maxX: board.minX, ...y }
    : { minX: board.maxX, maxX: board.maxX + size, ...y };
}

/** Where a drawn line ends the waste: the farthest place of the bit's middle from the operator, mid-board. */
function onLine({ waste, cutterRadius, reachJudged }: Cut, { minX, maxX }: Extents): Point | undefined {
  if (!reachJudged) return undefined;
  const centres = offsetRegion(waste, -cutterRadius);
  const { minY, maxY } = extents(...waste);
  const x = (minX + maxX) / 2;
  const ends = clipLine({ x, y: minY - 1 }, { x, y: maxY + 1 }, centres).map((path) => extents(path).maxY);
  return ends.length > 0 ? { x, y: Math.max(...ends) } : undefined;
}

/** A place where the bushing's middle may be, deep in the opening nearest to the plate's middle. */
function bitPlace(
  waste: Parameters<typeof bushingOpening>[0],
  cutterRadius: number,
  bushingRadius: number,
  plate: Extents,
): Point {
  const middle = (plate.minX + plate.maxX) / 2;
  const [nearest] = bushingOpening(waste, cutterRadius, bushingRadius)
    .map((one) => extents(one))
    .toSorted((a, b) => Math.abs((a.minX + a.maxX) / 2 - middle) - Math.abs((b.minX + b.maxX) / 2 - middle));
  const { minX, maxX, maxY } = nearest ?? plate;
  return { x: (minX + maxX) / 2, y: maxY - bushingRadius };
}
