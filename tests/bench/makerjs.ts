import makerjs from 'makerjs';
import { offsetRegion } from '../../src/geometry/offset.js';
import { areaOfRegion, polygon } from '../../src/geometry/outline.js';
import type { Point } from '../../src/geometry/types.js';
import { medianTime, row } from './measure.js';

const distance = 1.5875; // what a 5/8 in bushing round a 1/2 in bit adds
const combs = [5, 20];

/** Our offset and makerjs' expanded outline of the same square comb, outward, true arcs at the corners. */
export function againstMakerjs(): void {
  console.log("Offset of a square comb, ours against makerjs' outline");
  for (const fingers of combs) {
    const points = comb(fingers);
    const ours = medianTime(50, () => void offsetRegion([polygon(points)], distance));
    const theirs = medianTime(7, () => void outlineOf(points), 3);
    row(
      `${fingers} fingers, ours`,
      ours,
      'ms',
      `${arcsOfOurs(points)} arcs, area ${ourArea(points).toFixed(6)} mm2`,
    );
    row(`${fingers} fingers, makerjs`, theirs, 'ms', `${arcsOfTheirs(points)} arcs`);
    row('times faster', theirs / ours, '', 'aim: at least 100');
  }
}

/** Counter-clockwise: fingers 12 mm wide and apart, 30 mm long, on a back 25 mm deep. */
function comb(fingers: number): readonly Point[] {
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

function outlineOf(points: readonly Point[]): MakerJs.IModel {
  const corners = points.map(({ x, y }): MakerJs.IPoint => [x, y]);
  const model = new makerjs.models.ConnectTheDots(true, corners);
  return makerjs.model.outline(model, distance);
}

function arcsOfOurs(points: readonly Point[]): number {
  return offsetRegion([polygon(points)], distance)
    .flatMap(({ segments }) => segments)
    .filter(({ kind }) => kind === 'arc').length;
}

function ourArea(points: readonly Point[]): number {
  return areaOfRegion(offsetRegion([polygon(points)], distance));
}

function arcsOfTheirs(points: readonly Point[]): number {
  let arcs = 0;
  makerjs.model.walk(outlineOf(points), {
    onPath: ({ pathContext }) => {
      if (pathContext.type === 'arc') arcs += 1;
    },
  });
  return arcs;
}
