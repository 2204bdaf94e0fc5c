import fc from 'fast-check';
import { bump, bumpyLine } from './edge-lines.js';
import { edgeHeight, JOINT, length, oneOf, round, slack } from './random-jobs.js';

/**
 * Random joint lines, as a person might draw them, that bend no more than the tools can follow: sums of sines,
 * written as Bézier curves with matching tangents, and bumps of lines, circles and Béziers, once or repeated.
 */

export interface Wave {
  readonly amplitude: number;
  /** mm. */
  readonly period: number;
  readonly phase: number;
}

/** Height and slope of a sum of sines at x. */
export function heightOf(waves: readonly Wave[], x: number): readonly [number, number] {
  const angle = ({ period, phase }: Wave): number => (2 * Math.PI * x) / period + phase;
  const y = waves.reduce((sum, one) => sum + one.amplitude * Math.sin(angle(one)), 0);
  const slope = waves.reduce(
    (sum, one) => sum + ((2 * Math.PI * one.amplitude) / one.period) * Math.cos(angle(one)),
    0,
  );
  return [y, slope];
}

/** Sharpest curvature of a sum of sines from 0 to `width`, 1/mm, by looking. */
export function sharpest(waves: readonly Wave[], width: number): number {
  let most = 0;
  for (let i = 0; i <= 600; i++) {
    const x = (width * i) / 600;
    const [, slope] = heightOf(waves, x);
    const bend = waves.reduce((sum, { amplitude, period, phase }) => {
      const pace = (2 * Math.PI) / period;
      return sum - amplitude * pace * pace * Math.sin(pace * x + phase);
    }, 0);
    most = Math.max(most, Math.abs(bend) / (1 + slope * slope) ** 1.5);
  }
  return most;
}

/** Path data of a sum of sines from x = 0 to `width`, y down as in SVG: cubic Béziers with a third of each step as handles. */
export function pathOf(waves: readonly Wave[], width: number): string {
  const shortest = Math.min(...waves.map(({ period }) => period));
  const count = Math.ceil((10 * width) / shortest);
  const step = width / count;
  const text = (x: number, y: number): string => `${x.toFixed(4)} ${(-y).toFixed(4)}`;
  const pieces = Array.from({ length: count }, (_, i) => {
    const [x0, x1] = [i * step, (i + 1) * step];
    const [y0, slope0] = heightOf(waves, x0);
    const [y1, slope1] = heightOf(waves, x1);
    const third = step / 3;
    return `C ${text(x0 + third, y0 + slope0 * third)} ${text(x1 - third, y1 - slope1 * third)} ${text(x1, y1)}`;
  });
  return `M ${text(0, heightOf(waves, 0)[0])} ${pieces.join(' ')}`;
}

/** The same waves, flatter or steeper, so that they bend to `radius` at the sharpest. */
export function bentTo(waves: readonly Wave[], width: number, radius: number): readonly Wave[] {
  const scaled = (factor: number): readonly Wave[] =>
    waves.map((one) => ({ ...one, amplitude: one.amplitude * factor }));
  let [low, high] = [0, 100];
  for (let i = 0; i < 24; i++) {
    const middle = (low + high) / 2;
    if (sharpest(scaled(middle), width) < 1 / radius) low = middle;
    else high = middle;
  }
  return scaled(low);
}

/** Rise over run at the board's edges: a line that leaves the board at more than 60° is refused. */
const STEEPEST_END = 1.6;

/** The same waves, flatter where they would leave the board too steeply. */
export function leavingGently(waves: readonly Wave[], width: number): readonly Wave[] {
  const steepest = Math.max(...[0, width].map((x) => Math.abs(heightOf(waves, x)[1])));
  const factor = Math.min(1, STEEPEST_END / steepest);
  return waves.map((one) => ({ ...one, amplitude: one.amplitude * factor }));
}

const wave: fc.Arbitrary<Wave> = fc.record({
  amplitude: length(0.3, 4),
  period: length(18, 90),
  phase: fc.double({ min: 0, max: 6.28, noNaN: true }),
});

/** A line as the job names it, and the width of board that it serves. */
interface Line {
  readonly d: string;
  readonly width: number;
  readonly lead?: number;
  readonly repeat?: { readonly count?: number; readonly pitch?: number };
}

