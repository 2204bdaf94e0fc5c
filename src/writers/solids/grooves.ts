import type { Drawing } from '../../drawing/model.js';
import { flatten } from '../../geometry/flatten.js';
import { offsetRegion } from '../../geometry/offset.js';
import { polygon } from '../../geometry/outline.js';
import { minus, plus, times, turnedLeft, unit } from '../../geometry/point.js';
import { intersection, unionOfAll } from '../../geometry/regions/boolean.js';
import type { Path, Point, Region } from '../../geometry/types.js';

/** Scored lines as grooves, for what is printed and never sees a laser. */

export interface GrooveSize {
  readonly width: number;
  readonly depth: number;
}

/** No groove comes nearer to an edge of the part than this, mm: a wall that a nozzle can print stays between. */
const EDGE_WALL = 0.8;

/** No chord leaves its arc by more, mm. */
const CHORD = 0.02;

/** The grooves of a drawing's scores in a part, clear of its edges. */
export function groovesIn({ items }: Drawing, part: Region, { width }: GrooveSize): Region {
  const strips = items.flatMap((item): readonly Region[] =>
    item.kind === 'open' && item.layer === 'SCORE' ? stripsAlong(item.path, width) : [],
  );
  return strips.length === 0 ? [] : intersection(unionOfAll(strips), offsetRegion(part, -EDGE_WALL));
}

/** One strip for each straight piece, half its width longer at both ends, so that neighbours overlap. */
function stripsAlong(path: Path, width: number): readonly Region[] {
  const points = flatten(path, CHORD);
  return points.slice(1).map((to, i) => [strip(points[i] ?? to, to, width / 2)]);
}

function strip(from: Point, to: Point, half: number) {
  const along = times(unit(minus(to, from)), half);
  const aside = turnedLeft(along);
  const [start, end] = [minus(from, along), plus(to, along)];
  return polygon([minus(start, aside), minus(end, aside), plus(end, aside), plus(start, aside)]);
}
