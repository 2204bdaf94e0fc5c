import fc from 'fast-check';
import { length } from './random-jobs.js';

/**
 * Random joint lines of bumps with level ground between them: straight flanks, and at every corner a round that
 * is a circle, a parabola or a cubic Bézier, each as tight as the tools allow. Path data, mm, y down as in SVG.
 */

export type Round = 'arc' | 'quadratic' | 'cubic';

export interface Bump {
  /** Slope of both flanks, radians. */
  readonly slope: number;
  readonly up: boolean;
  /** Straight wood between two rounds: on the ground before it, on its flanks, on its top; no top without one. */
  readonly ground: number;
  readonly flank: number;
  readonly top: number | undefined;
  /** At its foot, its shoulder, its far shoulder, its far foot. */
  readonly rounds: readonly [Round, Round, Round, Round];
}

export interface BumpyLine {
  readonly d: string;
  /** Along x, from its beginning to its end; both are level, and equally high. */
  readonly length: number;
}

const round = fc.constantFrom<Round>('arc', 'quadratic', 'cubic');

export const bump: fc.Arbitrary<Bump> = fc.record({
  slope: fc.double({ min: 0.2, max: 0.85, noNaN: true }),
  up: fc.boolean(),
  ground: fc.constantFrom(0, 0, 2, 6),
  flank: fc.constantFrom(0, 0, 1, 4),
  top: fc.option(length(0, 6), { nil: undefined }),
  rounds: fc.tuple(round, round, round, round),
});

/** A corner of the line before it is rounded, with how far its round reaches along both of its sides. */
interface Corner {
  readonly x: number;
  readonly y: number;
  readonly reach: number;
  readonly round: Round;
  /** Directions before and behind, radians, and the turn from one to the other. */
  readonly before: number;
  readonly behind: number;
}

/** The line of some bumps whose rounds bend to `radius` and no tighter. */
export function bumpyLine(bumps: readonly Bump[], radius: number, relative: boolean): BumpyLine {
  const corners: Corner[] = [];
  let x = 0;
  for (const bump of bumps) {
    const made = cornersOf(bump, radius);
    const start = x + bump.ground;
    corners.push(...made.corners.map((one) => ({ ...one, x: start + one.x })));
    x = start + made.length;
  }
  return { d: pathOf(corners, { x: x + 1, y: 0 }, radius, relative), length: x + 1 };
}

/** The corners of one bump, from the beginning of its first round to the end of its last. */
function cornersOf({ slope, up, flank, top, rounds }: Bump, radius: number) {
  const [foot, shoulder, far, last] = rounds;
  const angle = up ? slope : -slope;
  const turns = top === undefined ? [slope, 2 * slope, 2 * slope, slope] : [slope, slope, slope, slope];
  const kinds = [foot, shoulder, top === undefined ? shoulder : far, last];
  const [a = 0, b = 0, c = 0, e = 0] = kinds.map((kind, i) => reachOf(kind, turns[i] ?? 0, radius));
  const long = Math.max(a + b, c + e) + flank;
  const [run, rise] = [long * Math.cos(slope), long * Math.sin(angle)];
  const flat = top === undefined ? 0 : b + c + top;
  const at = (along: number, y: number, reach: number, kind: Round, before: number, behind: number) => ({
    ...{ x: along, y, reach, round: kind, before, behind },
  });
  const end = a + 2 * run + flat;
  const first = at(a, 0, a, foot, 0, angle);
  const final = at(end, 0, e, last, -angle, 0);
  const upper =
    top === undefined
      ? [at(a + run, rise, b, shoulder, angle, -angle)]
      : [at(a + run, rise, b, shoulder, angle, 0), at(a + run + flat, rise, c, far, 0, -angle)];
  return { corners: [first, ...upper, final], length: end + e };
}

/**
 * How far a round of this radius reaches from its corner. A parabola with legs h and turn φ bends tightest at
 * its vertex, to h·cos²(φ/2)/sin(φ/2); a cubic is as near to the circle as one can be, a little tighter in places.
 */
function reachOf(kind: Round, turn: number, radius: number): number {
  const half = turn / 2;
  if (kind === 'quadratic') return (radius * Math.sin(half)) / Math.cos(half) ** 2;
  return radius * Math.tan(half) * (kind === 'cubic' ? 1.05 : 1);
}

function pathOf(
  corners: readonly Corner[],
  end: { readonly x: number; readonly y: number },
  radius: number,
  relative: boolean,
): string {
  let [x, y] = [0, 0];
  const parts = ['M0 0'];
  const step = (letter: string, before: string, ...points: readonly (readonly [number, number])[]) => {
    const [dx, dy] = relative ? [x, y] : [0, 0];
    const numbers = points.map(([px, py]) => `${text(px - dx)} ${text(-(py - dy))}`);
    parts.push(`${relative ? letter.toLowerCase() : letter}${before}${numbers.join(' ')}`);
    const last = points.at(-1) ?? [x, y];
    // A relative point starts from where rounding has put the last one.
    [x, y] = [dx + Number(text(last[0] - dx)), dy + Number(text(last[1] - dy))];
  };
  for (const { x: cx, y: cy, reach, round: kind, before, behind } of corners) {
    const from: readonly [number, number] = [cx - reach * Math.cos(before), cy - reach * Math.sin(before)];
    const to: readonly [number, number] = [cx + reach * Math.cos(behind), cy + reach * Math.sin(behind)];
    if (Math.hypot(from[0] - x, from[1] - y) > 0.01) step('L', '', from);
    const turn = behind - before;
    if (kind === 'arc') step('A', `${text(radius)} ${text(radius)} 0 0${turn > 0 ? 0 : 1}`, to);
    if (kind === 'quadratic') step('Q', '', [cx, cy], to);
    if (kind === 'cubic') {
      const handle = ((4 / 3) * Math.tan(Math.abs(turn) / 4) * reach) / Math.tan(Math.abs(turn) / 2);
      const first: readonly [number, number] = [
        from[0] + handle * Math.cos(before),
        from[1] + handle * Math.sin(before),
      ];
      const second: readonly [number, number] = [
        to[0] - handle * Math.cos(behind),
        to[1] - handle * Math.sin(behind),
      ];
      step('C', '', first, second, to);
    }
  }
  step('L', '', [end.x, end.y]);
  return parts.join('');
}

const text = (value: number): string => `${Math.round(value * 1e5) / 1e5 + 0}`;
