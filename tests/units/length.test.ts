import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  formatInches,
  formatLength,
  formatMm,
  LENGTH_PATTERN,
  type LengthProblem,
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

/** A number in a spelling of it, with its value. */
const decimals = fc
  .record({ number: fc.integer({ min: 1, max: 9_999_999 }), places: fc.integer({ min: 0, max: 4 }) })
  .chain(({ number, places }) => {
    const value = number / 10 ** places;
    const text = value.toFixed(places);
    return fc
      .constantFrom(text, text.replace('.', ','), `${value.toExponential()}`, text.replace(/^0\./, '.'))
      .map((spelling) => ({ spelling, value, fraction: false }));
  });

const fractions = fc
  .record({
    whole: fc.integer({ min: 0, max: 30 }),
    bottom: fc.constantFrom(2, 4, 8, 16, 32, 64),
    part: fc.double({ min: 0, max: 0.999, noNaN: true }),
  })
  .chain(({ whole, bottom, part }) => {
    const top = 1 + Math.floor(part * (bottom - 1));
    const value = whole + top / bottom;
    const of = (between: string, slash: string) =>
      `${whole === 0 ? '' : `${whole}${between}`}${top}${slash}${bottom}`;
    const signs: Readonly<Record<string, string>> = {
      '1/2': '½',
      '1/4': '¼',
      '3/4': '¾',
      '1/8': '⅛',
      '3/8': '⅜',
      '5/8': '⅝',
      '7/8': '⅞',
    };
    const sign = signs[`${top}/${bottom}`];
    return fc
      .constantFrom(
        of(' ', '/'),
        of('-', '/'),
        of('–', '/'),
        of(' - ', '/'),
        of(' ', '⁄'),
        of(' ', ' / '),
        // As people write it who have no slash in mind, and one more whole in the fraction.
        ...(whole === 0 ? [] : [of('-', '-'), `${whole}-${top + bottom}/${bottom}`]),
        ...(sign === undefined ? [] : [`${whole || ''}${sign}`]),
      )
      .map((spelling) => ({
        spelling,
        value: spelling.endsWith(`${top + bottom}/${bottom}`) ? value + 1 : value,
        fraction: true,
      }));
  });

const written = fc.oneof(decimals, fractions);

/** Texts as people type lengths, with what each means in a file's units. */
const spelled = fc.oneof(
  fc
    .record({
      number: written,
      unit: fc.constantFrom(
        '',
        'mm',
        'cm',
        'm',
        'in',
        'inch',
        'inches',
        '"',
        '″',
        "''",
        'ft',
        "'",
        'feet',
        'IN',
        'in.',
      ),
      space: fc.constantFrom('', ' '),
      sign: fc.constantFrom('', '', '', '-'),
    })
    .map(({ number, unit, space, sign }) => ({
      text: `${sign}${number.spelling}${unit === '' ? '' : space}${unit}`,
      meant: (units: LengthUnit) =>
        (sign === '-' ? -1 : 1) *
        number.value *
        // A bare fraction is inches on a rule.
        (mmOf[unit.toLowerCase()] ?? (number.fraction || units === 'in' ? 25.4 : 1)),
    })),
  fc
    .record({
      feet: fc.integer({ min: 0, max: 20 }),
      inches: written,
      marks: fc.constantFrom<readonly [string, string]>(
        ["'", '"'],
        ["' ", '"'],
        [' ft ', ' in'],
        ['′-', '″'],
        ["' ", ''],
        [' feet ', ' inches'],
      ),
    })
    .map(({ feet, inches, marks: [foot, inch] }) => ({
      text: `${feet}${foot}${inches.spelling}${inch}`,
      meant: () => (feet * 12 + inches.value) * 25.4,
    })),
);

