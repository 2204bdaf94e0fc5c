import { type Finding, finding } from '../findings/finding.js';
import {
  area,
  extents,
  intersection,
  type Polygon,
  type Polygons,
  rectangle,
  shifted,
  widest,
} from './polygons.js';

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
  readonly thickness: number;
  readonly cutter: { readonly diameter: number };
}

export interface WantedShape {
  readonly kind: string;
  readonly layout: readonly LaidSpan[];
  /** tan θ of the dovetails; 0 where every line is square. */
  readonly slope: number;
  /** Depth of the sockets that hide in the front; elsewhere of no account. */
  readonly depth: number;
  /** Thickness of the board that goes into them. */
  readonly side: number;
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
  const wanted = wantedAway(routed, shape);
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
export function unreachedFindings(
  unreached: Readonly<Record<string, Unreached>>,
  at: string,
): readonly Finding[] {
  return Object.entries(unreached)
    .filter(([, { width, radius }]) => width > radius)
    .map(([board, { width, area: size }]) =>
      finding('layout-uncut', 'refused', at, { board, width, area: size }),
    );
}

/** What the layout takes from a board in the plane of the bit's tip, sharp-cornered; runs on past the stock where open. */
function wantedAway({ board, stock, thickness }: BoardUnderTemplate, shape: WantedShape): Polygons {
  const { kind, layout, slope, depth, side } = shape;
  const spans = (part: string) => layout.filter((one) => one.part === part);
  const through = (part: string) =>
    spans(part).map(({ from, to }) => rectangle({ minX: from, maxX: to, minY: -thickness, maxY: 0 }));
  if (kind === 'box') return through(board === 'one' ? 'slot' : 'finger');
  if (board === 'tails') return shifted(through('pin'), extents(stock).minX, 0);
  if (kind === 'through-dovetail') {
    return spans('tail').map((span) => betweenPins(span, thickness, slope));
  }
  const lean = depth * slope;
  return spans('tail').map(({ from, to }) =>
    rectangle({ minX: from - lean, maxX: to + lean, minY: 0, maxY: side }),
  );
}

/** Pins are narrower on the outside face, toward the operator: what goes between them widens that way. */
function betweenPins({ from, to }: LaidSpan, thickness: number, slope: number): Polygon {
  const lean = thickness * slope;
  return [
    { x: from, y: 0 },
    { x: from - lean, y: -thickness },
    { x: to + lean, y: -thickness },
    { x: to, y: 0 },
  ];
}
