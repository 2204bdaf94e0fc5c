import { type Diagnostic, diagnostic, err, ok, type Result } from '../../diagnostics/diagnostic.js';
import { intersect } from '../../geometry/intersect.js';
import { extents, reversed } from '../../geometry/outline.js';
import { distance, minus, plus, times, turn } from '../../geometry/point.js';
import { boxTree } from '../../geometry/regions/box-tree.js';
import { extentsOfSegment, lengthOf, line, tangentAt } from '../../geometry/segment.js';
import type { Bend } from '../../geometry/svg/biarc.js';
import type { DrawnPath } from '../../geometry/svg/path.js';
import { SMOOTH_TURN } from '../../geometry/tolerance.js';
import { translate } from '../../geometry/transform.js';
import type { Path, Point, Segment } from '../../geometry/types.js';
import type { Repeat } from './fields.js';

/** The line along which two boards meet, x from the reference edge, board one above it, mm. */
export interface JointLine {
  /** From left to right, from well before the board to well behind it, nowhere meeting itself. */
  readonly path: Path;
  /** Where the line bends most and least, from left to right; on the board and beside it. */
  readonly bends: readonly Bend[];
}

export interface LineRequest {
  readonly width: number;
  readonly lead: number;
  readonly repeat?: Repeat;
  /** How far past the board's edges the line has to run. */
  readonly runOff: number;
  /** Cut by hand: a saw goes into corners. */
  readonly byHand: boolean;
  /** Dotted path of the joint. */
  readonly at: string;
}

/** An end that misses the board's edge by no more than this is run on: drawings round their coordinates, mm. */
const SHORT = 0.1;

/** Ends of a repeated line may differ in height by no more than this, mm; each repetition takes it on. */
const LINE_STEP = 0.01;

/** The line must leave the board less steeply than this, or the bit has to leave it along the board's own edge. */
const STEEPEST = Math.PI / 3;

/** More pieces than this are a picture and not a joint. */
const MAX_PIECES = 4000;

/** Lays a drawn line along the board: turned to run from the reference edge, repeated, run on past both edges. */
export function layLine(drawn: DrawnPath, request: LineRequest): Result<JointLine> {
  const { lead, at } = request;
  const rightward = facingRight(drawn);
  const [start, end] = endsOf(rightward.path);
  if (end.x - start.x < SHORT) {
    return err([diagnostic('line-upright', 'refused', `${at}.line`, { reach: end.x - start.x })]);
  }
  const placed = movedBy(rightward, { x: -lead - start.x, y: -start.y });
  const repeated = repeatedLine(placed, request);
  if (!repeated.ok) return err(repeated.diagnostics);
  const whole = repeated.value;
  if (whole.path.segments.length > MAX_PIECES) {
    const data = { pieces: whole.path.segments.length, most: MAX_PIECES };
    return err([diagnostic('line-many', 'refused', `${at}.line`, data)]);
  }
  const short = shortDiagnostics(whole, end.x - start.x, request);
  if (short.length > 0) return err(short);
  const steep = steepDiagnostics(whole.path, request);
  const laid = { ...whole, path: runOn(whole.path, request) };
  const diagnostics = [...steep, ...crossingDiagnostics(laid.path, at)];
  return diagnostics.length > 0 ? err(diagnostics) : ok(laid);
}

// Turning, moving, repeating

function facingRight({ path, bends }: DrawnPath): JointLine {
  const [start, end] = endsOf(path);
  if (end.x >= start.x) return { path, bends };
  return { path: reversed(path), bends: bends.map(turnedRound).reverse() };
}

const turnedRound = ({ at, curvature }: Bend): Bend => ({ at, curvature: -curvature });

function movedBy({ path, bends }: JointLine, by: Point): JointLine {
  return {
    path: translate(path, by.x, by.y),
    bends: bends.map(({ at, curvature }) => ({ at: plus(at, by), curvature })),
  };
}

function endsOf({ segments }: Path): readonly [Point, Point] {
  const nowhere = { x: 0, y: 0 };
  return [segments[0]?.from ?? nowhere, segments.at(-1)?.to ?? nowhere];
}

function repeatedLine(one: JointLine, request: LineRequest): Result<JointLine> {
  const { width, lead, repeat, runOff, byHand, at } = request;
  if (repeat === undefined) return ok(one);
  const [start, end] = endsOf(one.path);
  const own = end.x - start.x;
  const pitch = repeat.pitch ?? own;
  const rise = end.y - start.y;
  const place = `${at}.repeat`;
  if (pitch < own - SHORT) {
    return err([diagnostic('repeat-pitch-short', 'refused', `${place}.pitch`, { pitch, own })]);
  }
  const diagnostics = [
    ...stepDiagnostics(rise, place),
    ...(byHand ? [] : kinkDiagnostics(one.path, pitch > own + SHORT, place)),
  ];
  if (diagnostics.length > 0) return err(diagnostics);
  const first = repeat.count === undefined ? Math.floor((lead - runOff) / pitch) : 0;
  // The last one ends past the far edge; between two that stand apart the board could end in the gap.
  const last = repeat.count ?? 1 + Math.ceil((width + lead + runOff - own) / pitch);
  if ((last - first) * one.path.segments.length > MAX_PIECES) {
    const data = { pieces: (last - first) * one.path.segments.length, most: MAX_PIECES };
    return err([diagnostic('line-many', 'refused', place, data)]);
  }
  const copies = Array.from({ length: last - first }, (_, i) =>
    movedBy(one, { x: (first + i) * pitch, y: (first + i) * rise }),
  );
  return ok(joinedCopies(copies));
}

