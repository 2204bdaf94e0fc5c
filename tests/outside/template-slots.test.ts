import { describe, expect, it } from 'vitest';
import { inch, makeDxf, readText, solveOnly } from '../support/jobs.js';
import { crossingsAt, plateOutline } from '../support/read-plate.js';

/**
 * Where the guiding edges of a written template stand, read back by dxf-parser and compared with the formulas
 * of "Geometry of the joints" (src/joints/README.md) worked out here by hand, to a thousandth of a millimetre.
 */
const MICRON = 0.001;

const shop = `
shop:
  bits:
    # Its edge ends where the plate begins: a taller one would cut the plate.
    eleven: { kind: dovetail, diameter: 11/16, angle: 8, height: 3/4, shank: 1/4 }
    three-eighths: { kind: straight, diameter: 3/8, height: 3/4, shank: 1/4 }
    half: { kind: straight, diameter: 1/2, height: 3/4, shank: 1/4 }
  bushings:
    seven-sixteenths: { outside: 7/16, bore: 3/8, barrel: 5/32 }
    five-eighths: { outside: 5/8, bore: 17/32, barrel: 5/32 }
  plate: { material: plywood, thickness: 1/2, least-finger: 3/16 }
`;

const through = (slack = '0') => `
title: A worked case
units: in
${shop}
joints:
  corner:
    kind: through-dovetail
    width: 5-1/4
    boards: { tails: { thickness: 3/4 }, pins: { thickness: 3/4 } }
    layout: { spacing: list, spans: [7/16, 5/8, 11/16, 1-3/4, 11/16, 5/8, 7/16] }
    cutters: { tails: eleven, pins: three-eighths }
    bushing: seven-sixteenths
    fit: { slack: ${slack} }
    template: { nose: 10 mm }
`;

const k = Math.tan((8 * Math.PI) / 180);
const cos = Math.cos((8 * Math.PI) / 180);
const D = inch(11 / 16);
const d = inch(3 / 8);
const B = inch(7 / 16);
const t = inch(3 / 4);
/** Boundaries of the spans at the baseline. */
const x = [7 / 16, 17 / 16, 28 / 16, 56 / 16, 67 / 16, 77 / 16].map(inch);

/** A numbered boundary; a missing one is a mistake in this test. */
const at = (i: number): number => {
  const found = x[i];
  if (found === undefined) throw new Error(`no boundary ${i}`);
  return found;
};

function expectNear(found: readonly number[], wanted: readonly number[]): void {
  expect(found.length).toBe(wanted.length);
  for (const [i, value] of wanted.entries())
    expect(Math.abs((found[i] ?? Number.NaN) - value)).toBeLessThan(MICRON);
}

/** Walls that stand under the board; the rest is the run off its edges and the plate's own sides. */
const wallsAt = (dxf: string, y: number, width: number) =>
  crossingsAt(plateOutline(dxf), y).filter((one) => one > 0 && one < width);

describe('through dovetail, the worked case', () => {
  it('opens the tail template for [x_left − (B − D)/2, x_right + (B − D)/2]', async () => {
    const dxf = (await makeDxf(readText(through()))).get('corner/finger-template-tails.dxf') ?? '';
    const ease = (B - D) / 2;
    const inner = wallsAt(dxf, -t / 2, inch(5.25));
    expectNear(inner, [at(0) + ease, at(1) - ease, at(2) + ease, at(3) - ease, at(4) + ease, at(5) - ease]);
  });

  it.each([0, -t / 2, -t, -t - 8])('stands the pin fingers normal to their sides at y = %s', async (y) => {
    const dxf = (await makeDxf(readText(through()))).get('corner/finger-template-pins.dxf') ?? '';
    const inward = (B - d) / (2 * cos);
    const wall = (i: number, side: 1 | -1) => at(i) + side * (k * -y + inward);
    const found = wallsAt(dxf, y, inch(5.25));
    expectNear(found, [wall(0, -1), wall(1, 1), wall(2, -1), wall(3, 1), wall(4, -1), wall(5, 1)]);
  });

  it('leaves 0.3029 in at the tip of an inner pin finger', async () => {
    const dxf = (await makeDxf(readText(through()))).get('corner/finger-template-pins.dxf') ?? '';
    const tip = -t - 10;
    const [, left, right] = wallsAt(dxf, tip + 2, inch(5.25));
    // Two millimetres up, clear of the eased corner: each wall leans k a millimetre.
    const width = Math.abs((right ?? 0) - (left ?? 0)) - 2 * 2 * k;
    expect(width / 25.4).toBeCloseTo(0.3029, 4);
  });

  it('takes the whole slack from the pins, half on each side', async () => {
    const y = -t / 2;
    const tight = (await makeDxf(readText(through()))).get('corner/finger-template-pins.dxf') ?? '';
    const loose = (await makeDxf(readText(through('0.2 mm')))).get('corner/finger-template-pins.dxf') ?? '';
    const before = wallsAt(tight, y, inch(5.25));
    const after = wallsAt(loose, y, inch(5.25));
    const moved = after.map((value, i) => value - (before[i] ?? Number.NaN));
    expectNear(moved, [-0.1, 0.1, -0.1, 0.1, -0.1, 0.1]);
  });
});

describe('box joint', () => {
  const box = (slack: string) => `
title: A worked case
units: in
${shop}
joints:
  corner:
    kind: box
    width: 3-1/2
    boards: { one: { thickness: 1/2 }, two: { thickness: 1/2 } }
    layout: { spacing: even, finger: 1/2 }
    cutter: half
    bushing: five-eighths
    fit: { slack: ${slack} }
`;

  it('widens slots by (B − d) + g/2 in all', async () => {
    const dxf = (await makeDxf(readText(box('0.2 mm')))).get('corner/finger-template-one.dxf') ?? '';
    const out = inch((5 / 8 - 1 / 2) / 2) + 0.2 / 4;
    const slots = [1, 3, 5].flatMap((i) => [inch(i / 2) - out, inch((i + 1) / 2) + out]);
    expectNear(wallsAt(dxf, -inch(1 / 4), inch(3.5)), slots);
  });

  it('cuts away in board two what board one keeps', () => {
    const { made } = solveOnly(readText(box('0')));
    expect(made?.solved.layout.spans.map(({ part }) => part)).toEqual([
      'finger',
      'slot',
      'finger',
      'slot',
      'finger',
      'slot',
      'finger',
    ]);
  });
});
