/** Pixels that are in a set or not. */
export interface Field {
  readonly width: number;
  readonly height: number;
  readonly at: (column: number, row: number) => boolean;
}

/** Distances in pixels. */
export interface Distances {
  readonly width: number;
  readonly height: number;
  readonly at: (column: number, row: number) => number;
}

/**
 * How far each pixel is from the nearest one of the set: exact, by two passes of lower envelopes of parabolas
 * (Felzenszwalb and Huttenlocher, "Distance transforms of sampled functions", 2012, cited from memory).
 */
export function nearest({ width, height, at }: Field): Distances {
  const squares = new Float64Array(width * height);
  for (let row = 0; row < height; row++) {
    for (let column = 0; column < width; column++) squares[row * width + column] = at(column, row) ? 0 : FAR;
  }
  for (let column = 0; column < width; column++) envelope(squares, column, width, height);
  for (let row = 0; row < height; row++) envelope(squares, row * width, 1, width);
  return { width, height, at: (column, row) => Math.sqrt(squares[row * width + column] ?? FAR) };
}

/** The pixels that are at least so far from the set. */
export function farther({ width, height, at }: Distances, than: number): Field {
  return { width, height, at: (column, row) => at(column, row) >= than };
}

/** Farther than any picture is wide, squared, and small enough to be added up. */
const FAR = 1e12;

/** min over q of (p − q)² + f(q), for the count values that stand `step` apart from `start`. */
function envelope(values: Float64Array, start: number, step: number, count: number): void {
  const f = Float64Array.from({ length: count }, (_, i) => values[start + i * step] ?? FAR);
  const of = (i: number): number => f[i] ?? FAR;
  const roots: number[] = [0];
  const from: number[] = [-Infinity];
  for (let q = 1; q < count; q++) {
    let meet = -Infinity;
    while (roots.length > 0) {
      const p = roots[roots.length - 1] ?? 0;
      meet = (of(q) + q * q - (of(p) + p * p)) / (2 * (q - p));
      if (meet > (from[from.length - 1] ?? -Infinity)) break;
      roots.pop();
      from.pop();
    }
    if (roots.length === 0) meet = -Infinity;
    roots.push(q);
    from.push(meet);
  }
  let k = 0;
  for (let p = 0; p < count; p++) {
    while (k + 1 < roots.length && (from[k + 1] ?? Infinity) < p) k++;
    const q = roots[k] ?? 0;
    values[start + p * step] = (p - q) ** 2 + of(q);
  }
}
