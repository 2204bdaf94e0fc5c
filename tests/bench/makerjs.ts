import makerjs from 'makerjs';
import { offsetRegion } from '../../src/geometry/offset.js';
import { areaOfRegion, polygon } from '../../src/geometry/outline.js';
import type { Point } from '../../src/geometry/types.js';
import { COMB_OFFSET, comb } from './comb.js';
import { medianTime, row } from './measure.js';

const combs = [5, 20];

/** Our offset and makerjs' expanded outline of the same square comb, outward, true arcs at the corners. */
export function againstMakerjs(): void {
  console.log("Offset of a square comb, ours against makerjs' outline");
  for (const fingers of combs) {
    const points = comb(fingers);
    const ours = medianTime(50, () => void offsetRegion([polygon(points)], COMB_OFFSET));
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

function outlineOf(points: readonly Point[]): MakerJs.IModel {
  const corners = points.map(({ x, y }): MakerJs.IPoint => [x, y]);
  const model = new makerjs.models.ConnectTheDots(true, corners);
  return makerjs.model.outline(model, COMB_OFFSET);
}

function arcsOfOurs(points: readonly Point[]): number {
  return offsetRegion([polygon(points)], COMB_OFFSET)
    .flatMap(({ segments }) => segments)
    .filter(({ kind }) => kind === 'arc').length;
}

function ourArea(points: readonly Point[]): number {
  return areaOfRegion(offsetRegion([polygon(points)], COMB_OFFSET));
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
