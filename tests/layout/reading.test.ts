import fc from 'fast-check';
import { expect, test } from 'vitest';
import { layFingers } from '../../src/layout/fingers.js';
import { layTails } from '../../src/layout/tails.js';
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
      const findings = [
        ...layTails(one.width, one.request, one.bounds, AT).findings,
        ...layFingers(other.width, other.request, other.bounds, AT).findings,
      ];
      canBeRead(findings);
      for (const each of findings) codes.add(each.code);
    }),
    { numRuns: 1000, seed: 11 },
  );
  expect(codes.size).toBeGreaterThan(18);
});
