import fc from 'fast-check';
import { expect, test } from 'vitest';
import { layFingers } from '../../src/layout/fingers/fingers.js';
import { layTails } from '../../src/layout/tails/tails.js';
import { canBeRead } from './laws.js';
import {
  AT,
  listedFingers,
  listedTails,
  type RuledSpacing,
  ruledFingers,
  ruledTails,
} from './random-jobs.js';

const RULED: readonly RuledSpacing[] = ['even', 'graduated', 'mirrored', 'varied'];

test('every finding of random jobs, laid out or refused, can be read aloud', () => {
  const tails = fc.oneof(...RULED.map(ruledTails), listedTails('list'), listedTails('mirrored'));
  const fingers = fc.oneof(...RULED.map(ruledFingers), listedFingers('list'), listedFingers('mirrored'));
  const codes = new Set<string>();
  fc.assert(
    fc.property(tails, fingers, (one, other) => {
      const diagnostics = [
        ...layTails(one.width, one.request, one.bounds, AT).diagnostics,
        ...layFingers(other.width, other.request, other.bounds, AT).diagnostics,
      ];
      canBeRead(diagnostics);
      for (const each of diagnostics) codes.add(each.code);
    }),
    { numRuns: 1000, seed: 11 },
  );
  expect(codes.size).toBeGreaterThan(18);
});
