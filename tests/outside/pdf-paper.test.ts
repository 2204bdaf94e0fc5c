import { describe, expect, test } from 'vitest';
import { paperSize } from '../../shared/paper.js';
import { readPdf } from '../writers/pdf-read.js';
import { options, plate, printed } from '../writers/pdf-samples.js';

/**
 * Page boxes in points. ISO 32000-1, Table 30: the default unit of user space is 1/72 in. CSS Values and Units 3:
 * 1 in = 72 pt = 2.54 cm. Sizes of A5, A4, A3 in mm and of letter, legal, ledger in inches: CSS Paged Media 3.
 * Figures in points for A4, A3, Letter and Tabloid as usually published, to 1/10 000; the others multiplied out.
 */
const boxes: Readonly<Record<string, readonly [number, number]>> = {
  a5: [(148 / 25.4) * 72, (210 / 25.4) * 72],
  a4: [595.2756, 841.8898],
  a3: [841.8898, 1190.5512],
  letter: [612, 792],
  legal: [8.5 * 72, 14 * 72],
  tabloid: [792, 1224],
  ledger: [792, 1224],
};

describe('page boxes', () => {
  test.each(Object.entries(boxes))('%s', async (name, [short, long]) => {
    for (const drawing of [plate(60, 100), plate(130, 60)]) {
      const { pages } = await readPdf(await printed(drawing, options({ name })));
      const [page] = pages;
      const edges = [page?.width ?? 0, page?.height ?? 0].sort((a, b) => a - b);
      expect(Math.abs((edges[0] ?? 0) - short)).toBeLessThan(1e-4);
      expect(Math.abs((edges[1] ?? 0) - long)).toBeLessThan(1e-4);
    }
  });

  test('paper of one own size, however it is given', async () => {
    expect(paperSize({ width: 500, height: 300 })).toEqual({ width: 300, height: 500 });
    const { pages } = await readPdf(await printed(plate(60, 100), options({ width: 500, height: 300 })));
    expect(pages[0]?.width).toBeCloseTo((300 / 25.4) * 72, 3);
    expect(pages[0]?.height).toBeCloseTo((500 / 25.4) * 72, 3);
  });
});
