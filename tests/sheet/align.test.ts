import { describe, expect, test } from 'vitest';
import { sentence } from '../../src/diagnostics/catalogue.js';
import { formatterFor } from '../../src/diagnostics/formatter.js';
import { solveJob } from '../../src/outputs/joint.js';
import { inch, readSample, readText } from '../support/jobs.js';

const drawers = (width: string, more = 'align: top') => `
units: in
shop: ./shop.yaml
joints:
  top:
    kind: half-blind-dovetail
    width: 2-1/4
    boards: { tails: { thickness: 1/2 }, pins: { thickness: 3/4 } }
    method: apart
    layout: { pitch: 1, pin: 5/8, end-pin: 7/16 }
    depth: 1/2
    cutter: half-8
    bushing: seven-sixteenths
  next:
    kind: half-blind-dovetail
    width: ${width}
    boards: { tails: { thickness: 1/2 }, pins: { thickness: 3/4 } }
    method: apart
    depth: 1/2
    cutter: half-8
    bushing: seven-sixteenths
    ${more}
`;

describe('drawers that line up', () => {
  test('all five of the cabinet have one pitch and one half-pin at both edges', () => {
    const solved = solveJob(readSample('cabinet.yaml')).flatMap(({ joint, made }) =>
      /^drawer-\d/.test(joint.name) && made ? [made.solved] : [],
    );
    expect(solved).toHaveLength(5);
    for (const { layout, width } of solved) {
      const pins = layout.spans.filter(({ part }) => part === 'pin');
      const tails = layout.spans.filter(({ part }) => part === 'tail');
      expect(pins[0]?.to).toBeCloseTo(inch(13 / 32), 9);
      expect(width - (pins.at(-1)?.from ?? 0)).toBeCloseTo(inch(13 / 32), 9);
      tails.slice(1).forEach((tail, i) => {
        expect(tail.from - (tails[i]?.from ?? 0)).toBeCloseTo(inch(1.25), 9);
      });
      // One over the other, every tail of the small drawer stands over one of the large.
      expect(tails.length).toBe(Math.round((width - inch(1.5)) / inch(1.25)) + 1);
    }
  });

  test('a height that does not suit is refused with those that do', () => {
    const next = solveJob(readText(drawers('3')))[1];
    expect(next?.made).toBeUndefined();
    const said = (next?.diagnostics ?? []).map((one) => sentence(one, formatterFor('in'))).join('\n');
    // 2 · 7/16 + 3/8 + n · 1: 2-1/4 and 3-1/4 lie next to 3.
    expect(said).toMatch(/2-1\/4 in \(57\.15 mm\) and 3-1\/4 in \(82\.55 mm\) would do/);
  });

  test('the joint that leads is another one, is there, and leads itself', () => {
    expect(() => readText(drawers('3-1/4', 'align: next'))).toThrow(/no other joint called "next"/);
    expect(() => readText(drawers('3-1/4', 'align: tap'))).toThrow(/did you mean top\?/);
    expect(() => readText(drawers('3-1/4').replace('width: 2-1/4', 'width: 2-1/4\n    align: next'))).toThrow(
      /itself lined up with/,
    );
  });
});
