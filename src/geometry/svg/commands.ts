import svgPath, { type PathCommand } from 'svg-path-parser';
import { minus, plus, point, times } from '../point.js';
import type { Point } from '../types.js';
import { centerForm } from './arc.js';
import type { Curve } from './curve.js';

/** What the grammar would have taken where it stopped. */
export type Expected = 'a command' | 'a number' | 'a flag, 0 or 1' | 'M';

/** Why a text is no path; `position` counts characters from 1, `read` is what stands there ('' for the end). */
export interface PathProblem {
  readonly ok: false;
  readonly trouble: 'empty' | 'syntax' | 'not-finite' | 'far';
  readonly position: number;
  readonly read: string;
  readonly expected: readonly Expected[];
}

/** One subpath in the units and axes of the path. */
export interface CurveChain {
  readonly curves: readonly Curve[];
  readonly closed: boolean;
}

export type CurveReading = { readonly ok: true; readonly chains: readonly CurveChain[] } | PathProblem;

/**
 * Reads the path grammar of SVG 2 (section 9.3.9): every command, absolute and relative, flags without
 * separators, exponents, implicit commands, signed radii. Unlike a browser, which draws a path as far as it is
 * good, this refuses all of a path with an error in it. Coordinates beyond `farthest` are refused, too.
 */
export function readCurves(d: string, farthest: number): CurveReading {
  const text = forParser(d);
  const parsed = parse(text);
  if (!('commands' in parsed)) return parsed;
  const { commands } = parsed;
  if (commands.length === 0) return { ok: false, trouble: 'empty', position: 1, read: '', expected: ['M'] };
  const bad = commands.findIndex((one) => !numbersOf(one).every((n) => Math.abs(n) <= farthest));
  if (bad < 0) return { ok: true, chains: chainsOf(commands) };
  return { ok: false, expected: [], ...placeOfNumber(text, bad, farthest) };
}

function parse(text: string): { readonly commands: readonly PathCommand[] } | PathProblem {
  try {
    return { commands: svgPath.makeAbsolute(svgPath.parseSVG(text)) };
  } catch (error) {
    if (!isSyntaxError(error)) throw error;
    const { offset } = error.location.start;
    return {
      ok: false,
      trouble: 'syntax',
      position: offset + 1,
      read: glance(text, offset),
      expected: named(error),
    };
  }
}

/** What the parser throws. */
interface SyntaxProblem {
  readonly location: { readonly start: { readonly offset: number } };
  readonly expected: readonly { readonly type: string; readonly parts?: readonly unknown[] }[];
}

function isSyntaxError(error: unknown): error is SyntaxProblem {
  return error instanceof Object && 'location' in error && 'expected' in error;
}

function named({ expected }: SyntaxProblem): readonly Expected[] {
  const parts = expected.flatMap((one) => (one.parts === undefined ? [] : [JSON.stringify(one.parts)]));
  const has = (part: unknown): boolean => parts.includes(JSON.stringify(part));
  return [
    ...(has([['0', '9']]) ? (['a number'] as const) : []),
    ...(has(['0', '1']) ? (['a flag, 0 or 1'] as const) : []),
    ...(has(['L', 'l']) ? (['a command'] as const) : []),
    ...(has(['M', 'm']) && !has(['L', 'l']) ? (['M'] as const) : []),
  ];
}

/** A few characters, enough to find the place by. */
function glance(text: string, offset: number): string {
  return (
    text
      .slice(offset, offset + 12)
      .trim()
      .split(/\s/)[0] ?? ''
  );
}

// What the parser's grammar, that of SVG 1.1, does not take

/** The same text with signs of radii and form feeds blanked, character for character, so that places stay. */
function forParser(d: string): string {
  const plain = d.replaceAll('\f', ' ');
  return plain.replace(/[Aa][^A-DF-Za-df-z]*/g, withoutRadiusSigns);
}

