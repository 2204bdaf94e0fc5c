import { describe, expect, it } from 'vitest';
import { codesOf, inch, makeDxf, readText, solveOnly } from '../support/jobs.js';
import { crossingsAt, plateOutline } from '../support/read-plate.js';

/** Facts of the trade about through dovetails and box joints. All of them: common practice, no source. */

const job = (joint: string, plate = '1/2') => `
title: Facts of the trade
units: in
shop:
  bits:
    three-quarter: { kind: dovetail, diameter: 3/4, angle: 8, height: 13/16, shank: 1/2 }
    half-dovetail: { kind: dovetail, diameter: 1/2, angle: 8, height: 1/2, shank: 1/4 }
    half-straight: { kind: straight, diameter: 1/2, height: 1-1/4, shank: 1/2 }
    quarter-straight: { kind: straight, diameter: 1/4, height: 3/4, shank: 1/4 }
  bushings:
    five-eighths: { outside: 5/8, bore: 9/16, barrel: 5/32 }
  plate: { material: plywood, thickness: ${plate}, least-finger: 3/16 }
joints:
  it:
${joint}
`;

const box = (thickness = '1/2') => `
    kind: box
    width: 3-1/2
    boards: { one: { thickness: ${thickness} }, two: { thickness: ${thickness} } }
    layout: { spacing: even, finger: 1/2 }
    cutter: half-straight
    bushing: five-eighths
    fit: { slack: 0 }
`;

const through = (bit: string, thickness: string, layout: string) => `
    kind: through-dovetail
    width: 7
    boards: { tails: { thickness: 1/2 }, pins: { thickness: ${thickness} } }
    layout: ${layout}
    cutters: { tails: ${bit}, pins: half-straight }
    bushing: five-eighths
`;

const wallsUnder = async (text: string, path: string, y: number, width: number) => {
  const dxf = (await makeDxf(readText(text))).get(path) ?? '';
  return crossingsAt(plateOutline(dxf), y).filter((x) => x > 0 && x < width);
};

describe('facts of the trade (common practice, no source)', () => {
  it('a 5/8 in bushing and a 1/2 in straight bit set the cut edge 1/16 in off the finger', async () => {
    const [wall] = await wallsUnder(job(box()), 'it/finger-template-one.dxf', -6, inch(3.5));
    // Board one keeps the first half inch; its finger on the template is a sixteenth short of that.
    expect(inch(1 / 2) - (wall ?? 0)).toBeCloseTo(inch(1 / 16), 6);
  });

  it('half-inch fingers leave 3/8 in fingers on the template with that bushing', async () => {
    const walls = await wallsUnder(job(box()), 'it/finger-template-one.dxf', -6, inch(3.5));
    expect((walls[3] ?? 0) - (walls[2] ?? 0)).toBeCloseTo(inch(1 / 2 + 1 / 8), 6);
    expect((walls[2] ?? 0) - (walls[1] ?? 0)).toBeCloseTo(inch(3 / 8), 6);
  });

  it.each([
    ['1/2', 1 / 2],
    ['1/4', 1 / 4],
  ])('the bit stands out by the mating stock and the %s in template', (plate, thickness) => {
    const { made } = solveOnly(readText(job(box('7/16'), plate)));
    for (const cut of made?.report.cuts ?? []) {
      expect(cut.bitExtension).toBeCloseTo(inch(7 / 16 + thickness), 5);
    }
    expect(made?.report.cuts.length).toBe(2);
  });

  it.each([
    ['three-quarter', '13/16', true],
    ['three-quarter', '7/8', false],
    ['half-dovetail', '1/2', true],
    ['half-dovetail', '9/16', false],
  ])('the %s bit in stock of %s: %s', (bit, thickness, serves) => {
    const outcome = solveOnly(readText(job(through(bit, thickness, '{ spacing: even, tails: 3 }'))));
    expect(codesOf(outcome, 'refused').includes('bit-short')).toBe(!serves);
    expect(outcome.made !== undefined).toBe(serves);
  });

  it('an end slot 7/16 in from the edge leaves a half-pin of 1/2 in: more than half a full pin', async () => {
    const text = job(through('three-quarter', '3/4', '{ spacing: even, tails: 3, pin: 3/4, end-pin: 1/2 }'));
    const [wall] = await wallsUnder(text, 'it/finger-template-tails.dxf', -6, inch(7));
    expect(wall).toBeCloseTo(inch(7 / 16), 6);
    const spans = solveOnly(readText(text)).made?.solved.layout.spans ?? [];
    const [halfPin, , pin] = spans.map(({ from, to }) => to - from);
    expect(halfPin).toBeCloseTo(inch(1 / 2), 9);
    expect(halfPin).toBeGreaterThan((pin ?? 0) / 2);
  });
});
