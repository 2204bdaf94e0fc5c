import { describe, expect, test } from 'vitest';
import { tidied } from '../../src/units/tidied.js';

describe('numbers rounded for files', () => {
  test('are rounded at any depth, to a millionth unless said', () => {
    const value = { a: 0.1 + 0.2, list: [1.00000049, { deep: 2 / 3 }] };
    expect(tidied(value)).toEqual({ a: 0.3, list: [1, { deep: 0.666667 }] });
    expect(tidied(value, 1e3)).toEqual({ a: 0.3, list: [1, { deep: 0.667 }] });
  });

  test('are never -0', () => {
    expect(Object.is(tidied(-1e-9), 0)).toBe(true);
    expect(Object.is(tidied([-0])[0], 0)).toBe(true);
  });

  test('leave words, marks and what is missing alone, and the order of keys', () => {
    const value = { z: '0.30000000000000004', b: true, n: null, u: undefined, a: 1 };
    expect(tidied(value)).toEqual(value);
    expect(Object.keys(tidied(value))).toEqual(['z', 'b', 'n', 'u', 'a']);
  });
});
