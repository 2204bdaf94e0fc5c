import { arrow } from '../drawing/dimension.js';
import { lineLength } from '../drawing/lettering/typeface.js';
import type { Item } from '../drawing/model.js';
import type { StyleName } from '../drawing/styles.js';
import { circle, extents, rectangle } from '../geometry/outline.js';
import { mirrorX, scale as scaled } from '../geometry/transform.js';
import type { Extents, Outline, Point } from '../geometry/types.js';
import { turnedShape } from '../template/one-plate.js';
import type { Plate, PlateSide } from '../template/plate.js';
import type { Bench } from './bench.js';
import { boxOf, lettering, movedItems, ruled } from './items.js';

/** A board under the plate, as whoever stands before it sees it. */
export interface LyingBoard {
  /** In the template's coordinates as the plate lies, mm. */
  readonly outline: Outline;
  readonly posture: 'on end' | 'flat';
  /** Written on the board: `B2`. */
  readonly mark: string;
  /** Marks on outside faces have a ring. */
  readonly ringed: boolean;
}

export interface CardView {
  readonly plate: Plate;
  readonly side: PlateSide;
  /** The plate lies upside down. */
  readonly mirrored: boolean;
  /** Where the reference edge lies. */
  readonly stop: 'left' | 'right';
  /** Thickness of the spacer between stop and board, mm. */
  readonly along: number;
  readonly boards: readonly LyingBoard[];
  readonly bench: Bench;
}

/** Heights and widths on paper, mm: a face is drawn as high as there is room for. */
const FACE = { least: 12, most: 26 } as const;
const STOP = 5;
const GAP = 7;
const LETTERS = { mark: 4.2, small: 2.2 } as const;

/**
 * The plate as it lies, from above, and under it the face that is toward you: a board on end hangs below the plate, one that
 * lies flat runs on under it, away from you. The stop is at the reference edge, which a V points to.
 */
export function cardItems(view: CardView, width: number, height: number): readonly Item[] {
  let scale = width / (view.side.box.maxX - view.side.box.minX);
  for (let tries = 0; tries < 12; tries += 1) {
    const items = drawn(view, scale, FACE.least);
    const { minX, minY, maxX, maxY } = boxOf(items);
    const more = height - (maxY - minY);
    if (more >= 0 && maxX - minX <= width)
      return drawn(view, scale, Math.min(FACE.most, FACE.least + 0.8 * more));
    scale *= 0.88;
  }
  return drawn(view, scale, FACE.least);
}

function drawn(
  { plate, side, mirrored, stop, along, boards, bench }: CardView,
  scale: number,
  high: number,
): readonly Item[] {
  const { width, turned } = side;
  const onPlate = (shape: Outline): Outline => {
    const lying = turned ? turnedShape(shape, turned) : shape;
    return scaled(mirrored ? mirrorX(lying, width) : lying, scale);
  };
  const outline = onPlate(plate.outline);
  const frame = extents(outline);
  const lying = boards.map((one) => ({ ...one, box: extents(scaled(one.outline, scale)) }));
  const flat = lying.filter(({ posture }) => posture === 'flat');
  const onEnd = lying.filter(({ posture }) => posture === 'on end');
  const far = Math.max(frame.maxY, ...flat.map(({ box: one }) => one.maxY));
  const near = Math.min(frame.minY, ...lying.map(({ box: one }) => one.minY));
  const first = lying[0]?.box ?? frame;
  // How much of a flat board is seen behind the plate.
  const beyond = onEnd.length > 0 ? FACE.least : high;
  const bits = bitPlace(side, mirrored, scale);
  return [
    // What lies under the plate: boards, and what stands behind a board on end.
    ...flat.flatMap(({ box: one }) => area('wood', { ...one, maxY: far + beyond })),
    ...onEnd.flatMap(({ box: one }) => area('wood', one)),
    ...filled('plate', outline),
    ...[...plate.holes, ...side.screws.map(({ x, y, radius }) => circle({ x, y }, radius))].flatMap((hole) =>
      filled('blank', onPlate(hole)),
    ),
    // Hidden edges of the boards under the plate.
    ...lying.flatMap(({ box: one, posture }) =>
      hiddenEdges(posture === 'flat' ? { ...one, maxY: far } : one),
    ),
    ...(bench.backing && bench.backing.to * scale < frame.maxY
      ? [
          dashed(
            { x: frame.minX, y: bench.backing.to * scale },
            { x: frame.maxX, y: bench.backing.to * scale },
          ),
        ]
      : []),
    ...flat.flatMap((one) => faceMarks(one, { ...one.box, minY: far, maxY: far + beyond }, stop)),
    ...flat.flatMap(({ box: one }) =>
      stopItems({ ...one, minY: far, maxY: far + beyond }, stop, along * scale),
    ),
    ...(bits ? bitItems(bits, side, scale) : []),
    ...feed(first, near - 3.2),
    ...onEnd.flatMap((one) => {
      const top = near - GAP;
      const face = { ...one.box, minY: top - high, maxY: top };
      return [
        ...area('wood', face),
        ...frameOf(face),
        ...area('plate', { minX: frame.minX, maxX: frame.maxX, minY: top, maxY: top + 1.6 }),
        ...frameOf({ minX: frame.minX, maxX: frame.maxX, minY: top, maxY: top + 1.6 }),
        ...stopItems(face, stop, along * scale),
        ...faceMarks(one, face, stop),
      ];
    }),
  ];
}

