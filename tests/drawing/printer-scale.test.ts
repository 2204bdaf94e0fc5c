import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { paperNames, paperSize } from '../../shared/paper.js';
import { readBar } from '../../src/drawing/tiling/printer-scale.js';
import { scalePage } from '../../src/drawing/tiling/scale-page.js';
import { tileDrawing } from '../../src/drawing/tiling/tiling.js';

const bars = [20, 50, 100, 150, 200, 250];

describe('a measured bar', () => {
  test('gives the factor that makes the next page true, whatever the printer and the factor of this page', () => {
    const printed = fc.record({
      bar: fc.constantFrom(...bars),
      printer: fc.double({ min: 0.96, max: 1.04, noNaN: true }),
      made: fc.double({ min: 0.97, max: 1.03, noNaN: true }),
    });
    let read = 0;
    fc.assert(
      fc.property(printed, ({ bar, printer, made }) => {
        const result = readBar(bar * made * printer, made, '--x');
        if (!result.ok) {
          expect(Math.abs(made * printer - 1)).toBeGreaterThan(0.05);
          return;
        }
        read += 1;
        expect(result.value.nominal).toBe(bar);
        // The next page: bar × new factor × printer. Rounding of the factor costs at most half a step.
        expect(Math.abs(bar * result.value.factor * printer - bar)).toBeLessThanOrEqual(
          bar * 1.04 * 0.5e-5 + 1e-9,
        );
      }),
      { numRuns: 300, seed: 3 },
    );
    expect(read).toBeGreaterThan(200);
  });

  test('by hand: 150 mm that came out at 149.6 wants 150 / 149.6', () => {
    expect(readBar(149.6, 1, '--x')).toMatchObject({ ok: true, value: { factor: 1.00267 }, diagnostics: [] });
  });

  test('over 5 % out is none, over 1 % is a caution', () => {
    for (const bar of bars) {
      expect(readBar(bar * 1.051, 1, '--x')).toMatchObject({
        ok: false,
        diagnostics: [{ code: 'bar-unknown', at: '--x' }],
      });
      expect(readBar(bar * 0.949, 1, '--x').ok).toBe(false);
      expect(readBar(bar * 0.96, 1, '--x')).toMatchObject({
        ok: true,
        diagnostics: [{ code: 'bar-far-off', level: 'caution' }],
      });
      expect(readBar(bar * 0.995, 1, '--x').diagnostics).toEqual([]);
    }
  });
});

describe('the scale-check page', () => {
  const plain = { margin: 10, scaleX: 1, scaleY: 1 };

  test.each(paperNames)(
    'is one page on %s, with a bar along both edges and a way to give what was measured',
    (name) => {
      const size = paperSize({ name });
      if (!size) throw new Error(name);
      for (const options of [plain, { ...plain, scaleX: 1.02, scaleY: 0.99 }]) {
        const { drawing, frame } = scalePage(size, options);
        expect(tileDrawing(drawing, size, options).pages).toHaveLength(1);
        expect(frame.barX?.length).toBeGreaterThanOrEqual(100);
        expect(frame.barY?.length).toBeGreaterThanOrEqual(100);
        const words = drawing.items.flatMap((item) => (item.kind === 'text' ? [item.text] : [])).join(' ');
        expect(words).toContain('halfpin printer set SHOP');
        expect(words).toContain(options === plain ? '--page plain' : '--page corrected');
        expect(frame.instructionLines.join(' ').includes('Made for a printer')).toBe(options !== plain);
      }
    },
  );
});
