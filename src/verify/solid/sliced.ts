import { area } from '../cut/polygons.js';
import type { JointVolumes } from './joint.js';

/** A level of the test cut: what the joint's room holds of both boards there. */
type Level = Readonly<Record<'first' | 'second' | 'overlaps', Parameters<typeof area>[0]>> & {
  readonly z: number;
};

/**
 * The same volumes as the slices of the test cut have them, mm³: areas summed over evenly spaced levels, by
 * Simpson's rule where the number of steps is even, else by trapezia. `boards` are the names of first and second,
 * `room` is the volume that both share. What neither fills is what is left of the room: the slices' own gaps leave
 * out the corners that are pared from square tails.
 */
export function slicedVolumes(
  levels: readonly Level[],
  boards: readonly [string, string],
  room: number,
): Omit<JointVolumes, 'room'> {
  const sum = (of: (level: Level) => Parameters<typeof area>[0]): number =>
    summed(
      levels.map((level) => area(of(level))),
      Math.abs((levels.at(-1)?.z ?? 0) - (levels[0]?.z ?? 0)),
    );
  const [first, second] = [sum((level) => level.first), sum((level) => level.second)];
  const overlap = sum(({ overlaps }) => overlaps);
  return {
    boards: [
      { board: boards[0], volume: first },
      { board: boards[1], volume: second },
    ],
    overlap,
    voids: room - first - second + overlap,
  };
}

function summed(values: readonly number[], length: number): number {
  const steps = values.length - 1;
  if (steps < 1) return 0;
  const isEnd = (i: number): boolean => i === 0 || i === steps;
  const simpson = steps % 2 === 0;
  const weight = (i: number): number => {
    if (simpson) return isEnd(i) ? 1 / 3 : i % 2 === 1 ? 4 / 3 : 2 / 3;
    return isEnd(i) ? 1 / 2 : 1;
  };
  return (length / steps) * values.reduce((total, value, i) => total + weight(i) * value, 0);
}