/** Copies one behind the other; a gap between them is bridged by a straight line. */
function joinedCopies(copies: readonly JointLine[]): JointLine {
  const segments = copies.flatMap(({ path }, i): readonly Segment[] => {
    const before = copies[i - 1]?.path.segments.at(-1)?.to;
    const [first, ...rest] = path.segments;
    if (before === undefined || first === undefined) return path.segments;
    if (distance(before, first.from) <= SHORT) return [{ ...first, from: before }, ...rest];
    return [line(before, first.from), ...path.segments];
  });
  return { path: { closed: false, segments }, bends: copies.flatMap(({ bends }) => bends) };
}

function stepDiagnostics(rise: number, at: string): readonly Diagnostic[] {
  return Math.abs(rise) > LINE_STEP ? [diagnostic('repeat-step', 'refused', at, { rise })] : [];
}

/** What keeps the end of a line from going over smoothly into its beginning. */
function kinkDiagnostics({ segments }: Path, bridged: boolean, at: string): readonly Diagnostic[] {
  const [first, last] = [segments[0], segments.at(-1)];
  if (first === undefined || last === undefined) return [];
  const [into, out] = [tangentAt(first, 0), tangentAt(last, 1)];
  const along = { x: 1, y: 0 };
  const kinks = bridged ? [turn(out, along), turn(along, into)] : [turn(out, into)];
  const kink = kinks.reduce((most, one) => (Math.abs(one) > Math.abs(most) ? one : most), 0);
  return Math.abs(kink) > SMOOTH_TURN
    ? [diagnostic('repeat-kink', 'refused', at, { angle: Math.abs(kink), bridged })]
    : [];
}

// Across the board

function shortDiagnostics({ path }: JointLine, own: number, request: LineRequest): readonly Diagnostic[] {
  const { width, lead, repeat, at } = request;
  const [, end] = endsOf(path);
  if (end.x >= width - SHORT) return [];
  const count = 1 + Math.ceil((width + lead - own) / (repeat?.pitch ?? own));
  const data = { reach: end.x, width, count, repeated: repeat !== undefined };
  return [diagnostic('line-short', 'refused', repeat ? `${at}.repeat` : `${at}.line`, data)];
}

/** Only ends that lie on the board or near it matter: the others are cut off. */
function steepDiagnostics(path: Path, { width, runOff, at }: LineRequest): readonly Diagnostic[] {
  const [start, end] = endsOf(path);
  const [first, last] = [path.segments[0], path.segments.at(-1)];
  const angleOf = (one: Segment | undefined, t: number): number => {
    if (one === undefined) return 0;
    const { x, y } = tangentAt(one, t);
    return Math.abs(Math.atan2(y, x));
  };
  const ends = [
    { edge: 'reference' as const, angle: start.x > -runOff ? angleOf(first, 0) : 0 },
    { edge: 'far' as const, angle: end.x < width + runOff ? angleOf(last, 1) : 0 },
  ];
  return ends
    .filter(({ angle }) => angle > STEEPEST)
    .map((data) => diagnostic('line-steep', 'refused', `${at}.line`, { ...data, most: STEEPEST }));
}

/** Run on in its own direction past both edges of the board and of all that the line is. */
function runOn(path: Path, { width, runOff }: LineRequest): Path {
  const box = extents(path);
  const [start, end] = endsOf(path);
  const [first, last] = [path.segments[0], path.segments.at(-1)];
  if (first === undefined || last === undefined) return path;
  const before = start.x - Math.min(-runOff, box.minX) + 1;
  const behind = Math.max(width + runOff, box.maxX) - end.x + 1;
  const [into, out] = [slopeward(tangentAt(first, 0)), slopeward(tangentAt(last, 1))];
  const from = minus(start, times(into, before));
  const to = plus(end, times(out, behind));
  return { closed: false, segments: [line(from, start), ...path.segments, line(end, to)] };
}

/** A direction made 1 mm long along x; one too steep for that is level, since it is beside the board anyway. */
function slopeward({ x, y }: Point): Point {
  return Math.atan2(Math.abs(y), x) > STEEPEST ? { x: 1, y: 0 } : { x: 1, y: y / x };
}

/** Neighbours meet where they join; a meeting nearer to it than this along the line is that joint, mm. */
const SAME_MEETING = 0.01;

function crossingDiagnostics({ segments }: Path, at: string): readonly Diagnostic[] {
  const starts = [0];
  for (const one of segments) starts.push((starts.at(-1) ?? 0) + lengthOf(one));
  const tree = boxTree(segments.map(extentsOfSegment));
  for (const [i, one] of segments.entries()) {
    const { minX, minY, maxX, maxY } = extentsOfSegment(one);
    let crossing: Point | undefined;
    tree.search(minX, minY, maxX, maxY, (j) => {
      const other = segments[j];
      if (j <= i || other === undefined) return false;
      const met = intersect(one, other);
      if (met.kind === 'none') return false;
      const points = met.kind === 'overlapping' ? met.ends : met.kind === 'tangent' ? [met.at] : met.at;
      const apart = (starts[j] ?? 0) - (starts[i + 1] ?? 0);
      crossing = points.find((p) => distance(p, one.to) + distance(p, other.from) + apart > SAME_MEETING);
      return crossing !== undefined;
    });
    if (crossing !== undefined) {
      return [diagnostic('line-crosses-itself', 'refused', `${at}.line`, { x: crossing.x, y: crossing.y })];
    }
  }
  return [];
}
