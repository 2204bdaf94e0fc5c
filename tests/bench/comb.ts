import type { Point } from '../../src/geometry/types.js';

/** What a 5/8 in bushing round a 1/2 in bit adds, mm. */
export const COMB_OFFSET = 1.5875;

/** Counter-clockwise: fingers 12 mm wide and apart, 30 mm long, on a back 25 mm deep. */
export function comb(fingers: number): readonly Point[] {
  const points: Point[] = [{ x: 0, y: 25 }];
  for (let index = 0; index < fingers; index += 1) {
    const x = 24 * index;
    if (index > 0) points.push({ x, y: 0 });
    points.push({ x, y: -30 }, { x: x + 12, y: -30 });
    if (index < fingers - 1) points.push({ x: x + 12, y: 0 });
  }
  points.push({ x: 24 * (fingers - 1) + 12, y: 25 });
  return points;
}
