/** SVG's transforms (SVG 2, section 8.5, and CSS Transforms 1): [a b c d e f] takes (x, y) to (ax + cy + e, bx + dy + f). */
export type Matrix = readonly [a: number, b: number, c: number, d: number, e: number, f: number];

export const NO_CHANGE: Matrix = [1, 0, 0, 1, 0, 0];

/** The one after the other: first `inner`, then `outer`. */
export function times([a, b, c, d, e, f]: Matrix, inner: Matrix): Matrix {
  const [p, q, r, s, t, u] = inner;
  return [a * p + c * q, b * p + d * q, a * r + c * s, b * r + d * s, a * t + c * u + e, b * t + d * u + f];
}

/** What a transform attribute says; undefined where it can't be read. */
export function matrixOf(text: string): Matrix | undefined {
  let rest = text.trim();
  let matrix = NO_CHANGE;
  while (rest !== '') {
    const [all, name = '', list = ''] = /^(\w+)\s*\(([^)]*)\)[\s,]*/.exec(rest) ?? [];
    if (all === undefined) return undefined;
    const own = oneOf(
      name,
      list
        .trim()
        .split(/[\s,]+/)
        .map(Number),
    );
    if (!own?.every(Number.isFinite)) return undefined;
    matrix = times(matrix, own);
    rest = rest.slice(all.length);
  }
  return matrix;
}

function oneOf(name: string, values: readonly number[]): Matrix | undefined {
  const [first = Number.NaN, second, x, y, e, f] = values;
  const [cos, sin] = [Math.cos((first * Math.PI) / 180), Math.sin((first * Math.PI) / 180)];
  const tan = Math.tan((first * Math.PI) / 180);
  switch (name) {
    case 'matrix':
      return second === undefined || x === undefined || y === undefined || e === undefined || f === undefined
        ? undefined
        : [first, second, x, y, e, f];
    case 'translate':
      return [1, 0, 0, 1, first, second ?? 0];
    case 'scale':
      return [first, 0, 0, second ?? first, 0, 0];
    case 'rotate': {
      const about: Matrix = [1, 0, 0, 1, second ?? 0, x ?? 0];
      const back: Matrix = [1, 0, 0, 1, -(second ?? 0), -(x ?? 0)];
      return y === undefined ? times(times(about, [cos, sin, -sin, cos, 0, 0]), back) : undefined;
    }
    case 'skewX':
      return [1, 0, tan, 1, 0, 0];
    case 'skewY':
      return [1, tan, 0, 1, 0, 0];
    default:
      return undefined;
  }
}
