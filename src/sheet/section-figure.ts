import { arrow } from '../drawing/dimension.js';
import { seen } from '../drawing/drawing.js';
import type { Item } from '../drawing/model.js';
import type { StyleName } from '../drawing/styles.js';
import { extents, polygon, rectangle } from '../geometry/outline.js';
import { scale as scaled } from '../geometry/transform.js';
import type { Outline, Point } from '../geometry/types.js';
import type { Bit, Bushing, Shop } from '../input/types.js';
import { bitExtension, radiusAt } from '../joints/tools.js';
import type { PlateSide } from '../template/plate.js';
import type { Bench } from './bench.js';
import { isOnEnd } from './bench.js';
import { type Callout, calloutColumn } from './callouts.js';
import type { Figure } from './document.js';
import { hatch } from './hatch.js';
import { boxOf, outlined, ruled } from './items.js';

/** Thickness of the router's base as drawn, and how much of a board on end is drawn below the cut, mm. */
const BASE = 8;
const HALF_BASE = 24;
const SHOWN = 14;

/** How much of fence and plate is drawn behind the backing, or behind the openings, mm. */
const BEHIND = 10;

/** Thickness of a board under the work, cut into with it, as drawn, mm. */
const UNDER = 9;

/** A bushing whose barrel or bore the shop does not give is drawn with these: common practice, no source, mm. */
const DEFAULT_BARREL = 25.4 / 4;
const DEFAULT_WALL = (25.4 * 3) / 64;

export interface SectionFacts {
  readonly shop: Shop;
  /** Thickness of each board by its key, mm. */
  readonly thickness: (board: string) => number;
  /** What each board is called. */
  readonly words: (board: string) => string;
  readonly say: (mm: number) => string;
}

/**
 * Section through bit, bushing, plate and work, across the joint: x away from the operator, y up, the
 * underside of the plate at y = 0, mm before scaling.
 */
