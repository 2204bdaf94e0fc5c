import type { Writer } from '../../drawing/model.js';
import type { Solid, Vertex } from '../../geometry/solid.js';

/** One solid, mm, and the title of its file. */
export interface TitledSolid {
  readonly title: string;
  readonly solid: Solid;
}

/** Binary STL. The format knows no units: its numbers are mm, and the 80 bytes of its head say so. */
export const stlWriter = { format: 'stl', extension: 'stl', write: stlOf } satisfies Writer<
  void,
  TitledSolid
>;

const HEAD = 80;
const PER_TRIANGLE = 50;
const ORIGIN: Vertex = [0, 0, 0];

function stlOf({ title, solid: { vertices, triangles } }: TitledSolid): Uint8Array {
  const bytes = new Uint8Array(HEAD + 4 + PER_TRIANGLE * triangles.length);
  const view = new DataView(bytes.buffer);
  bytes.set(headOf(title));
  view.setUint32(HEAD, triangles.length, true);
  for (const [i, corners] of triangles.entries()) {
    const [a = ORIGIN, b = ORIGIN, c = ORIGIN] = corners.map((index) => vertices[index] ?? ORIGIN);
    for (const [k, value] of [...normalOf(a, b, c), ...a, ...b, ...c].entries()) {
      view.setFloat32(HEAD + 4 + PER_TRIANGLE * i + 4 * k, value, true);
    }
  }
  return bytes;
}

/** Readers take a file that begins with `solid` for the textual kind: this one begins with the unit. */
function headOf(title: string): readonly number[] {
  const plain = title
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .replace(/[^ -~]/g, '?');
  return [...`Unit: mm. ${plain}`.slice(0, HEAD).padEnd(HEAD)].map((letter) => letter.charCodeAt(0));
}

function normalOf(a: Vertex, b: Vertex, c: Vertex): Vertex {
  const [ux, uy, uz] = [b[0] - a[0], b[1] - a[1], b[2] - a[2]];
  const [vx, vy, vz] = [c[0] - a[0], c[1] - a[1], c[2] - a[2]];
  const [x, y, z] = [uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx];
  const size = Math.hypot(x, y, z);
  return [x / size + 0, y / size + 0, z / size + 0];
}
