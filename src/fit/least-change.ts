/** One equation in the errors x: coefficients · x = value. */
export interface Equation {
  readonly coefficients: readonly number[];
  readonly value: number;
}

/** So small beside the coefficients, which are near 1, that it only decides what the equations leave open. */
const RIDGE = 1e-9;

/**
 * The smallest errors that explain all equations as well as anything can: the x of least length among those of
 * least squared residual, x = (AᵀA + εI)⁻¹Aᵀb with ε → 0 (Tikhonov; any text on least squares). Values in mm.
 */
export function leastChange(equations: readonly Equation[], count: number): readonly number[] {
  const rows = Array.from({ length: count }, (_, i) => [
    ...Array.from(
      { length: count },
      (_, j) =>
        equations.reduce((sum, { coefficients }) => sum + at(coefficients, i) * at(coefficients, j), 0) +
        (i === j ? RIDGE : 0),
    ),
    equations.reduce((sum, { coefficients, value }) => sum + at(coefficients, i) * value, 0),
  ]);
  return eliminate(rows);
}

/** How far the errors miss each equation. */
export function residuals(equations: readonly Equation[], errors: readonly number[]): readonly number[] {
  return equations.map(
    ({ coefficients, value }) => value - coefficients.reduce((sum, c, i) => sum + c * at(errors, i), 0),
  );
}

/** Gauss–Jordan elimination with the largest pivot; the matrix is positive definite. */
function eliminate(given: readonly (readonly number[])[]): readonly number[] {
  const rows = given.map((row) => [...row]);
  const count = rows.length;
  for (let column = 0; column < count; column++) {
    const best = rows
      .map((row, index) => ({ index, size: index < column ? -1 : Math.abs(at(row, column)) }))
      .reduce((most, one) => (one.size > most.size ? one : most));
    const pivot = rows[best.index] ?? [];
    rows[best.index] = rows[column] ?? [];
    rows[column] = pivot.map((value) => value / at(pivot, column));
    const unit = rows[column] ?? [];
    for (const [index, row] of rows.entries()) {
      if (index !== column) rows[index] = row.map((value, j) => value - at(row, column) * at(unit, j));
    }
  }
  return rows.map((row) => at(row, count));
}

function at(row: readonly number[], index: number): number {
  return row[index] ?? 0;
}
