import { bushingOpening } from '../../src/geometry/compensate.js';
import type { Shop } from '../../src/job/types.js';
import type { JointFamily } from '../../src/joints/family.js';
import { throughDovetail } from '../../src/joints/through-dovetail.js';
import { medianTime, row } from './measure.js';

const counts = [5, 20, 100, 400];
const dovetail = {
  name: 'dovetail',
  kind: 'dovetail',
  diameter: 12.7,
  angle: (8 * Math.PI) / 180,
  height: 20.6,
} as const;
const straight = { name: 'straight', kind: 'straight', diameter: 8, angle: 0, height: 32 } as const;
const bushing = { name: 'guide', outside: 11.1125, bore: 9.525, barrel: 4 };
const board = { thickness: 12.7 };

const shop: Shop = {
  bits: { dovetail, straight },
  bushings: { guide: bushing },
  plate: { material: 'plywood', thickness: 12.7, leastFinger: 4 },
  printer: { paper: { name: 'a4' }, margin: 10, scaleX: 1, scaleY: 1 },
  colours: {},
};

/** Layout and compensation together, for ever wider boards with the same pitch. */
export function growth(): void {
  console.log('Layout and compensation of a through dovetail');
  const times = counts.map((tails) =>
    medianTime(Math.max(5, Math.round(1000 / tails)), () => layAndCompensate(tails)),
  );
  for (const [index, tails] of counts.entries()) row(`${tails} tails`, times[index] ?? Number.NaN, 'ms');
  const exponent = slope(
    counts.map(Math.log),
    times.map((time) => Math.log(time)),
  );
  row('growth: time ~ tails to the power', exponent, '', 'aim: at most 1.1');
  console.log();
}

function layAndCompensate(tails: number): void {
  const joint = {
    name: 'bench',
    kind: 'through-dovetail' as const,
    width: 30 * tails,
    layout: { spacing: 'even' as const, tails, pin: 13 },
    boards: { tails: board, pins: board },
    cutters: { tails: dovetail, pins: straight },
    bushing,
    slack: 0.1,
    proud: 0,
    template: {},
  };
  const solved = (throughDovetail as JointFamily).solve(joint, shop);
  if (!solved.ok) throw new Error(`refused: ${JSON.stringify(solved.findings)}`);
  for (const cut of solved.value.cuts) {
    const opening = bushingOpening(cut.waste, cut.cutterRadius, cut.bushing.outside / 2);
    if (opening.length === 0) throw new Error('nothing left to guide the bushing');
  }
}

/** Least-squares slope of y over x. */
function slope(xs: readonly number[], ys: readonly number[]): number {
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  const [middleX, middleY] = [mean(xs), mean(ys)];
  const across = xs.map((x) => x - middleX);
  const up = ys.map((y) => y - middleY);
  const product = across.reduce((sum, dx, index) => sum + dx * (up[index] ?? 0), 0);
  return product / across.reduce((sum, dx) => sum + dx * dx, 0);
}
