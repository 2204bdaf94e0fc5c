import type { Diagnostic } from '../diagnostics/diagnostic.js';
import type { Edit } from '../diagnostics/fix.js';
import type { Joint, Shop } from '../input/types.js';
import { familyOf } from '../joints/list.js';
import type { Bound, Layout } from '../layout/types.js';
import { type LengthUnit, readLength } from '../units/length.js';
import { writeLength } from '../units/write-length.js';

/** Moving the edges of pins, tails and fingers by hand, within what the tools can cut. Lengths in mm. */

/** The least width of every span of a layout, or why its spans cannot be moved at all. */
export type HandBounds =
  | { readonly ok: true; readonly least: readonly Bound[] }
  | { readonly ok: false; readonly diagnostic?: Diagnostic };

/**
 * The bounds that the joint's own solver holds a list of spans to. It is asked with a list of spans of no width
 * and answers for each with the least that would do; so no bound is worked out twice.
 */
export function handBounds(joint: Joint, shop: Shop, count: number, units: LengthUnit): HandBounds {
  const { leastPin, start } = joint.layout;
  const asked: Joint = {
    ...joint,
    layout: {
      spacing: 'list',
      spans: Array<number>(count).fill(NO_WIDTH),
      ...(leastPin === undefined ? {} : { leastPin }),
      ...(start === undefined ? {} : { start }),
    },
  };
  const answer = familyOf(joint.kind)?.solve(asked, shop);
  const diagnostics = answer?.diagnostics ?? [];
  const least = Array.from({ length: count }, (_, index) => leastAt(diagnostics, index, units));
  if (least.every((one) => one !== undefined)) return { ok: true, least };
  const diagnostic = diagnostics.find(({ level, code }) => level === 'refused' && code !== 'spans-sum');
  return diagnostic ? { ok: false, diagnostic } : { ok: false };
}

const NO_WIDTH = 1e-6;

/** The next length that a job can hold, so that a span resting on its bound is still cut when it is read back. */
function writable(least: number, units: LengthUnit): number {
  const read = readLength(writeLength(least, units, 'up'), units);
  return read.ok ? read.mm : least;
}

function leastAt(diagnostics: readonly Diagnostic[], index: number, units: LengthUnit): Bound | undefined {
  for (const one of diagnostics) {
    if (one.code !== 'span-narrow' || !one.at.endsWith(`.spans.${index}`)) continue;
    return { width: writable(one.data.least, units), because: one.data.because };
  }
  return undefined;
}

/** A pointer that has moved by less, px, rests: a touch is no move. */
const REST = 4;

/** Whether a pointer that was put down has moved along the joint; a swipe across it is the page's, to scroll by. */
export function isDrag(across: number, down: number): boolean {
  return Math.abs(across) >= REST && Math.abs(across) > Math.abs(down);
}

/** true where no width is another: such widths are no edit, and leave a layout that is not a list as it is. */
export function areSame(one: readonly number[], other: readonly number[]): boolean {
  return (
    one.length === other.length && one.every((width, i) => Math.abs(width - (other[i] ?? 0)) < SPAN_ROUNDING)
  );
}

export interface SpanMove {
  /** Edge `edge` stands between span edge − 1 and span edge. */
  readonly edge: number;
  /** How far it goes, away from the reference edge. */
  readonly by: number;
  /** The edge that mirrors it goes the other way. */
  readonly mirrored: boolean;
  /** Widths that the left span comes to rest at: multiples of this. 0 for none. */
  readonly step: number;
  /** Within this of a bound, the edge comes to rest on it. */
  readonly reach: number;
}

export interface Moved {
  readonly widths: readonly number[];
  /** The bound that the edge rests on. */
  readonly stopped?: Bound;
}

