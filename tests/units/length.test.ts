import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  formatInches,
  formatLength,
  formatMm,
  type LengthTrouble,
  type LengthUnit,
  MM_PER_INCH,
  readLength,
} from '../../src/units/length.js';

const units = fc.constantFrom<LengthUnit>('mm', 'in');

function mm(written: string | number, unit: LengthUnit): number {
  const reading = readLength(written, unit);
  if (!reading.ok) throw new Error(`${written}: ${reading.trouble}`);
  return reading.mm;
}

describe('the inch', () => {
  it('is 25.4 mm exactly (NBS Circular 572, addendum: since 1 July 1959)', () => {
    expect(MM_PER_INCH).toBe(25.4);
    expect(mm('1 in', 'mm')).toBe(25.4);
    expect(mm(1, 'in')).toBe(25.4);
  });

  it('is 2.54 cm, and a point is 1/72 of it, a pixel 1/96 (CSS Values and Units 3, absolute lengths)', () => {
    expect(mm('2.54 cm', 'mm')).toBe(mm('1 in', 'mm'));
    expect(mm('1/72 in', 'mm')).toBeCloseTo(25.4 / 72, 12);
    expect(mm('1/96 in', 'mm')).toBeCloseTo(25.4 / 96, 12);
  });

  it('gives every 64th to the last digit', () => {
    for (let n = 1; n <= 64 * 24; n++) expect(mm(`${n}/64 in`, 'mm')).toBe((n * 254) / 640);
  });
});

describe('reading a length', () => {
  it.each([
    [19, 'mm', 19],
    ['19', 'mm', 19],
    ['19 mm', 'in', 19],
    ['19mm', 'in', 19],
    ['2 cm', 'in', 20],
    ['3/4 in', 'mm', 19.05],
    ['3/4', 'in', 19.05],
    ['3/4in', 'mm', 19.05],
    ['1-3/8"', 'mm', 34.925],
    ['1 3/8 in', 'mm', 34.925],
    ['1-3/8', 'in', 34.925],
    ['1.375', 'in', 34.925],
    [1.375, 'in', 34.925],
    ['.5 inch', 'mm', 12.7],
    ['2 inches', 'mm', 50.8],
    ['1½ in', 'mm', 38.1],
    ['1–3/8″', 'mm', 34.925],
    [' 19  mm ', 'in', 19],
    ['5/4', 'in', 31.75],
    ['-1/2', 'in', -12.7],
    ['0', 'mm', 0],
  ] as const)('reads %j in a file in %s as %d mm', (written, unit, expected) => {
    expect(mm(written, unit)).toBe(expected);
  });

  it.each<[string | number, LengthUnit, LengthTrouble, readonly string[]]>([
    ['', 'in', 'empty', ['3/4', '1-3/8', '19 mm']],
    [Number.NaN, 'mm', 'not-finite', ['19', '19 mm', '3/4 in']],
    [Number.POSITIVE_INFINITY, 'mm', 'not-finite', ['19', '19 mm', '3/4 in']],
    ['-.inf', 'in', 'not-finite', ['3/4', '1-3/8', '19 mm']],
    ['3/4', 'mm', 'fraction-without-unit', ['3/4 in', '0.75 mm']],
    ['1-3/8', 'mm', 'fraction-without-unit', ['1-3/8 in', '1.375 mm']],
    ['1,5', 'mm', 'decimal-comma', ['1.5']],
    ['1,500', 'mm', 'decimal-comma', ['1.500', '1500']],
    ['5 ft 3', 'in', 'feet', ['63 in']],
    ['5\'3"', 'in', 'feet', ['63 in']],
    ['3/0', 'in', 'zero-denominator', ['3/4', '1-3/8', '19 mm']],
    ['1/2/3', 'in', 'two-slashes', ['1/2']],
    ['1-3-8', 'in', 'two-dashes', ['1-3/8']],
    ['3-1-1', 'in', 'two-dashes', ['3/4', '1-3/8', '19 mm']],
    ['1-1.5', 'in', 'decimal-in-fraction', ['3/4', '1-3/8', '19 mm']],
    ['1.5/2', 'in', 'decimal-in-fraction', ['3/4', '1-3/8', '19 mm']],
    ['1-9/8', 'in', 'fraction-over-one', ['1-1/8', '2-1/8']],
    ['1 3', 'in', 'two-numbers', ['1/3', '1.3']],
    ['1 - 3/8', 'in', 'two-numbers', ['1-3/8']],
    ['1e3 mm', 'in', 'exponent', ['1000']],
    ['5 thou', 'in', 'unknown-unit', ['5 mm', '5 in']],
    ['three quarters', 'in', 'not-a-length', ['3/4', '1-3/8', '19 mm']],
    ['19 mm mm', 'in', 'not-a-length', ['3/4', '1-3/8', '19 mm']],
    ['+3', 'in', 'not-a-length', ['3/4', '1-3/8', '19 mm']],
    ['0x10', 'in', 'not-a-length', ['3/4', '1-3/8', '19 mm']],
  ])('refuses %j in a file in %s: %s', (written, unit, trouble, wouldDo) => {
    expect(readLength(written, unit)).toEqual({ ok: false, trouble, read: String(written), wouldDo });
  });

  it('names only texts that do read', () => {
    const pieces = fc.array(
      fc.constantFrom('1', '3', '8', '0', '-', '/', '.', ',', ' ', 'in', 'mm', "'", '"', 'e'),
      {
        maxLength: 9,
      },
    );
    let refusals = 0;
    fc.assert(
      fc.property(pieces, units, (parts, unit) => {
        const reading = readLength(parts.join(''), unit);
        if (reading.ok) return;
        refusals++;
        expect(reading.wouldDo.length).toBeGreaterThan(0);
        for (const text of reading.wouldDo) expect(readLength(text, unit).ok, text).toBe(true);
      }),
      { numRuns: 3000 },
    );
    expect(refusals).toBeGreaterThan(1000);
  });

  it('never throws, hangs or gives a number that is not finite, whatever it is given', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string({ unit: 'binary' }), fc.double()), units, (written, unit) => {
        const reading = readLength(written, unit);
        expect(reading.ok ? Number.isFinite(reading.mm) || Math.abs(Number(written)) > 1e300 : true).toBe(
          true,
        );
      }),
    );
    expect(readLength(' '.repeat(500_000), 'mm').ok).toBe(false);
    expect(readLength('1'.repeat(500_000), 'mm').ok).toBe(false);
  });
});