/** How a line comes about once it is known how tightly it may bend. */
type LineMaker = (radius: number) => Line;

const wavyLines: fc.Arbitrary<LineMaker> = fc
  .record({ waves: fc.array(wave, { minLength: 1, maxLength: 3 }), width: length(40, 75) })
  .map(
    ({ waves, width }): LineMaker =>
      (radius) => {
        const bent = leavingGently(bentTo(waves, width, radius), width);
        return { d: pathOf(bent, width), width };
      },
  );

/** Rounds reach the board's edges where they like; with `share` 1 the board is as wide as the line is long. */
const bumpyOnce: fc.Arbitrary<LineMaker> = fc
  .record({
    bumps: fc.array(bump, { minLength: 1, maxLength: 3 }),
    relative: fc.boolean(),
    lead: oneOf(0, 0, 3),
    share: fc.double({ min: 0.6, max: 1, noNaN: true }),
  })
  .map(
    ({ bumps, relative, lead, share }): LineMaker =>
      (radius) => {
        const line = bumpyLine(bumps, radius, relative);
        return { d: line.d, width: round(Math.max(10, share * (line.length - lead) - 0.01)), lead };
      },
  );

const bumpyRepeated: fc.Arbitrary<LineMaker> = fc
  .record({
    bumps: fc.array(bump, { minLength: 1, maxLength: 1 }),
    relative: fc.boolean(),
    times: fc.double({ min: 1.2, max: 3, noNaN: true }),
    counted: fc.boolean(),
    more: oneOf(0, 0, 5),
  })
  .map(
    ({ bumps, relative, times, counted, more }): LineMaker =>
      (radius) => {
        const line = bumpyLine(bumps, radius, relative);
        const pitch = round(line.length + more);
        const repeat = { ...(counted && { count: Math.ceil(times) + 1 }), ...(more > 0 && { pitch }) };
        return { d: line.d, width: round(times * line.length), repeat };
      },
  );

/** Jobs with one edge joint, most of them to be cut. */
export const edgeJobs: fc.Arbitrary<string> = fc
  .record({
    line: fc.oneof(wavyLines, bumpyOnce, bumpyRepeated),
    bits: fc.tuple(length(4, 13), length(4, 13)),
    same: fc.boolean(),
    wider: oneOf(-1, 0, 0.5, 2, 4, 6),
    ease: length(1.08, 3),
    boards: fc.tuple(length(6, 25), length(6, 25)),
    slack,
    nose: oneOf<number | undefined>(undefined, undefined, 4, 12),
  })
  .map(({ line, bits: [first, other], same, wider, ease, boards: [one, thick], slack, nose }) => {
    const second = same ? first : other;
    const bushing = round(Math.max(first, second) + wider + 1);
    // A bit that is too wide for the bushing's bore must cut both boards, and 1 mm more, with all of its edge.
    const two = wider < 0 && same ? one : thick;
    const [least, most] = [Math.min(first, second), Math.max(first, second)];
    // The template keeps 3 mm at its narrowest, so round a bump the line needs that much more.
    const radius = ease * Math.max(most / 2, (bushing - least) / 2 + 1.6);
    const { d, width, lead, repeat } = line(radius);
    const bit = (diameter: number, board: number) => ({
      kind: 'straight',
      diameter,
      height: edgeHeight(board + 1, bushing, { diameter }, 40),
    });
    return JSON.stringify({
      units: 'mm',
      shop: {
        bits: { first: bit(first, one), second: bit(second, two) },
        bushings: { guide: { outside: bushing } },
        plate: { material: 'plywood', thickness: 12, 'least-finger': 3 },
      },
      joints: {
        [JOINT]: {
          kind: 'edge',
          width,
          boards: { one: { thickness: one }, two: { thickness: two } },
          line: { d, unit: 'mm', ...(lead && { lead }) },
          ...(repeat && { repeat }),
          ...(same ? { cutter: 'first' } : { cutters: { one: 'first', two: 'second' } }),
          bushing: 'guide',
          fit: { slack },
          template: nose === undefined ? {} : { nose },
        },
      },
    });
  });