const ARC_NUMBERS = [/[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?/iy, /[01]/y] as const;

function withoutRadiusSigns(arcs: string): string {
  const letters = [...arcs];
  const separators = /[\s,]*/y;
  let at = 1;
  for (let argument = 0; at < arcs.length; argument++) {
    separators.lastIndex = at;
    at += separators.exec(arcs)?.[0].length ?? 0;
    const flag = argument % 7 === 3 || argument % 7 === 4;
    const number = flag ? ARC_NUMBERS[1] : ARC_NUMBERS[0];
    number.lastIndex = at;
    const found = number.exec(arcs)?.[0];
    if (found === undefined) break;
    if (argument % 7 < 2 && /^[+-]/.test(found)) letters[at] = ' ';
    at += found.length;
  }
  return letters.join('');
}

// Places, looked for only when something is wrong

function numbersOf(one: PathCommand): readonly number[] {
  const { x, y, x1 = 0, y1 = 0, x2 = 0, y2 = 0, rx = 0, ry = 0, xAxisRotation = 0 } = one;
  return [x, y, x1, y1, x2, y2, rx, ry, xAxisRotation];
}

/** The number that is too great; or, where only the sum of relative moves is, the command that goes too far. */
function placeOfNumber(text: string, command: number, farthest: number) {
  const number = /[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?/gi;
  for (const found of text.matchAll(number)) {
    const value = Number(found[0]);
    if (Math.abs(value) <= farthest) continue;
    const trouble = Number.isFinite(value) ? ('far' as const) : ('not-finite' as const);
    return { trouble, position: found.index + 1, read: found[0] };
  }
  const offset = offsetOfCommand(text, command);
  return { trouble: 'far' as const, position: offset + 1, read: glance(text, offset) };
}

/** Where the letter stands that command number `index`, explicit or implicit, belongs to. */
function offsetOfCommand(text: string, index: number): number {
  let passed = 0;
  for (const { 0: part, index: offset } of text.matchAll(/[A-DF-Za-df-z][^A-DF-Za-df-z]*/g)) {
    const alone = part.replace(/[\s,]+$/, '');
    passed += /^m/i.test(alone)
      ? svgPath.parseSVG(alone).length
      : svgPath.parseSVG(`M0 0${alone}`).length - 1;
    if (passed > index) return offset;
  }
  return 0;
}

// Commands to curves

function chainsOf(commands: readonly PathCommand[]): readonly CurveChain[] {
  const chains: { curves: Curve[]; closed: boolean }[] = [];
  let open: { curves: Curve[]; closed: boolean } | undefined;
  let start = point(0, 0);
  let before: PathCommand | undefined;
  /** The control point that a smooth command mirrors. */
  let pulled = point(0, 0);
  for (const one of commands) {
    const from = point(one.x0, one.y0);
    const to = point(one.x, one.y);
    if (one.code === 'M') {
      start = to;
      open = undefined;
    } else {
      if (open === undefined) {
        open = { curves: [], closed: false };
        chains.push(open);
      }
      const smooth = (codes: string): Point =>
        before !== undefined && codes.includes(before.code) ? minus(times(from, 2), pulled) : from;
      const made = curveOf(one, from, one.code === 'Z' ? start : to, smooth);
      pulled = made.pulled;
      if (made.curve !== undefined) open.curves.push(made.curve);
      if (one.code === 'Z') {
        open.closed = true;
        open = undefined;
      }
    }
    before = one;
  }
  return chains.filter(({ curves }) => curves.length > 0);
}

/** One command as a curve, with the control point that a smooth command after it mirrors. */
function curveOf(
  one: PathCommand,
  from: Point,
  to: Point,
  smooth: (codes: string) => Point,
): { readonly curve: Curve | undefined; readonly pulled: Point } {
  const { x1 = 0, y1 = 0, x2 = 0, y2 = 0, rx = 0, ry = 0, xAxisRotation = 0 } = one;
  switch (one.code) {
    case 'C':
    case 'S': {
      const control1 = one.code === 'C' ? point(x1, y1) : smooth('CS');
      const control2 = point(x2, y2);
      return { curve: { kind: 'cubic', from, control1, control2, to }, pulled: control2 };
    }
    case 'Q':
    case 'T': {
      const control = one.code === 'Q' ? point(x1, y1) : smooth('QT');
      return { curve: raised(from, control, to), pulled: control };
    }
    case 'A': {
      const { largeArc = false, sweep = false } = one;
      return {
        curve: centerForm({ from, to, rx, ry, rotation: xAxisRotation, largeArc, sweep }),
        pulled: to,
      };
    }
    default:
      return {
        curve: from.x === to.x && from.y === to.y ? undefined : { kind: 'line', from, to },
        pulled: to,
      };
  }
}

/** A quadratic Bézier with its degree raised: controls two thirds of the way to its one control point. */
function raised(from: Point, control: Point, to: Point): Curve {
  const toward = (end: Point): Point => plus(times(end, 1 / 3), times(control, 2 / 3));
  return { kind: 'cubic', from, control1: toward(from), control2: toward(to), to };
}
