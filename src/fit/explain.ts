import { type Equation, leastChange, residuals } from './least-change.js';

/** A set of errors that explains what was measured: how much larger each of some sizes is, mm. */
export interface Explanation<Name extends string> {
  readonly errors: Readonly<Partial<Record<Name, number>>>;
  /** How far it misses each equation. */
  readonly missed: readonly number[];
}

/** Measured to a hundredth, two widths together miss by no more than this, mm (common practice, no source). */
const EXPLAINED = 0.03;

/**
 * The explanations with the fewest errors, the least of them first: one bit that is off explains a loose joint as well
 * as a bushing does, and nobody can tell which without a caliper. Where no number of errors explains everything, the one
 * that misses least. No error at all is an explanation, too.
 */
export function explanationsOf<Name extends string>(
  equations: readonly Equation[],
  names: readonly Name[],
): readonly Explanation<Name>[] {
  for (let count = 0; count <= names.length; count++) {
    const fitting = choices(names.length, count)
      .map((chosen) => explain(equations, names, chosen))
      .filter(({ missed }) => missed.every((miss) => Math.abs(miss) <= EXPLAINED));
    if (fitting.length > 0) return fitting.toSorted((one, other) => sizeOf(one) - sizeOf(other));
  }
  return [explain(equations, names, [...names.keys()])];
}

function explain<Name extends string>(
  equations: readonly Equation[],
  names: readonly Name[],
  chosen: readonly number[],
): Explanation<Name> {
  const few = equations.map(({ coefficients, value }) => ({
    coefficients: chosen.map((index) => coefficients[index] ?? 0),
    value,
  }));
  const found = leastChange(few, chosen.length);
  const errors: Partial<Record<Name, number>> = {};
  for (const [place, index] of chosen.entries()) {
    const name = names[index];
    if (name !== undefined) errors[name] = found[place] ?? 0;
  }
  return { errors, missed: residuals(few, found) };
}

function sizeOf({ errors }: Explanation<string>): number {
  const sum = Object.values(errors).reduce<number>((total, error) => total + (error ?? 0) ** 2, 0);
  // Sizes that differ in the last decimals are the same.
  return Math.round(Math.sqrt(sum) * 1000);
}

/** Every way to choose so many of `from` places, in their order. */
function choices(from: number, count: number, first = 0): readonly (readonly number[])[] {
  if (count === 0) return [[]];
  return Array.from({ length: Math.max(0, from - first) }, (_, i) => first + i).flatMap((one) =>
    choices(from, count - 1, one + 1).map((rest) => [one, ...rest]),
  );
}
