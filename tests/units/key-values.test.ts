import { expect, test } from 'vitest';
import { keyValues } from '../../src/units/key-values.js';

test.each([
  [
    ['bit=0.02mm', 'angle=0.1'],
    ['bit=0.02mm', 'angle=0.1'],
  ],
  [
    ['bit', '=', '0.02', 'mm', 'kerf=', '0.05mm'],
    ['bit=0.02 mm', 'kerf=0.05mm'],
  ],
  [
    ['gap = 0.3 mm', 'proud-tails', '=0.1'],
    ['gap=0.3 mm', 'proud-tails=0.1'],
  ],
  [['socket-2=3-1/2'], ['socket-2=3-1/2']],
  [
    ['angle=steep', 'depth'],
    ['angle=steep', 'depth'],
  ],
  [['bit'], ['bit']],
  [[], []],
] as const)('%j is typed for %j', (typed, meant) => {
  expect(keyValues(typed)).toEqual(meant);
});
