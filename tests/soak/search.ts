import fc from 'fast-check';

/** Something that halfpin does wrong, with the smallest value found that shows it. */
export interface Failure<T> {
  readonly value: T;
  readonly trouble: string;
  readonly seed: number;
}

/** A search goes on after a failure, for there may be others; it ends when it has found so many. */
const mostFailures = 12;

/** Making a failure small may take this long, ms; what is slow would otherwise be tried for hours. */
const SHRINK_WITHIN = 120_000;

/**
 * Tries values drawn from a seed and gives the failures, each shrunk. `troubleWith` says what is wrong with a
 * value; what it throws is wrong too.
 */
export async function search<T>(
  values: fc.Arbitrary<T>,
  troubleWith: (value: T) => Promise<string | undefined> | string | undefined,
  count: number,
  seed: number,
): Promise<readonly Failure<T>[]> {
  const failures: Failure<T>[] = [];
  let tried = 0;
  for (let next = seed; tried < count && failures.length < mostFailures; next += 1) {
    let last: string | undefined;
    let smallEnoughAt = Number.POSITIVE_INFINITY;
    const property = fc.asyncProperty(values, async (value) => {
      // What is not tried any more counts as sound, so the smallest failure by now stays. A check that is
      // interrupted from outside would leave a command running beside the next one.
      if (performance.now() > smallEnoughAt) return;
      const trouble = await caught(() => troubleWith(value));
      if (trouble === undefined) return;
      if (last === undefined) smallEnoughAt = performance.now() + SHRINK_WITHIN;
      last = trouble;
      throw new Error(trouble);
    });
    const { failed, counterexample, numRuns } = await fc.check(property, {
      numRuns: count - tried,
      seed: next,
      verbose: 0,
    });
    tried += numRuns;
    if (failed && counterexample)
      failures.push({ value: counterexample[0], trouble: last ?? '', seed: next });
  }
  return failures;
}

async function caught(call: () => Promise<string | undefined> | string | undefined) {
  try {
    return await call();
  } catch (error) {
    return error instanceof Error ? (error.stack ?? error.message) : String(error);
  }
}
