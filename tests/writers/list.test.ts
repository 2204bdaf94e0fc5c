import { describe, expect, test } from 'vitest';
import { loadWriter } from '../../src/writers/list.js';
import { colours, small } from '../drawing/fixture.js';

describe('the list of writers', () => {
  test.each(['svg', 'dxf'] as const)('%s is loaded under its name and writes a drawing', async (format) => {
    const writer = await loadWriter(format);
    expect(writer.format).toBe(format);
    expect(writer.extension).toBe(format);
    expect((await writer.write(small, { colours })).length).toBeGreaterThan(100);
  });
});
