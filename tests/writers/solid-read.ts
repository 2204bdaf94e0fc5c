import { unzipSync } from 'fflate';
import Module, { type Manifold } from 'manifold-3d';

/** Readers of STL and 3MF that share nothing with the writers, and what must be true of any closed surface. */

export interface Surface {
  /** Each corner of each triangle, as the file has it. */
  readonly triangles: readonly (readonly [Spot, Spot, Spot])[];
}

type Spot = readonly [number, number, number];

/** Binary STL: 80 bytes, a count, then 50 bytes a triangle: normal, three corners, two spare bytes. */
export function readStl(
  bytes: Uint8Array,
): Surface & { readonly head: string; readonly normals: readonly Spot[] } {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const count = view.getUint32(80, true);
  if (bytes.length !== 84 + 50 * count) throw new Error(`${bytes.length} bytes for ${count} triangles`);
  const spot = (at: number): Spot => [
    view.getFloat32(at, true),
    view.getFloat32(at + 4, true),
    view.getFloat32(at + 8, true),
  ];
  const starts = Array.from({ length: count }, (_, i) => 84 + 50 * i);
  return {
    head: String.fromCharCode(...bytes.slice(0, 80)),
    normals: starts.map(spot),
    triangles: starts.map((at) => [spot(at + 12), spot(at + 24), spot(at + 36)]),
  };
}

export function read3mf(
  bytes: Uint8Array,
): Surface & { readonly model: string; readonly parts: readonly string[] } {
  const parts = unzipSync(bytes);
  const relations = new TextDecoder().decode(parts['_rels/.rels']);
  const target = /Target="\/([^"]+)"/.exec(relations)?.[1] ?? '';
  const model = new TextDecoder().decode(parts[target]);
  const numbers = (tag: string, names: readonly string[]): readonly (readonly number[])[] =>
    [...model.matchAll(new RegExp(`<${tag} ([^/]*)/>`, 'g'))].map(([, attributes = '']) =>
      names.map((name) => Number(new RegExp(`\\b${name}="([^"]*)"`).exec(attributes)?.[1])),
    );
  const vertices = numbers('vertex', ['x', 'y', 'z']) as readonly Spot[];
  return {
    model,
    parts: Object.keys(parts),
    triangles: numbers('triangle', ['v1', 'v2', 'v3']).map((corners) => {
      const [a, b, c] = corners.map((index) => vertices[index]);
      if (!a || !b || !c) throw new Error(`no vertex for ${corners.join(' ')}`);
      return [a, b, c];
    }),
  };
}

/** Edges that are not run once in each direction: none in a closed surface whose triangles agree on the outside. */
export function unmatchedEdges({ triangles }: Surface): readonly string[] {
  const runs = new Map<string, number>();
  for (const corners of triangles) {
    corners.forEach((from, i) => {
      const key = `${from.join()} ${(corners[(i + 1) % 3] ?? from).join()}`;
      runs.set(key, (runs.get(key) ?? 0) + 1);
    });
  }
  return [...runs].flatMap(([key, count]) => {
    const [from, to] = key.split(' ');
    return count === 1 && runs.get(`${to} ${from}`) === 1 ? [] : [key];
  });
}

/** By the divergence theorem: a sixth of the sum of a · (b × c). */
export const volumeOf = ({ triangles }: Surface): number =>
  triangles.reduce(
    (sum, [a, b, c]) =>
      sum +
      a[0] * (b[1] * c[2] - b[2] * c[1]) +
      a[1] * (b[2] * c[0] - b[0] * c[2]) +
      a[2] * (b[0] * c[1] - b[1] * c[0]),
    0,
  ) / 6;

const manifold = Module().then((module) => {
  module.setup();
  return module;
});

/** What the manifold library makes of the surface: it refuses one that is not closed. */
export async function judgedByManifold({ triangles }: Surface): Promise<{
  readonly status: string;
  readonly volume: number;
  readonly genus: number;
  readonly parts: number;
}> {
  const { Manifold, Mesh } = await manifold;
  const index = new Map<string, number>();
  const places: number[] = [];
  const corners = triangles.flat().map((spot) => {
    const key = spot.join();
    const known = index.get(key);
    if (known !== undefined) return known;
    index.set(key, index.size);
    places.push(...spot);
    return index.size - 1;
  });
  const mesh = new Mesh({
    numProp: 3,
    vertProperties: new Float32Array(places),
    triVerts: new Uint32Array(corners),
  });
  const solid: Manifold = new Manifold(mesh);
  const parts = solid.decompose();
  const found = {
    status: String(solid.status()),
    volume: solid.volume(),
    genus: solid.genus(),
    parts: parts.length,
  };
  for (const one of [solid, ...parts]) one.delete();
  return found;
}
