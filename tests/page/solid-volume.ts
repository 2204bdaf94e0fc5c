import type { Solid } from '../../src/geometry/solid.js';

/** Volume that a closed surface of triangles bounds, mm³: a sum of tetrahedra upon the origin (divergence theorem). */
export function volumeOf({ vertices, triangles }: Solid): number {
  const at = (index: number) => vertices[index] ?? [Number.NaN, Number.NaN, Number.NaN];
  return triangles.reduce((sum, [a, b, c]) => {
    const [[ax, ay, az], [bx, by, bz], [cx, cy, cz]] = [at(a), at(b), at(c)];
    return sum + (ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx)) / 6;
  }, 0);
}
