import type { Formatter } from '../diagnostics/formatter.js';
import { depthFrom } from '../diagnostics/wording/testcut.js';
import { area, closed, movedItem, seen, shift, text } from '../drawing/drawing.js';
import type { Drawing, Item } from '../drawing/model.js';
import type { StyleName } from '../drawing/styles.js';
import { circle, rectangle as outlineOf, polygon } from '../geometry/outline.js';
import type { Point } from '../geometry/types.js';
import type { TestCut } from './assemble.js';
import type { ClosedLevel } from './cut/level.js';
import { extents, intersection, type Polygons, rectangle, runsAt, type Spot } from './cut/polygons.js';

/** Sizes on paper, mm. */
const PICTURE_LETTERS = 2;
const LINE = 4.5;
const BETWEEN = 4;
const SWATCH = { width: 5, height: 3, apart: 32 };
/** Bigger than the drawing, and how wide a stretch of the joint an enlargement shows. */
const ENLARGED = 20;
const STRETCH = 2;
/** The ring about the worst place of a level. */
const RING = 2;

/** From x = 0 to the right and from y = 0 down. */
interface Panel {
  readonly height: number;
  readonly caption: string;
  readonly items: readonly Item[];
}

/** To be placed in a panel: its own y runs down to −height. */
type Place = (spot: Spot) => Point;

const parts = ['first', 'second', 'gap', 'overlap'] as const;
type Part = (typeof parts)[number];

/**
 * The closed joint of a simulated test cut: from the face, then each level from above, all at 1:1, and the widest gap and
 * overlap enlarged. It shows the very polygons that were measured. To be written as a picture.
 */
export function testCutDrawing(cut: TestCut, title: string, fmt: Formatter): Drawing {
  const panels = [
    // Boards that lie flat are alike from face to face: each level from above shows all of them.
    ...(cut.way === 'placed' ? [] : [facePanel(cut, fmt)]),
    ...details(cut, fmt),
    ...cut.sections.map((one) => levelPanel(one, cut, fmt)),
  ];
  const head = [title, summary(cut, fmt), 'True to scale, 1:1, unless another scale is said.'];
  const items: Item[] = head.flatMap((line, i) => pictureText({ x: 0, y: -i * LINE }, line));
  let top = -head.length * LINE;
  items.push(...legend(cut, top));
  top -= LINE + BETWEEN;
  for (const { caption, items: own, height } of panels) {
    items.push(
      ...pictureText({ x: 0, y: top }, caption),
      ...own.map((item) => movedItem(item, shift(0, top - LINE))),
    );
    top -= LINE + height + BETWEEN;
  }
  return { title, notes: [], items };
}

function summary(cut: TestCut, fmt: Formatter): string {
  return `Widest gap ${fmt.length(cut.worstGap)}, widest overlap ${fmt.length(cut.worstOverlap)}.`;
}

function legend({ boards: [first, second] }: TestCut, top: number): readonly Item[] {
  const names = { first: `board ${first}`, second: `board ${second}`, gap: 'gap', overlap: 'overlap' };
  return parts.flatMap((part, i) => {
    const x = i * SWATCH.apart;
    const swatch = outlineOf(x, top - SWATCH.height, x + SWATCH.width, top);
    return [
      ...filled(part, [swatch]),
      ...seen('frame', [closed('REF', swatch)]),
      ...pictureText({ x: x + 7, y: top }, names[part]),
    ];
  });
}

/** One level from above: x to the right, the first board's inside face at the foot. */
function levelPanel(level: ClosedLevel, { boards: [first], way }: TestCut, fmt: Formatter): Panel {
  const flat = way === 'placed';
  const box = extents([...level.first, ...level.second, ...level.gaps]);
  const place: Place = ({ x, y }) => ({ x: x - box.minX, y: y - box.maxY });
  const rings = (['gap', 'overlap'] as const).flatMap((what) => {
    const { at, width } = level[what];
    return at && width > 0 ? seen(`${what}-ring`, [closed('REF', circle(place(at), RING))]) : [];
  });
  return {
    height: box.maxY - box.minY,
    caption: `From above, ${fmt.length(level.z)} ${depthFrom(flat)}${flat ? '' : ` of board ${first}`}: gap ${fmt.length(level.gap.width)}, overlap ${fmt.length(level.overlap.width)}`,
    items: [...partsOf(level, place), ...rings],
  };
}

