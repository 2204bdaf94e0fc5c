import { sweepOf } from '../geometry/segment.js';
import type { Outline, Path, Region, Segment } from '../geometry/types.js';
import type { Polygons } from '../testcut/polygons.js';

/** Lines and arcs as SVG path data for the screen: mm, y turned over. Files are written by the writers, not here. */

export function pathOf(...lines: readonly (Outline | Path)[]): string {
  return lines.map(onePath).join('');
}

export const pathOfRegion = (region: Region): string => pathOf(...region);

export function pathOfPolygons(polygons: Polygons): string {
  return polygons.map((ring) => `M${ring.map(({ x, y }) => `${short(x)} ${short(-y)}`).join('L')}Z`).join('');
}

function onePath(line: Outline | Path): string {
  const [first] = line.segments;
  if (!first) return '';
  return `M${short(first.from.x)} ${short(-first.from.y)}${line.segments.map(command).join('')}${line.closed ? 'Z' : ''}`;
}

function command(segment: Segment): string {
  const to = `${short(segment.to.x)} ${short(-segment.to.y)}`;
  if (segment.kind === 'line') return `L${to}`;
  const large = Math.abs(sweepOf(segment)) > Math.PI ? 1 : 0;
  return `A${short(segment.radius)} ${short(segment.radius)} 0 ${large} ${segment.ccw ? 0 : 1} ${to}`;
}

/** A tenth of a µm: far finer than any screen shows at any zoom here. */
function short(value: number): number {
  return Math.round(value * 1e4) / 1e4;
}
