/** One part of a layout along the joint, at the baseline (shoulder line), mm from the reference edge. */
export interface Span {
  readonly part: 'pin' | 'tail' | 'finger' | 'slot';
  readonly from: number;
  readonly to: number;
}

/** Spans from the reference edge to the far edge without gaps; their widths sum to `width`. */
export interface Layout {
  readonly width: number;
  readonly spans: readonly Span[];
}

/** A least or greatest width and the tool or wish that sets it, as the words after a colon in a message. */
export interface Bound {
  readonly width: number;
  /** What is chosen where the maker leaves it open: as wide as leaves the bushing some room; `width` when left out. */
  readonly roomy?: number;
  readonly because: string;
}

/** What the cutters, the bushing and the plate allow a row of pins and tails, at the baseline. */
export interface TailBounds {
  readonly leastPin: Bound;
  /** Least half-pin at an edge. */
  readonly leastEndPin: Bound;
  readonly leastTail: Bound;
  /** Set where the joint can only be cut at one even pitch. */
  readonly evenOnly?: string;
}

/** What the cutter, the bushing and the plate allow a row of fingers and slots. */
export interface FingerBounds {
  readonly leastFinger: Bound;
  readonly leastSlot: Bound;
}

/** A solved layout with what was chosen and why. */
export interface LaidOut {
  readonly layout: Layout;
  /** Board widths near the given one that suit the wanted pitch better, nearest first, mm; empty when this one suits. */
  readonly suitableWidths: readonly number[];
}
