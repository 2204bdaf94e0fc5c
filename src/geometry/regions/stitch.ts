import { distance } from '../point.js';
import { lengthOf, pointAt, reversedSegment } from '../segment.js';
import { LOOSE_ENDS } from '../tolerance.js';
import type { Point, Segment } from '../types.js';
import type { Fragment } from './arrangement.js';

/** Closed chains found among pieces, and the length (mm) of the longest open chain that was left over. */
export interface Stitched {
  readonly loops: readonly (readonly Segment[])[];
  readonly loose: number;
}

/**
 * Joins pieces into closed chains with their inside to the left. Where several chains meet in a node, an
 * arriving piece goes on with the leaving one that bounds the same wedge of the inside: the first one met
 * turning clockwise from where it came, so chains touch but never cross.
 *
 * What leads nowhere is left out, and its length reported: stubs as long as `stub` (mm) may be as they should.
 * Fallback: when longer ones are left, loose ends are tied to loose starts within LOOSE_ENDS.
 */
export function stitch(pieces: readonly Fragment[], nodes: readonly Point[], stub: number): Stitched {
  const plain = closedChains(pieces);
  if (plain.loose <= stub) return plain;
  const tied = closedChains(tieLooseEnds(pieces, nodes));
  return tied.loose < plain.loose ? tied : plain;
}

function closedChains(pieces: readonly Fragment[]): Stitched {
  const { kept, dropped } = withoutDeadEnds(pieces);
  const { loops, open } = loopsOf(kept);
  return { loops, loose: Math.max(open, longestChain(dropped)) };
}

/** Pieces at each node: those that arrive and those that leave. */
function atNodes(pieces: readonly Fragment[]): Map<number, { arriving: Fragment[]; leaving: Fragment[] }> {
  const map = new Map<number, { arriving: Fragment[]; leaving: Fragment[] }>();
  const at = (node: number): { arriving: Fragment[]; leaving: Fragment[] } => {
    const known = map.get(node);
    if (known !== undefined) return known;
    const made = { arriving: [], leaving: [] };
    map.set(node, made);
    return made;
  };
  for (const piece of pieces) {
    at(piece.from).leaving.push(piece);
    at(piece.to).arriving.push(piece);
  }
  return map;
}

function tieLooseEnds(pieces: readonly Fragment[], nodes: readonly Point[]): readonly Fragment[] {
  const ends: number[] = [];
  const starts: number[] = [];
  for (const [node, { arriving, leaving }] of atNodes(pieces)) {
    if (arriving.length > leaving.length) ends.push(node);
    if (leaving.length > arriving.length) starts.push(node);
  }
  if (ends.length === 0 || starts.length === 0) return pieces;
  const renamed = new Map<number, number>();
  for (const end of ends) {
    const here = nodes[end];
    if (here === undefined) continue;
    const gaps = starts
      .filter((start) => !renamed.has(start))
      .map((start) => ({ start, gap: distance(nodes[start] ?? { x: Infinity, y: Infinity }, here) }))
      .filter(({ gap }) => gap <= LOOSE_ENDS);
    const nearest = gaps.reduce<(typeof gaps)[number] | undefined>(
      (best, one) => (best === undefined || one.gap < best.gap ? one : best),
      undefined,
    );
    if (nearest !== undefined) renamed.set(nearest.start, end);
  }
  if (renamed.size === 0) return pieces;
  return pieces.map((piece) => {
    const from = renamed.get(piece.from) ?? piece.from;
    const to = renamed.get(piece.to) ?? piece.to;
    if (from === piece.from && to === piece.to) return piece;
    const segment: Segment = {
      ...piece.segment,
      from: nodes[from] ?? piece.segment.from,
      to: nodes[to] ?? piece.segment.to,
    };
    return { ...piece, segment, from, to };
  });
}