export function sectionFigure(
  plate: PlateSide,
  bench: Bench,
  { shop, thickness, words, say: sayLong }: SectionFacts,
): Omit<Figure, 'share' | 'room'> {
  const { cut, box, spineFrom } = plate;
  // Beside a narrow figure the second unit stands on a line of its own.
  const say = (mm: number) => sayLong(mm).replace(' (', '\n(');
  const { bit, bushing, depth } = cut;
  const sheet = shop.plate.thickness;
  const extension = bitExtension(shop, depth);
  const work = cut.stock.map(({ board, outline }, i) => {
    const { minY, maxY } = extents(outline);
    const tall = isOnEnd(cut, i) || maxY < 1e-6 ? depth + SHOWN : thickness(board);
    return {
      board,
      flat: maxY > 1e-6,
      thickness: thickness(board),
      outline: rectangle(minY, -tall, maxY, 0),
    };
  });
  const first = extents(cut.stock[0]?.outline ?? rectangle(0, 0, 1, 1));
  const bitAt =
    first.maxY > 1e-6
      ? Math.min(spineFrom - bushing.outside / 2, first.minY + (spineFrom - first.minY) / 2)
      : (first.minY + first.maxY) / 2;
  const shownTo = Math.min(box.maxY, Math.max(bench.backing?.to ?? 0, spineFrom) + BEHIND);
  const flat = work.find((one) => one.flat);
  const through = flat !== undefined && depth >= flat.thickness;
  const lap = flat && !through ? flat.thickness - depth : undefined;
  const lowestWood = Math.min(...work.map(({ outline }) => extents(outline).minY));
  const floor = lowestWood - (through ? UNDER : 0);
  return {
    title: `Section through bit, bushing, plate: ${words(cut.board)}`,
    words: `The bit stands ${sayLong(extension)} below the router's base and cuts ${sayLong(depth)} deep.`,
    scaled: true,
    draw: (scale) => {
      const put = (style: StyleName, outline: Outline): Item => outlined(style, scaled(outline, scale));
      const at = (x: number, y: number): Point => ({ x: x * scale, y: y * scale });
      const cutThrough = (style: StyleName, outline: Outline, step: number, back = false) => [
        put(style, outline),
        ...hatch(scaled(outline, scale), style, step, back),
      ];
      const lowest = -depth;
      const bands = bench.backing ? [bench.backing, { from: bench.backing.to, to: shownTo }] : [];
      const boardItems = work.flatMap(({ outline, flat: lies }, i) => [
        put('board', outline),
        ...hatch(scaled(outline, scale), 'board', 3, i % 2 === 1 || lies),
      ]);
      const under = through ? extents(flat.outline) : undefined;
      const items: readonly Item[] = [
        ...boardItems,
        ...(under ? [put('guide', rectangle(under.minX - 8, floor, under.maxX, lowestWood))] : []),
        ...bands.map(({ from, to }) => put('guide', rectangle(from, floor, to, 0))),
        ...cutThrough('outline', rectangle(spineFrom, 0, shownTo, sheet), 1.8),
        ruled('outline', at(box.minY, 0), at(spineFrom, 0), true),
        ruled('outline', at(box.minY, sheet), at(spineFrom, sheet), true),
        ...bushingOutlines(bushing, bitAt, sheet).map((one) => put('tool', one)),
        put('tool', rectangle(bitAt - HALF_BASE, sheet, bitAt + HALF_BASE, sheet + BASE)),
        put('hatch', bitOutline(bit, bitAt, lowest, sheet + BASE + 6)),
      ];
      const drawn = boxOf(items);
      const rule = drawn.minX - 3;
      const low = at(0, lowest).y;
      const measured: readonly Item[] = [
        ruled('guide', { x: rule - 1.5, y: sheet * scale }, at(bitAt - HALF_BASE, sheet)),
        ruled('guide', { x: rule - 1.5, y: low }, at(bitAt - bit.diameter / 2, lowest)),
        ...seen(
          'guide',
          arrow({ x: rule, y: (low + sheet * scale) / 2 }, { x: rule, y: sheet * scale }, { head: 2 }),
        ),
        ...seen('guide', arrow({ x: rule, y: (low + sheet * scale) / 2 }, { x: rule, y: low }, { head: 2 })),
      ];
      const left: readonly Callout[] = [
        { at: { x: rule, y: (low + sheet * scale) / 2 }, text: `bit extension\n${say(extension)}` },
        { at: at(bitAt - HALF_BASE + 4, sheet + BASE / 2), text: "router's base" },
      ];
      const last = work.at(-1);
      const right: readonly Callout[] = [
        { at: at(shownTo - 2, sheet / 2), text: `plate ${say(sheet)}` },
        { at: at(bitAt + bit.diameter / 4, lowest / 2), text: `cut depth ${say(depth)}` },
        ...(lap !== undefined && flat
          ? [{ at: at(extents(flat.outline).maxX - 3, -depth - lap / 2), text: `lap ${say(lap)}` }]
          : []),
        ...(under ? [{ at: at(under.maxX - 3, floor + UNDER / 3), text: 'board to cut into' }] : []),
        ...(bench.backing
          ? [{ at: at((bench.backing.from + bench.backing.to) / 2, floor + 4), text: 'backing, then fence' }]
          : []),
        ...(last && !last.flat
          ? [{ at: at(extents(last.outline).minX + 2, floor + 2), text: words(last.board) }]
          : []),
      ];
      const all = boxOf([...items, ...measured]);
      return [
        ...items,
        ...measured,
        ...calloutColumn(left, all, 'left', 25),
        ...calloutColumn(right, all, 'right', 32),
      ];
    },
  };
}

/** The bit from its tip at `low` to its shank: a dovetail bit is widest at the tip. */
function bitOutline(bit: Bit, x: number, low: number, high: number): Outline {
  const top = Math.min(low + bit.height, high);
  const [tip, neck] = [bit.diameter / 2, Math.max(radiusAt(bit, top - low), 1)];
  const shank = bit.shank === undefined ? neck : bit.shank / 2;
  return polygon([
    { x: x - tip, y: low },
    { x: x + tip, y: low },
    { x: x + neck, y: top },
    { x: x + shank, y: top },
    { x: x + shank, y: high },
    { x: x - shank, y: high },
    { x: x - shank, y: top },
    { x: x - neck, y: top },
  ]);
}

/** The two walls of the barrel, hanging from the router's base into the plate. */
function bushingOutlines({ outside, bore, barrel }: Bushing, x: number, sheet: number): readonly Outline[] {
  const outer = outside / 2;
  const inner = bore === undefined ? outer - DEFAULT_WALL : bore / 2;
  const low = Math.max(sheet - (barrel ?? DEFAULT_BARREL), 0);
  return [rectangle(x - outer, low, x - inner, sheet), rectangle(x + inner, low, x + outer, sheet)];
}
