import { type Diagnostic, diagnostic } from '../../diagnostics/diagnostic.js';
import type { WantedWaste } from '../../joints/contract.js';
import { area, intersection, type Polygon, type Polygons, widest } from './polygons.js';

/**
 * What the bit could not reach: wood that the joint wants away, where its layout is cut with sharp corners, and
 * that stands after routing. Taken at the bit's tip, where every shape is the one that the layout gives.
 */

/** A span of the layout, at the baseline. */
export interface LaidSpan {
  readonly part: string;
  readonly from: number;
  readonly to: number;
}

/** One board under its template. `stock` and `left` in template coordinates, mm. */
export interface BoardUnderTemplate {
  readonly board: string;
  readonly stock: Polygons;
  /** What is left of it at the height of the bit's tip. */
  readonly left: Polygons;
  readonly cutter: { readonly diameter: number };
}

/** What the layout wants away from one board. */
export interface WantedShape {
  readonly layout: readonly LaidSpan[];
  readonly waste: WantedWaste;
}

/** A strip thinner than this is what chords and decimals leave, mm. */
const THINNEST = 0.01;

/** Wood that should be gone and is not, in pieces that are more than a hair wide. */
export interface Unreached {
  /** mm². */
  readonly area: number;
  /** Diameter of the largest disc in it, mm. */
  readonly width: number;
  /** Of the bit's tip, mm: in a corner that is too tight for it no disc as wide as that stays. */
  readonly radius: number;
}

export function unreachedBy(routed: BoardUnderTemplate, shape: WantedShape): Unreached {
  const wanted = wantedAway(shape);
  const standing = wanted.flatMap((one) => intersection(intersection([one], routed.stock), routed.left));
  const pieces = standing
    .map((piece) => ({ size: area([piece]), width: widest([piece]).width }))
    .filter(({ width }) => width > THINNEST);
  return {
    area: pieces.reduce((sum, { size }) => sum + size, 0),
    width: Math.max(0, ...pieces.map(({ width }) => width)),
    radius: routed.cutter.diameter / 2,
  };
}

/** Where the bit had room and did not go, the templates are not those of this layout. */
export function unreachedDiagnostics(
  unreached: Readonly<Record<string, Unreached>>,
  at: string,
): readonly Diagnostic[] {
  return Object.entries(unreached)
    .filter(([, { width, radius }]) => width > radius)
    .map(([board, { width, area: size }]) =>
      diagnostic('layout-uncut', 'refused', at, { board, width, area: size }),
    );
}

/** What the layout takes from a board in the plane of the bit's tip, sharp-cornered; runs on past the stock where open. */
function wantedAway({ layout, waste: { part, x, y, out } }: WantedShape): Polygons {
  const [near, far] = y;
  return layout
    .filter((one) => one.part === part)
    .map(
      ({ from, to }): Polygon => [
        { x: x + from - out[0], y: near },
        { x: x + to + out[0], y: near },
        { x: x + to + out[1], y: far },
        { x: x + from - out[1], y: far },
      ],
    );
}