/** At the middle of the first board's thickness: x to the right, the first board's end at the top. */
function facePanel({ sections: levels, boards: [first] }: TestCut, fmt: Formatter): Panel {
  const box = levels[0]
    ? extents([...levels[0].first, ...levels[0].second, ...levels[0].gaps])
    : rectangleOfNothing;
  const middle = (box.minY + box.maxY) / 2;
  const depths = levels.map(({ z }) => z);
  const [top, foot] = [Math.min(...depths), Math.max(...depths)];
  return {
    height: foot - top,
    caption: `From the face, at the middle of the thickness of board ${first}, a band for each of ${levels.length} levels, ${fmt.length(foot - top)} deep`,
    items: levels.flatMap((level, i) => {
      const before = levels[i - 1]?.z ?? level.z;
      const after = levels[i + 1]?.z ?? level.z;
      const [from, to] = [(before + level.z) / 2 - top, (after + level.z) / 2 - top];
      return parts.flatMap((part) =>
        filled(
          part,
          runsAt(polygonsOf(level, part), middle).map(([a, b]) =>
            outlineOf(a - box.minX, -to, b - box.minX, -from),
          ),
        ),
      );
    }),
  };
}

const rectangleOfNothing = { minX: 0, minY: 0, maxX: 0, maxY: 0 };

/** The widest gap and the widest overlap, enlarged. */
function details(cut: TestCut, fmt: Formatter): readonly Panel[] {
  return (['gap', 'overlap'] as const).flatMap((what) => {
    const level = cut.sections.reduce<ClosedLevel | undefined>(
      (worst, one) => (one[what].width > (worst?.[what].width ?? 0) ? one : worst),
      undefined,
    );
    const at = level?.[what].at;
    if (!level || !at) return [];
    const half = STRETCH / 2;
    const side = STRETCH * ENLARGED;
    const shown = [rectangle({ minX: at.x - half, maxX: at.x + half, minY: at.y - half, maxY: at.y + half })];
    const place: Place = ({ x, y }) => ({ x: (x - at.x + half) * ENLARGED, y: (y - at.y - half) * ENLARGED });
    return [
      {
        height: side,
        caption: `Widest ${what}, ${ENLARGED}:1, at ${fmt.length(at.x)} from the reference edge and ${fmt.length(level.z)} ${depthFrom(cut.way === 'placed')}: ${fmt.length(level[what].width)}`,
        items: [
          ...partsOf(level, place, (polygons) => intersection(polygons, shown)),
          ...seen('frame', [closed('REF', outlineOf(0, -side, side, 0))]),
        ],
      },
    ];
  });
}

function polygonsOf(level: ClosedLevel, part: Part): Polygons {
  return { first: level.first, second: level.second, gap: level.gaps, overlap: level.overlaps }[part];
}

const partsOf = (
  level: ClosedLevel,
  place: Place,
  clip: (polygons: Polygons) => Polygons = (polygons) => polygons,
): readonly Item[] =>
  parts.flatMap((part) =>
    filled(
      part,
      clip(polygonsOf(level, part)).map((ring) => polygon(ring.map(place))),
    ),
  );

const filled = (style: StyleName, region: Parameters<typeof area>[1]): readonly Item[] =>
  region.length === 0 ? [] : seen(style, [area('REF', region)]);

/** A line of text whose capitals hang from a place. */
const pictureText = ({ x, y }: Point, line: string): readonly Item[] =>
  seen('words', [
    { ...text('REF', line, { x, y: y - PICTURE_LETTERS }, PICTURE_LETTERS), face: 'sans' as const },
  ]);
