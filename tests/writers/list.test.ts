import { describe, expect, test } from 'vitest';
import { formats, isFormat, loadWriter } from '../../src/writers/list.js';
import { colours, small } from '../drawing/fixture.js';

describe('the list of writers', () => {
  test.each(['svg', 'dxf'] as const)('%s is loaded under its name and writes a drawing', async (format) => {
    const writer = await loadWriter(format);
    expect(writer.format).toBe(format);
    expect(writer.extension).toBe(format);
    expect((await writer.write(small, { colours })).length).toBeGreaterThan(100);
  });

  test('knows its names and no others', () => {
    for (const one of formats) expect(isFormat(one)).toBe(true);
    for (const one of ['', 'SVG', 'toString', '__proto__', 'constructor']) expect(isFormat(one)).toBe(false);
  });
});
