/** Median time of some calls in ms, after a few that are not counted. */
export function medianTime(count: number, call: () => void, warmUp = Math.ceil(count / 5)): number {
  for (let index = 0; index < warmUp; index += 1) call();
  const times = Array.from({ length: count }, () => {
    const start = performance.now();
    call();
    return performance.now() - start;
  });
  return median(times);
}

export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = Math.floor(sorted.length / 2);
  const upper = sorted[middle] ?? Number.NaN;
  return sorted.length % 2 === 1 ? upper : (upper + (sorted[middle - 1] ?? Number.NaN)) / 2;
}

export function row(name: string, value: number, unit: string, note = ''): void {
  console.log(
    `  ${name.padEnd(44)}${value.toFixed(value < 10 ? 2 : 1).padStart(9)} ${unit.padEnd(6)} ${note}`.trimEnd(),
  );
}
