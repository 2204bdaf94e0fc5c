import { split, sweepOf } from '../geometry/segment.js';
import { bezierPieces } from '../geometry/svg/bezier.js';
import type { Arc, Outline, Path, Point, Segment } from '../geometry/types.js';
import { decimal } from '../units/decimal.js';

/** Lines and arcs as SVG path data (SVG 1.1, chapter 8). SVG's y runs down, so a path's y is the drawing's −y; x is the same. */

/** How arcs are written: as elliptical arc commands, or as cubic béziers within 0.0005 mm for readers without arcs. */
export type ArcStyle = 'arcs' | 'beziers';

export interface PathFormat {
  /** Digits after the decimal point. */
  readonly digits: number;
  readonly arcs?: ArcStyle;
}

/** `Z` draws an outline's last line, so its first point stands there once. */
export function pathData(line: Outline | Path, format: PathFormat): string {
  const segments = line.closed ? lineLast(line.segments) : line.segments;
  const [first] = segments;
  if (first === undefined) return '';
  const drawn = line.closed && segments.at(-1)?.kind === 'line' ? segments.slice(0, -1) : segments;
  return `M${pointText(first.from, format)}${drawn.map((one) => command(one, format)).join('')}${line.closed ? 'Z' : ''}`;
}

/** Straight lines from point to point; `closed`, back to the first one. */
export const polylineData = (points: readonly Point[], format: PathFormat, closed = false): string =>
  points.length === 0 ? '' : `M${points.map((one) => pointText(one, format)).join('L')}${closed ? 'Z' : ''}`;

/** The same outline, started where its last piece is a line, if it has one. */
function lineLast(segments: readonly Segment[]): readonly Segment[] {
  const last = segments.findLastIndex((one) => one.kind === 'line');
  return [...segments.slice(last + 1), ...segments.slice(0, last + 1)];
}

function command(segment: Segment, format: PathFormat): string {
  if (segment.kind === 'line') return `L${pointText(segment.to, format)}`;
  if (format.arcs === 'beziers') {
    return bezierPieces(segment)
      .map((piece) => `C${piece.map((one) => pointText(one, format)).join(' ')}`)
      .join('');
  }
  const beyondHalf = Math.abs(sweepOf(segment)) - Math.PI;
  if (Math.abs(beyondHalf) < EXACT_HALF)
    return arcCommand(segment, halfChordOf(segment, format.digits), false, format);
  if (Math.abs(beyondHalf) < NEARLY_HALF)
    return split(segment, 0.5)
      .map((one) => command(one, format))
      .join('');
  return arcCommand(segment, segment.radius, beyondHalf > 0, format);
}

/** An arc this near to half a turn, radians, is half a turn: its far point moves by less than 1e-7 of its radius. */
const EXACT_HALF = 1e-7;

/**
 * Near half a turn the center hangs on the difference of radius and half chord, and rounding either by 1e-6 mm
 * moves it by √(r · 1e-6 mm), 0.003 mm for r = 10: such arcs are written as two. From here on, radians, the
 * roundings grow less than a hundredfold.
 */
const NEARLY_HALF = 0.02;

/** An exact half arc is written with a radius no larger than its chord needs: SVG 1.1, F.6.6, scales it to fit. */
function halfChordOf({ from, to }: Segment, digits: number): number {
  const unit = 10 ** digits;
  const written = (value: number): number => Number(decimal(value, digits));
  return (
    Math.floor((Math.hypot(written(to.x) - written(from.x), written(to.y) - written(from.y)) / 2) * unit) /
    unit
  );
}

function arcCommand({ to, ccw }: Arc, radius: number, large: boolean, format: PathFormat): string {
  const r = decimal(radius, format.digits);
  // SVG's sweep flag is 1 where angles grow in its own axes, which is clockwise to the eye.
  return `A${r} ${r} 0 ${large ? 1 : 0} ${ccw ? 0 : 1} ${pointText(to, format)}`;
}

/** A point in the file: y is turned over here and nowhere else. */
const pointText = ({ x, y }: Point, { digits }: PathFormat): string =>
  `${decimal(x, digits)} ${decimal(-y, digits)}`;
