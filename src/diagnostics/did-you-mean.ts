/**
 * The candidate that a mistyped word most likely stands for, or nothing when none is near. Case, hyphens,
 * underscores and spaces do not count; one slip is let pass in a short word, one for every three letters
 * in a longer one. The start of a candidate is near it, too: `straight` for `straight-38`.
 */
export function didYouMean(word: string, candidates: readonly string[]): string | undefined {
  if (word.length > LONGEST) return undefined;
  const plain = bare(word);
  const most = Math.max(1, Math.floor(plain.length / 3));
  const ranked = candidates
    .map((candidate) => ({ candidate, slips: slipsBetween(plain, bare(candidate)) }))
    .filter(({ slips }) => slips <= most)
    .sort((one, other) => one.slips - other.slips);
  return (
    ranked[0]?.candidate ?? (plain.length < 2 ? undefined : candidates.find((one) => beginsAlike(one, plain)))
  );
}

/** Nobody mistypes a longer word; whatever it is, measuring it would take long. */
const LONGEST = 60;

/**
 * Edit distance: the fewest letters put in, left out, changed, or swapped with their neighbour, that turn one
 * word into the other (the optimal string alignment distance, as in any text on approximate matching).
 */
export function slipsBetween(one: string, other: string): number {
  let before: readonly number[] = [];
  let above: readonly number[] = Array.from({ length: other.length + 1 }, (_, j) => j);
  for (let i = 1; i <= one.length; i++) {
    const row = [i];
    for (let j = 1; j <= other.length; j++) {
      const change = at(above, j - 1) + (one[i - 1] === other[j - 1] ? 0 : 1);
      const swapped = i > 1 && j > 1 && one[i - 1] === other[j - 2] && one[i - 2] === other[j - 1];
      const swap = swapped ? at(before, j - 2) + 1 : Infinity;
      row.push(Math.min(at(row, j - 1) + 1, at(above, j) + 1, change, swap));
    }
    before = above;
    above = row;
  }
  return at(above, other.length);
}

function at(row: readonly number[], index: number): number {
  return row[index] ?? Infinity;
}

function bare(word: string): string {
  return word.toLowerCase().replace(/[-_ ]/g, '');
}

function beginsAlike(candidate: string, plain: string): boolean {
  const other = bare(candidate);
  return other.startsWith(plain) || (other.length >= 2 && plain.startsWith(other));
}
