import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatDegrees, formatSlope, readDegrees, readSlope } from '../../src/units/angle.js';

function radians(reading: ReturnType<typeof readSlope>): number {
  if (!reading.ok) throw new Error(reading.read);
  return reading.radians;
}

const degreesOf = (angle: number) => (angle * 180) / Math.PI;

describe('slopes', () => {
  // Noyes, Handwork in Wood, 1910, pp. 164–166: a slope triangle of 3 by 5/8 in; the rest is arc tangent tables.
  it.each([
    ['0.625:3', 11.768],
    ['1:4.8', 11.768],
    ['1:5', 11.31],
    ['1:6', 9.462],
    ['1:7', 8.13],
    ['1:8', 7.125],
  ])('%s is %d degrees', (slope, degrees) => {
    expect(degreesOf(radians(readSlope(slope)))).toBeCloseTo(degrees, 3);
  });

  it('may be degrees', () => {
    for (const text of ['8', 8, '8°', '8 deg', '8 degrees', '8,0', '0.8e1']) {
      expect(radians(readSlope(text))).toBeCloseTo((8 * Math.PI) / 180, 12);
    }
  });

  it('says how to write what is unclear', () => {
    expect(readSlope('1/8')).toEqual({ ok: false, read: '1/8', wouldDo: ['1:8'] });
    expect(readSlope('1 in 8')).toEqual({ ok: false, read: '1 in 8', wouldDo: ['1:8'] });
    expect(readSlope('8:0')).toEqual({ ok: false, read: '8:0', wouldDo: [] });
    expect(readSlope('steep')).toEqual({ ok: false, read: 'steep', wouldDo: [] });
    expect(readDegrees('1:8')).toEqual({ ok: false, read: '1:8', wouldDo: ['1:8'] });
    for (const value of [Number.NaN, Number.POSITIVE_INFINITY, '1e999', '0x8', '8 8', '1:8:2', '1:0', '']) {
      expect(readSlope(value).ok, String(value)).toBe(false);
    }
  });

  it('reads back what it writes', () => {
    fc.assert(
      fc.property(fc.double({ min: 1, max: 44, noNaN: true }), (degrees) => {
        const angle = (degrees * Math.PI) / 180;
        expect(degreesOf(radians(readDegrees(formatDegrees(angle))))).toBeCloseTo(degrees, 2);
        // A hundredth in n of 1:n turns the line by sin² of the angle times a hundredth.
        expect(Math.abs(radians(readSlope(formatSlope(angle))) - angle)).toBeLessThan(
          0.0051 * Math.sin(angle) ** 2,
        );
      }),
    );
  });
});
