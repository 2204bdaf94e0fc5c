/**
 * `count` numbers from 0 up to 1, the same for the same seed on every machine. The generator is mulberry32
 * (Tommy Ettinger, 2017, public domain), 32-bit whole-number arithmetic throughout.
 */
export function seededUniform(seed: number, count: number): readonly number[] {
  const numbers: number[] = [];
  let state = seed | 0;
  for (let i = 0; i < count; i++) {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    numbers.push(((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32);
  }
  return numbers;
}