/** Takes away pieces that lead nowhere or come from nowhere, until none is left. */
function withoutDeadEnds(pieces: readonly Fragment[]): {
  kept: readonly Fragment[];
  dropped: readonly Fragment[];
} {
  const map = atNodes(pieces);
  const gone = new Set<Fragment>();
  const queue = [...map.keys()];
  for (let node = queue.pop(); node !== undefined; node = queue.pop()) {
    const here = map.get(node);
    if (here === undefined) continue;
    const arriving = here.arriving.filter((piece) => !gone.has(piece));
    const leaving = here.leaving.filter((piece) => !gone.has(piece));
    if (arriving.length > 0 && leaving.length > 0) continue;
    for (const piece of [...arriving, ...leaving]) {
      gone.add(piece);
      queue.push(piece.from === node ? piece.to : piece.from);
    }
  }
  return gone.size === 0
    ? { kept: pieces, dropped: [] }
    : { kept: pieces.filter((piece) => !gone.has(piece)), dropped: [...gone] };
}

/** Chains that come back to their start, and the length of the longest that does not. */
function loopsOf(pieces: readonly Fragment[]): { loops: readonly (readonly Segment[])[]; open: number } {
  const next = new Map<Fragment, Fragment>();
  for (const { arriving, leaving } of atNodes(pieces).values()) {
    if (arriving.length === 1 && leaving.length === 1 && arriving[0] && leaving[0]) {
      next.set(arriving[0], leaving[0]);
    } else {
      for (const [a, b] of wedges(arriving, leaving)) next.set(a, b);
    }
  }
  const used = new Set<Fragment>();
  const loops: (readonly Segment[])[] = [];
  let open = 0;
  for (const first of pieces) {
    if (used.has(first)) continue;
    const chain: Fragment[] = [];
    let piece: Fragment | undefined = first;
    while (piece !== undefined && !used.has(piece)) {
      used.add(piece);
      chain.push(piece);
      piece = next.get(piece);
    }
    const segments = chain.map((one) => one.segment);
    if (piece === first) loops.push(segments);
    else
      open = Math.max(
        open,
        segments.reduce((sum, one) => sum + lengthOf(one), 0),
      );
  }
  return { loops, open };
}

/** Pairs what arrives at a node with what leaves it, wedge by wedge of the inside. */
function wedges(
  arriving: readonly Fragment[],
  leaving: readonly Fragment[],
): readonly (readonly [Fragment, Fragment])[] {
  const all = [
    ...arriving.map((piece) => ({ piece, away: reversedSegment(piece.segment), leaves: false })),
    ...leaving.map((piece) => ({ piece, away: piece.segment, leaves: true })),
  ];
  // Directions are compared at one small distance from the node, where tangent curves have parted.
  const reach = Math.min(...all.map(({ away }) => lengthOf(away))) / 2;
  const around = all
    .map((one) => ({ ...one, angle: angleAt(one.away, reach) }))
    .sort((a, b) => b.angle - a.angle);
  const taken = new Set<Fragment>();
  const pairs: (readonly [Fragment, Fragment])[] = [];
  around.forEach((one, i) => {
    if (one.leaves) return;
    for (let step = 1; step < around.length; step++) {
      const other = around[(i + step) % around.length];
      if (other?.leaves && !taken.has(other.piece)) {
        taken.add(other.piece);
        pairs.push([one.piece, other.piece]);
        return;
      }
    }
  });
  return pairs;
}

function angleAt(away: Segment, reach: number): number {
  const p = pointAt(away, Math.min(1, reach / lengthOf(away)));
  return Math.atan2(p.y - away.from.y, p.x - away.from.x);
}

function longestChain(dropped: readonly Fragment[]): number {
  const following = new Map(dropped.map((piece) => [piece.from, piece]));
  const reached = new Set(dropped.map((piece) => piece.to));
  const lengths = dropped
    .filter((piece) => !reached.has(piece.from))
    .map((first) => {
      let sum = 0;
      const seen = new Set<Fragment>();
      let piece: Fragment | undefined = first;
      while (piece !== undefined && !seen.has(piece)) {
        seen.add(piece);
        sum += lengthOf(piece.segment);
        piece = following.get(piece.to);
      }
      return sum;
    });
  return Math.max(0, ...lengths, ...dropped.map((piece) => lengthOf(piece.segment)));
}
