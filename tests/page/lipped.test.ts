import { describe, expect, test } from 'vitest';
import { areaOfRegion } from '../../src/geometry/outline.js';
import { lipOf } from '../../src/joints/boards.js';
import { families } from '../../src/joints/list.js';
import { solveJob } from '../../src/outputs/joint.js';
import { testCutJob } from '../../src/outputs/testcut.js';
import { closedEndOf, viewsOf } from '../../src/page/lipped.js';
import { type Slab, solidsOf } from '../../src/page/solids.js';
import { area, extents, runsAt } from '../../src/verify/cut/polygons.js';
import { readText } from '../support/jobs.js';

/** The drawing of a drawer front against the board that the test cut routes, area by area. */

const starter = families.find(({ kind }) => kind === 'half-blind-dovetail')?.starter ?? '';
const fronts = ['together', 'apart'].flatMap((method) => [
  { name: `flush, ${method}`, method, lip: '' },
  {
    name: `lipped, ${method}`,
    method,
    lip: '    lip: { end: 3/8, lower: 1/4, upper: 5/16, rabbet: 1/2 }\n',
  },
  {
    name: `lipped at its end alone, ${method}`,
    method,
    lip: '    lip: { end: 3/8, lower: 0, upper: 0, rabbet: 3/8 }\n',
  },
]);

describe.each(fronts)('a front that is $name', ({ method, lip }) => {
  const made = (async () => {
    const text = starter.replace('together', method).replace('    depth:', `${lip}    depth:`);
    const job = readText(text);
    const outcomes = solveJob(job);
    const [cut] = await testCutJob(job, outcomes);
    const solved = outcomes[0]?.made?.solved;
    if (!solved || !cut?.request) throw new Error('the job cannot be made');
    const [side, front] = solved.markings;
    const board = solidsOf(cut.request)[1];
    if (!side || !front || !board) throw new Error('a side and a front make a corner');
    return {
      solved,
      side,
      front,
      slabs: [...board.cut, ...board.rest],
      slack: outcomes[0]?.joint.slack ?? 0,
    };
  })();

  const sum = (slabs: readonly Slab[], of: (slab: Slab) => number): number =>
    slabs.reduce((all, slab) => all + (slab.to - slab.from) * of(slab), 0);

  test('shows at its end the wood that is there just past the shoulder', async () => {
    const { solved, front, slabs, slack } = await made;
    const { end } = viewsOf(front, 40, lipOf(solved));
    const wood = sum(slabs, ({ polygons }) =>
      runsAt(polygons, 0.05).reduce((all, [from, to]) => all + to - from, 0),
    );
    const drawn = areaOfRegion([end]) - areaOfRegion(front.endGrain.waste);
    // Sockets are drawn without their share of the slack.
    const tails = front.endGrain.waste.length;
    expect(Math.abs(drawn - wood)).toBeLessThan(tails * 9.525 * (slack + 0.02));
    expect(drawn).toBeGreaterThan(1000);
  });

  test('shows on its inside face the wood that is left there, and round it the rabbet', async () => {
    const { solved, front, slabs, slack } = await made;
    const [first, last] = [slabs[0]?.polygons ?? [], slabs.at(-1)?.polygons ?? []];
    const { face, ledge } = viewsOf(front, extents(first).maxY, lipOf(solved));
    const drawn = areaOfRegion([face]) - areaOfRegion(front.insideFace.waste);
    const round = front.insideFace.waste.length * 2 * 20;
    // The uppermost slab is cut half a slab below the face, where sockets are up to 0.05 mm wider.
    expect(Math.abs(drawn - area(first))).toBeLessThan(round * (slack / 2 + 0.05));
    const whole = lipOf(solved) ? area(last) - areaOfRegion([face]) : 0;
    expect(areaOfRegion(ledge)).toBeCloseTo(whole, 3);
  });

  test('shows under the closed joint its shoulder and its lip', async () => {
    const { solved, side, front, slabs } = await made;
    const { wood, lipFrom } = closedEndOf(side, front, lipOf(solved));
    const seen = sum(slabs, ({ polygons }) => extents(polygons).maxX - extents(polygons).minX);
    expect(areaOfRegion([wood])).toBeCloseTo(seen, 3);
    expect(-lipFrom).toBeCloseTo((lipOf(solved)?.rabbet ?? side.depth) - side.depth, 9);
  });
});