/** The widths after an edge was moved: as far as the bounds let it, at rest on a bound or on a step of the rule. */
export function moveEdge(widths: readonly number[], least: readonly Bound[], move: SpanMove): Moved {
  const { edge, by, mirrored, step, reach } = move;
  const last = widths.length - 1;
  const left = edge - 1;
  // Each width changes by so much for every mm that the edge moves.
  const rates = widths.map(() => 0);
  const give = (index: number, rate: number) => {
    rates[index] = (rates[index] ?? 0) + rate;
  };
  give(left, 1);
  give(edge, -1);
  if (mirrored && edge * 2 !== widths.length) {
    give(last - left, 1);
    give(last - edge, -1);
  }
  let [low, high] = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
  let [lowBound, highBound]: (Bound | undefined)[] = [];
  for (const [index, rate] of rates.entries()) {
    const bound = least[index];
    if (rate === 0 || bound === undefined) continue;
    const room = ((widths[index] ?? 0) - bound.width) / -rate;
    if (rate > 0 && room > low) [low, lowBound] = [room, bound];
    if (rate < 0 && room < high) [high, highBound] = [room, bound];
  }
  if (low > high) {
    const stopped = by < 0 ? lowBound : highBound;
    return { widths, ...(stopped ? { stopped } : {}) };
  }
  const [shift, stopped] =
    by <= low + reach
      ? [low, lowBound]
      : by >= high - reach
        ? [high, highBound]
        : [clamp(toRest(widths[left] ?? 0, by, step), low, high), undefined];
  return {
    widths: widths.map((width, index) => width + (rates[index] ?? 0) * shift),
    ...(stopped ? { stopped } : {}),
  };
}

/** A width that isn't on a step is a place of rest, too: taken along and back, an edge is where it was. */
const toRest = (width: number, by: number, step: number): number =>
  Math.abs(by) < step / 2 ? 0 : onStep(width + by, step) - width;

/** Gives one span a width; its neighbours make room, in equal parts where there are two. Undefined where they can't. */
export function resizeSpan(
  widths: readonly number[],
  least: readonly Bound[],
  index: number,
  to: number,
  mirrored: boolean,
):
  | { readonly ok: true; readonly widths: readonly number[] }
  | { readonly ok: false; readonly most: number; readonly least: Bound } {
  const last = widths.length - 1;
  const pair = mirrored && index * 2 !== last ? [index, last - index] : [index];
  const rates = widths.map(() => 0);
  const give = (at: number, rate: number) => {
    rates[at] = (rates[at] ?? 0) + rate;
  };
  for (const one of pair) {
    const sides = [one - 1, one + 1].filter((side) => side >= 0 && side <= last);
    give(one, 1);
    for (const side of sides) give(side, -1 / sides.length);
  }
  const width = widths[index] ?? 0;
  const own = least[index] ?? { width: 0, because: '' };
  const grown = rates.map((rate, at) =>
    rate < 0 ? ((widths[at] ?? 0) - (least[at]?.width ?? 0)) / -rate : Number.POSITIVE_INFINITY,
  );
  const most = width + Math.min(...grown);
  if (to < own.width - SPAN_ROUNDING || to > most + SPAN_ROUNDING) return { ok: false, most, least: own };
  return { ok: true, widths: widths.map((one, at) => one + (rates[at] ?? 0) * (to - width)) };
}

const SPAN_ROUNDING = 1e-6;

export function spanWidths(layout: Layout): readonly number[] {
  return layout.spans.map(({ from, to }) => to - from);
}

/** The job's layout as a list of just these widths; what only other spacings know is taken out. */
export function listEdits(
  joint: Joint,
  widths: readonly number[],
  units: LengthUnit,
  has: (path: readonly string[]) => boolean,
): readonly Edit[] {
  const at = (key: string) => ['joints', joint.name, 'layout', key];
  const others = ['tails', 'fingers', 'finger', 'pitch', 'pin', 'end-pin', 'ratio', 'seed', 'spread'];
  return [
    { set: at('spacing'), to: 'list' },
    ...others.filter((key) => has(at(key))).map((key) => ({ remove: at(key) })),
    { set: at('spans'), to: `[${widths.map((one) => writeLength(one, units)).join(', ')}]` },
  ];
}

function onStep(width: number, step: number): number {
  return step > 0 ? Math.round(width / step) * step : width;
}

function clamp(value: number, low: number, high: number): number {
  return Math.min(Math.max(value, low), high);
}