describe('writing a length', () => {
  it.each([
    [12.7, '12.7 mm (1/2 in)', '1/2 in (12.7 mm)'],
    [34.925, '34.925 mm (1-3/8 in)', '1-3/8 in (34.925 mm)'],
    [25.4, '25.4 mm (1 in)', '1 in (25.4 mm)'],
    [0, '0 mm (0 in)', '0 in (0 mm)'],
    [-12.7, '-12.7 mm (-1/2 in)', '-1/2 in (-12.7 mm)'],
    // 17/64 in is 6.746875 mm; 0.0031 in is 0.07874 mm.
    [6.825615, '6.826 mm (17/64 in + 0.0031)', '17/64 in + 0.0031 (6.826 mm)'],
    [19, '19 mm (3/4 in - 0.002)', '3/4 in - 0.002 (19 mm)'],
    [0.1016, '0.102 mm (0.004 in)', '0.004 in (0.102 mm)'],
  ])('writes %d mm both ways', (value, inMm, inInches) => {
    expect(formatLength(value, 'mm')).toBe(inMm);
    expect(formatLength(value, 'in')).toBe(inInches);
  });

  const lengths = fc.double({ min: -10_000, max: 10_000, noNaN: true });

  it('reads back within half of the last digit written', () => {
    fc.assert(
      fc.property(lengths, units, (value, unit) => {
        expect(Math.abs(mm(formatMm(value), unit) - value)).toBeLessThanOrEqual(0.0005 + 1e-9);
        expect(Math.abs(mm(formatInches(value), unit) - value)).toBeLessThanOrEqual(0.00005 * 25.4 + 1e-9);
      }),
      { numRuns: 2000 },
    );
  });

  it('reads every whole 64th back as itself', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 64 * 400 }), units, (sixtyFourths, unit) => {
        const value = (sixtyFourths * 254) / 640;
        const text = formatInches(value);
        expect(text).not.toMatch(/[+]| - /);
        expect(mm(text, unit)).toBe(value);
      }),
      { numRuns: 2000 },
    );
  });

  it('writes fractions in lowest terms, as on a rule', () => {
    for (let n = 1; n < 64; n++) {
      const [top = 0, bottom = 0] = formatInches((n * 254) / 640)
        .replace(' in', '')
        .split('/')
        .map(Number);
      expect(top % 2).toBe(1);
      expect([2, 4, 8, 16, 32, 64]).toContain(bottom);
      expect(top / bottom).toBe(n / 64);
    }
  });
});