const filled = (style: StyleName, outline: Outline): readonly Item[] => [
  { kind: 'closed', layer: 'REF', style, outline },
  { kind: 'closed', layer: 'REF', style: 'edge', outline },
];

const rect = ({ minX, minY, maxX, maxY }: Extents): Outline => rectangle(minX, minY, maxX, maxY);

const area = (style: StyleName, box: Extents): readonly Item[] => [
  { kind: 'closed', layer: 'REF', style, outline: rect(box) },
];

const frameOf = (box: Extents): readonly Item[] => [
  { kind: 'closed', layer: 'REF', style: 'edge', outline: rect(box) },
];

const dashed = (from: Point, to: Point): Item => ({
  ...ruled('guide', from, to, true),
  style: 'hidden',
});

function hiddenEdges({ minX, minY, maxX, maxY }: Extents): readonly Item[] {
  const corners: readonly Point[] = [
    { x: minX, y: minY },
    { x: maxX, y: minY },
    { x: maxX, y: maxY },
    { x: minX, y: maxY },
  ];
  return corners.map((from, i) => dashed(from, corners[(i + 1) % 4] ?? from));
}

/** The letters as they lie, their feet toward the reference edge, and a V that points to it. */
function faceMarks({ mark, ringed }: LyingBoard, face: Extents, stop: 'left' | 'right'): readonly Item[] {
  const inward = stop === 'left' ? 1 : -1;
  const edge = stop === 'left' ? face.minX : face.maxX;
  const y = (face.minY + face.maxY) / 2;
  const wide = face.maxX - face.minX;
  const middle = { x: (face.minX + face.maxX) / 2, y };
  const size = Math.min(LETTERS.mark, (face.maxY - face.minY) / 3, wide / 6);
  const angle = stop === 'left' ? -Math.PI / 2 : Math.PI / 2;
  const foot = { x: middle.x - (inward * size) / 2, y };
  const ring = Math.hypot(lineLength(mark, size, 'bold'), size) / 2 + 0.9;
  const reach = Math.min(3.4, wide / 7);
  return [
    { ...lettering(mark, foot, size, 'middle', 'bold'), angle },
    ...(ringed
      ? [{ kind: 'closed', layer: 'REF', style: 'mark', outline: circle(middle, ring) } as const]
      : []),
    ruled('mark', { x: edge + inward * reach, y: y + reach / 2 }, { x: edge + inward * 0.3, y }),
    ruled('mark', { x: edge + inward * reach, y: y - reach / 2 }, { x: edge + inward * 0.3, y }),
  ];
}

/** The stop, and the spacer between it and the board where there is one. */
function stopItems(face: Extents, stop: 'left' | 'right', along: number): readonly Item[] {
  const beside = (from: number, to: number): Extents =>
    stop === 'left'
      ? { ...face, minX: face.minX - to, maxX: face.minX - from }
      : { ...face, minX: face.maxX + from, maxX: face.maxX + to };
  const block = beside(along, along + STOP);
  const at = { x: (block.minX + block.maxX) / 2 + LETTERS.small / 2, y: (face.minY + face.maxY) / 2 };
  return [
    ...(along > 0 ? [...area('blank', beside(0, along)), ...frameOf(beside(0, along))] : []),
    ...area('block', block),
    ...frameOf(block),
    { ...lettering('stop', at, LETTERS.small, 'middle', 'bold'), angle: Math.PI / 2 },
  ];
}

/** Along the near side of the plate, from left to right. */
function feed({ minX, maxX }: Extents, y: number): readonly Item[] {
  const middle = (minX + maxX) / 2;
  const half = Math.max(7, 0.28 * (maxX - minX));
  const from = { x: middle - half, y };
  const to = { x: middle + half, y };
  return arrow(from, to, { head: 2.4 }).map((item) => ({ ...item, style: 'arrow' }));
}

/** Middle of the bit in the opening nearest to the left, where it starts. */
function bitPlace({ cut, width }: PlateSide, mirrored: boolean, scale: number): Point | undefined {
  const boxes = cut.waste
    .map((one) => extents(one))
    .map((one) => (mirrored ? { ...one, minX: width - one.maxX, maxX: width - one.minX } : one));
  const [first] = boxes.toSorted((a, b) => a.minX - b.minX);
  if (!first) return undefined;
  const x = first.minX + Math.min((first.maxX - first.minX) / 2, cut.bit.diameter);
  const y = Math.max(first.minY, extents(...cut.stock.map(({ outline }) => outline)).minY);
  return { x: x * scale, y: y * scale };
}

function bitItems(at: Point, { cut }: PlateSide, scale: number): readonly Item[] {
  return [
    { kind: 'closed', layer: 'REF', style: 'blank', outline: circle(at, (cut.bushing.outside / 2) * scale) },
    { kind: 'closed', layer: 'REF', style: 'edge', outline: circle(at, (cut.bushing.outside / 2) * scale) },
    { kind: 'closed', layer: 'REF', style: 'arrow', outline: circle(at, (cut.bit.diameter / 2) * scale) },
  ];
}

/** The picture with its lower left corner at the zero. */
export const hung = (items: readonly Item[]): { readonly items: readonly Item[]; readonly box: Extents } => {
  const box = boxOf(items);
  return { items: movedItems(items, -box.minX, -box.maxY), box };
};