const mmOf: Readonly<Record<string, number>> = {
  mm: 1,
  cm: 10,
  m: 1000,
  in: 25.4,
  'in.': 25.4,
  inch: 25.4,
  inches: 25.4,
  '"': 25.4,
  '″': 25.4,
  "''": 25.4,
  ft: 304.8,
  feet: 304.8,
  "'": 304.8,
};

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

  it.each([
    ['5/8"', 15.875],
    ['5⁄8 in', 15.875],
    ['⅝"', 15.875],
    ['1 1/2 in', 38.1],
    ['1-1/2 in', 38.1],
    ['19,05 mm', 19.05],
    ['0,125 in', 3.175],
    ['1\' 6"', 457.2],
    ["1' 6", 457.2],
    ['1′-6½″', 469.9],
    ['1 ft 6 in', 457.2],
    ['1/2 ft', 152.4],
    ["1-1/2'", 457.2],
    ['1.5 feet', 457.2],
    ['0.3 m', 300],
    ['0,3m', 300],
    ['8.9e1 mm', 89],
    ['1e-2 in', 0.254],
    ['+3 mm', 3],
  ])('takes %j as people type it: %d mm', (written, expected) => {
    for (const unit of ['mm', 'in'] as const) expect(mm(written, unit)).toBeCloseTo(expected, 9);
  });

  it.each<[string | number, LengthUnit, LengthProblem, readonly string[]]>([
    ['', 'in', 'empty', []],
    [Number.NaN, 'mm', 'not-finite', []],
    [Number.POSITIVE_INFINITY, 'mm', 'not-finite', []],
    [1e308, 'in', 'not-finite', []],
    ['1e308 in', 'mm', 'not-finite', []],
    ['1e999', 'mm', 'not-finite', []],
    ['-.inf', 'in', 'not-finite', []],
    ['3/4', 'mm', 'fraction-without-unit', ['3/4 in']],
    ['-1-3/8', 'mm', 'fraction-without-unit', ['-1-3/8 in']],
    ['1,500', 'mm', 'comma-unclear', []],
    ['1.500,5 mm', 'mm', 'comma-unclear', []],
    ['3/0', 'in', 'zero-denominator', []],
    ['1/2/3', 'in', 'two-slashes', []],
    ['1-3-8', 'in', 'two-dashes', ['1-3/8 in']],
    ['3-1-1', 'in', 'two-dashes', []],
    ['1-1.5', 'in', 'decimal-in-fraction', []],
    ['1.5/2', 'in', 'decimal-in-fraction', []],
    ['1-9/8', 'in', 'fraction-over-one', ['2-1/8 in']],
    ['1 3', 'in', 'two-numbers', []],
    ['1 - 3/8', 'in', 'two-numbers', ['1-3/8 in']],
    ['5 thou', 'in', 'unknown-unit', []],
    ['three quarters', 'in', 'not-a-length', []],
    ['19 mm mm', 'in', 'not-a-length', []],
    ["1' 6 mm", 'in', 'not-a-length', []],
    ['0x10', 'in', 'not-a-length', []],
  ])('refuses %j in a file in %s: %s', (written, unit, trouble, wouldDo) => {
    expect(readLength(written, unit)).toEqual({ ok: false, trouble, read: String(written), wouldDo });
  });

  it('gives the length that was meant, or refuses and offers that length or none', () => {
    let taken = 0;
    fc.assert(
      fc.property(spelled, units, ({ text, meant }, unit) => {
        const length = meant(unit);
        const reading = readLength(text, unit);
        if (reading.ok) {
          taken++;
          expect(reading.mm).toBeCloseTo(length, 6);
        } else for (const hint of reading.wouldDo) expect(mm(hint, unit), hint).toBeCloseTo(length, 6);
        // What editors are told agrees, but for a fraction's unit and value.
        if (reading.ok && !text.startsWith('-')) expect(text).toMatch(new RegExp(LENGTH_PATTERN, 'u'));
      }),
      { numRuns: 5000 },
    );
    expect(taken).toBeGreaterThan(3500);
  });

  it('names only texts that do read', () => {
    const pieces = fc.array(
      fc.constantFrom('1', '3', '8', '0', '-', '/', '.', ',', ' ', 'in', 'mm', 'ft', "'", '"', 'e'),
      { maxLength: 9 },
    );
    let refusals = 0;
    fc.assert(
      fc.property(pieces, units, (parts, unit) => {
        const reading = readLength(parts.join(''), unit);
        if (reading.ok) return;
        refusals++;
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
