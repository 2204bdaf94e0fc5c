import { formatDegrees, formatSlope } from '../../units/angle.js';

/** A slope (radians from square) as woodworkers write it and as a bevel gauge shows it: `slope 1:7, 8.13°`. */
export function slopeWords(slope: number): string {
  return `slope ${formatSlope(slope)}, ${formatDegrees(slope)}`;
}
