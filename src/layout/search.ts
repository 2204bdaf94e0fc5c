/** The greatest whole number from 1 to `most` that passes, where all below one that passes do too; 0 when none does. */
export function largestThat(most: number, passes: (count: number) => boolean): number {
  let good = 0;
  let bad = most + 1;
  while (bad - good > 1) {
    const middle = Math.floor((good + bad) / 2);
    if (passes(middle)) good = middle;
    else bad = middle;
  }
  return good;
}
