import manifold from 'manifold-3d';
import { offsetRegion } from '../../src/geometry/offset.js';
import { areaOfRegion, polygon } from '../../src/geometry/outline.js';
import type { Point } from '../../src/geometry/types.js';
import { COMB_OFFSET, comb } from './comb.js';
import { medianTime, row } from './measure.js';

/** How far a chord may lie inside its arc where arcs are flattened, mm. */
const CHORD_ERROR = 1e-4;

const SIZES = [5, 20, 100];

/** Our offset with true arcs, and that of Clipper2 in WebAssembly (as manifold-3d carries it) with arcs in chords. */
export async function againstClipper(): Promise<void> {
  console.log('Offset of a square comb, ours against Clipper2 in WebAssembly, its arcs within 1e-4 mm');
  const library = await manifold();
  library.setup();
  const { CrossSection } = library; // complete only after setup
  const segments = Math.ceil(Math.PI / Math.acos(1 - CHORD_ERROR / COMB_OFFSET));
  for (const fingers of SIZES) {
    const points = comb(fingers);
    const corners = points.map(({ x, y }): [number, number] => [x, y]);
    const theirs = () => {
      const section = new CrossSection([corners]);
      const wider = section.offset(COMB_OFFSET, 'Round', 2, segments);
      const polygons = wider.toPolygons();
      section.delete();
      wider.delete();
      return polygons;
    };
    const [ours, other] = [
      medianTime(50, () => void offsetRegion([polygon(points)], COMB_OFFSET)),
      medianTime(50, () => void theirs()),
    ];
    row(`${fingers} fingers, ours`, ours, 'ms', `area ${ourArea(points).toFixed(4)} mm2`);
    row(`${fingers} fingers, Clipper2`, other, 'ms', `${theirs().flat().length} points`);
    row('times faster', other / ours, '', 'aim: at least 2');
  }
  console.log();
}

function ourArea(points: readonly Point[]): number {
  return areaOfRegion(offsetRegion([polygon(points)], COMB_OFFSET));
}
