import type { Solid, Vertex } from '../../geometry/solid.js';
import type { Keeper, SolidBody } from './kernel.js';

/** Details this small are left out of a surface, mm: facets of the round of a bushing that no one can see. */
const PLAIN = 1e-3;

/** Vertices stand on a grid of 1e-4 mm, so that formats with few digits still hold each vertex once. */
const GRID = 1e4;

/** A body's surface as plain data. */
export function surfaceOf({ keep }: Keeper, body: SolidBody): Solid {
  const { vertProperties, triVerts, numProp } = keep(body.simplify(PLAIN)).getMesh();
  const spots = Array.from({ length: vertProperties.length / numProp }, (_, i): Vertex => {
    const [x = 0, y = 0, z = 0] = vertProperties.subarray(i * numProp, i * numProp + 3);
    return [gridded(x), gridded(y), gridded(z)];
  });
  const corners = Array.from({ length: triVerts.length / 3 }, (_, i) => {
    const [a = 0, b = 0, c = 0] = triVerts.subarray(3 * i, 3 * i + 3);
    return [a, b, c] as const;
  });
  return welded(spots, corners);
}

/** Without −0, which is another text than 0. */
const gridded = (value: number): number => Math.round(value * GRID) / GRID + 0;

/**
 * Vertices of one place, and the ends of edges too short to matter, made one; triangles that have no area left go,
 * and so do two that lie back to back.
 */
function welded(spots: readonly Vertex[], corners: Solid['triangles']): Solid {
  const stands = withoutShortEdges(spots, corners);
  const places = new Map<string, number>();
  const vertices: Vertex[] = [];
  const at = stands.map((spot) => {
    const key = spot.join();
    const known = places.get(key);
    if (known !== undefined) return known;
    places.set(key, vertices.length);
    return vertices.push(spot) - 1;
  });
  const kept = corners
    .map(([a, b, c]) => [at[a] ?? 0, at[b] ?? 0, at[c] ?? 0] as const)
    .filter(([a, b, c]) => a !== b && b !== c && c !== a);
  const faces = new Map<string, number>();
  const sides = kept.map((face) => [...face].sort((one, two) => one - two).join());
  for (const side of sides) faces.set(side, (faces.get(side) ?? 0) + 1);
  return { vertices, triangles: kept.filter((_, i) => faces.get(sides[i] ?? '') === 1) };
}

/** Where each vertex stands once both ends of every short edge stand in one place. */
function withoutShortEdges(spots: readonly Vertex[], corners: Solid['triangles']): readonly Vertex[] {
  const moved = spots.map((_, i) => i);
  const rootOf = (i: number): number => {
    const next = moved[i] ?? i;
    return next === i ? i : rootOf(next);
  };
  for (const [a, b, c] of corners) {
    for (const [from, to] of [
      [a, b],
      [b, c],
      [c, a],
    ] as const) {
      if (isShort(spots[from], spots[to])) moved[rootOf(to)] = rootOf(from);
    }
  }
  return spots.map((spot, i) => spots[rootOf(i)] ?? spot);
}

const isShort = (one: Vertex | undefined, two: Vertex | undefined): boolean =>
  one !== undefined &&
  two !== undefined &&
  Math.hypot(one[0] - two[0], one[1] - two[1], one[2] - two[2]) < PLAIN;
