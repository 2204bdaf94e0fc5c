import { linesOf } from '../../drawing/drawing.js';
import type { Item, Layer } from '../../drawing/model.js';
import { distance } from '../../geometry/point.js';
import type { Outline, Path, Point } from '../../geometry/types.js';

/** Every line of some layers, lettering as its strokes, each after the one that ends nearest to its start. */
export function markLines(items: readonly Item[], layers: readonly Layer[]): readonly (Outline | Path)[] {
  return layers.flatMap((layer) =>
    shortTravel(
      items
        .filter((item) => item.layer === layer)
        .flatMap(linesOf)
        .filter((one) => one.segments.length > 0),
    ),
  );
}

export const startOf = ({ segments }: Outline | Path): Point => segments[0]?.from ?? { x: 0, y: 0 };

const endOf = ({ segments }: Outline | Path): Point => segments.at(-1)?.to ?? { x: 0, y: 0 };

/** From the lower left, always on to the nearest start. */
function shortTravel(lines: readonly (Outline | Path)[]): readonly (Outline | Path)[] {
  const left = [...lines];
  const taken: (Outline | Path)[] = [];
  let at = {
    x: Math.min(...lines.map((one) => startOf(one).x)),
    y: Math.min(...lines.map((one) => startOf(one).y)),
  };
  while (left.length > 0) {
    const here = at;
    const away = left.map((one) => distance(startOf(one), here));
    const [next] = left.splice(away.indexOf(Math.min(...away)), 1);
    if (!next) break;
    taken.push(next);
    at = endOf(next);
  }
  return taken;
}
