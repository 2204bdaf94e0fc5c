import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { didYouMean, slipsBetween } from '../../src/diagnostics/did-you-mean.js';

describe('slips between two words', () => {
  it.each([
    ['', '', 0],
    ['', 'pin', 3],
    ['pin', 'pin', 0],
    // Levenshtein's own often quoted pair, and swaps as one slip (optimal string alignment).
    ['kitten', 'sitting', 3],
    ['widht', 'width', 1],
    ['ca', 'abc', 3],
    ['spacing', 'spcing', 1],
  ])('%s and %s: %d', (one, other, slips) => expect(slipsBetween(one, other)).toBe(slips));

  it('are the same both ways, none only for equal words, and never more than the longer word', () => {
    const word = fc.string({ maxLength: 12, unit: fc.constantFrom('a', 'b', 'c') });
    fc.assert(
      fc.property(word, word, (one, other) => {
        const slips = slipsBetween(one, other);
        expect(slips).toBe(slipsBetween(other, one));
        expect(slips === 0).toBe(one === other);
        expect(slips).toBeLessThanOrEqual(Math.max(one.length, other.length));
        expect(slips).toBeGreaterThanOrEqual(Math.abs(one.length - other.length));
      }),
    );
  });
});

describe('did you mean', () => {
  const keys = ['width', 'boards', 'layout', 'cutters', 'bushing', 'end-pin', 'least-pin', 'straight-38'];

  it.each([
    ['widht', 'width'],
    ['Width', 'width'],
    ['endPin', 'end-pin'],
    ['end_pin', 'end-pin'],
    ['bushings', 'bushing'],
    ['cutter', 'cutters'],
    ['straight', 'straight-38'],
    ['straight38', 'straight-38'],
  ])('%s: %s', (word, meant) => expect(didYouMean(word, keys)).toBe(meant));

  it('says nothing where nothing is near', () => {
    for (const word of ['colour', '', 'x', '七', 'w'.repeat(100_000)])
      expect(didYouMean(word, keys)).toBeUndefined();
    expect(didYouMean('width', [])).toBeUndefined();
  });

  it('knows a word with one letter left out', () => {
    fc.assert(
      fc.property(fc.constantFrom(...keys), fc.nat(20), (key, at) => {
        const index = at % key.length;
        expect(didYouMean(key.slice(0, index) + key.slice(index + 1), keys)).toBe(key);
      }),
    );
  });
});
