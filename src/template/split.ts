import { linesOf, movedDrawing } from '../drawing/drawing.js';
import type { Drawing, Item } from '../drawing/model.js';
import { roundCorners } from '../geometry/fillet.js';
import { circle, extents, polygon, rectangle } from '../geometry/outline.js';
import { difference, intersection } from '../geometry/regions/boolean.js';
import { clipLine } from '../geometry/regions/clip.js';
import { regionOf } from '../geometry/regions/nesting.js';
import type { Extents, Outline, Path, Point, Region } from '../geometry/types.js';
import { isOuter, type Plate } from './plate.js';
import { reachOf, type Seam } from './seams.js';

/** One part of a plate that is longer than the bed. */
export interface PlatePart {
  /** `finger-template-tails-part-1`, counted from the left. */
  readonly name: string;
  /** Starts at the same x as the whole plate. */
  readonly drawing: Drawing;
  /** A point (x, y) of the part's drawing is the whole plate's (x + shift, y), mm. */
  readonly shift: number;
}

/** The plate with the index holes of its seams. */
export function withIndexHoles(plate: Plate, seams: readonly Seam[]): Plate {
  const holes = seams.flatMap(({ indexHoles }) => indexHoles.map((at) => circle(at, at.radius)));
  return { ...plate, holes: [...plate.holes, ...holes] };
}

/** The room along x, on the whole plate, that a part's label may take: clear of its keys and index holes. */
export interface PartSpace {
  readonly from: number;
  readonly to: number;
}

/**
 * The parts of a plate. `marks` are its scores and words but for the label, which each part gets its own of;
 * the outlines of boards are cut off where the part ends.
 */
export function partsOf(
  plate: Plate,
  seams: readonly Seam[],
  whole: Drawing,
  marks: readonly Item[],
  label: (part: number, room: PartSpace) => readonly Item[],
): readonly PlatePart[] {
  const frame = extents(plate.outline);
  const sheet = regionOf([plate.outline, ...plate.holes]);
  const count = seams.length + 1;
  return Array.from({ length: count }, (_, i): PlatePart => {
    const [before, after] = [seams[i - 1], seams[i]];
    const within = (region: Region): Region => {
      const left = after ? intersection(region, leftOf(after, frame, after.clearance)) : region;
      return before ? difference(left, leftOf(before, frame, 0)) : left;
    };
    const part = within(sheet);
    const outer = part.filter(isOuter);
    if (outer.length !== 1)
      throw new Error(`a seam of ${plate.name} leaves a part in ${outer.length} pieces`);
    const box = extents(...outer);
    const room = {
      from: before ? before.x + reachOf(before)[1] : frame.minX,
      to: after ? after.x - reachOf(after)[0] : frame.maxX,
    };
    const items: readonly Item[] = [
      ...[...part.filter((one) => !isOuter(one)), ...outer].map(onLayer('CUT')),
      ...whole.items
        .flatMap((item) => (item.kind === 'closed' && item.layer === 'STOCK' ? [item.outline] : []))
        .flatMap((one) => boxed(one, box))
        .map(onLayer('STOCK')),
      ...marks
        .flatMap((item) => clipped(item, outer, box))
        .filter((item) => !seams.some(({ x }) => runsAlong(item, x))),
      ...label(i, room),
    ];
    const shift = box.minX - frame.minX;
    return {
      name: `${plate.name}-part-${i + 1}`,
      shift,
      drawing: movedDrawing(
        {
          title: `${whole.title}, part ${i + 1} of ${count}`,
          notes: [
            ...whole.notes,
            `Part ${i + 1} of ${count}: keys and notches meet flush, with pins in the index holes. Prove the joined plate by a test cut in scrap.`,
          ],
          items,
          ...(whole.keepClear && { keepClear: whole.keepClear }),
        },
        -shift,
        0,
      ),
    };
  });
}

const onLayer =
  (layer: 'CUT' | 'STOCK') =>
  (outline: Outline): Item => ({ kind: 'closed', layer, outline });

/**
 * Everything left of a seam, well beyond the plate on the other sides: with the notch in full, or with the key,
 * which is `less` narrower and half of it shorter. Their shoulders lie on one line.
 */
function leftOf({ x, key, keyDepth, keyRound }: Seam, frame: Extents, less: number): Region {
  const [low, high] = [key[0] + less / 2, key[1] - less / 2];
  const tip = x + keyDepth - less / 2;
  const beyond = 10;
  const at = (px: number, y: number): Point => ({ x: px, y });
  const square = polygon([
    at(frame.minX - beyond, frame.minY - beyond),
    at(x, frame.minY - beyond),
    at(x, low),
    at(tip, low),
    at(tip, high),
    at(x, high),
    at(x, frame.maxY + beyond),
    at(frame.minX - beyond, frame.maxY + beyond),
  ]);
  const ofKey = ({ y }: Point) => y > frame.minY && y < frame.maxY;
  // The key's own corners run parallel to the notch's.
  const round = (corner: Point) => (corner.x > x ? keyRound - less / 2 : keyRound);
  return [roundCorners(square, (corner) => (ofKey(corner) ? round(corner) : 0))];
}

function boxed(one: Outline, { minX, maxX }: Extents): Region {
  const { minY, maxY } = extents(one);
  return intersection([one], [rectangle(minX, minY - 1, maxX, maxY + 1)]);
}

/** Lines end at the seam; seams keep clear of words, which belong to the part under them. */
function clipped(item: Item, part: Region, { minX, maxX }: Extents): readonly Item[] {
  if (item.kind === 'open')
    return item.path.segments
      .flatMap((one) => pieces(one.from, one.to, part))
      .map((path) => ({ ...item, path }));
  const box = extents(...linesOf(item));
  return box.minX >= minX && box.maxX <= maxX ? [item] : [];
}

/** A mark on the line of a seam would be cut, not scored. */
function runsAlong(item: Item, x: number): boolean {
  const { minX, maxX } = extents(...linesOf(item));
  return minX > x - ON_SEAM && maxX < x + ON_SEAM;
}

/** Within the widest kerf of a seam, mm. */
const ON_SEAM = 0.5;

const pieces = (from: Point, to: Point, part: Region): readonly Path[] => clipLine(from, to, part);
