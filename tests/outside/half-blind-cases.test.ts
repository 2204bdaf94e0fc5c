import { describe, expect, it } from 'vitest';
import { sentence } from '../../src/diagnostics/catalogue.js';
import { formatterFor } from '../../src/diagnostics/formatter.js';
import { codesOf, inch, makeDxf, readText, solveOnly } from '../support/jobs.js';
import { crossingsAt, plateOutline } from '../support/read-plate.js';

/** Half-blind joints against worked cases and the trade, read back from the written DXF by dxf-parser. */

const shop = (plate = '1/4') => `
shop:
  bits:
    half-14: { kind: dovetail, diameter: 1/2, angle: 14, height: 1/2, shank: 1/4 }
    quarter-10: { kind: dovetail, diameter: 1/4, angle: 10, height: 1/4, shank: 1/4 }
  bushings:
    half: { outside: 1/2, bore: 13/32, barrel: 5/32 }
    seven-sixteenths: { outside: 7/16, bore: 3/8, barrel: 5/32 }
    five-eighths: { outside: 5/8, bore: 9/16, barrel: 5/32 }
    seven-eighths: { outside: 7/8, bore: 3/4, barrel: 5/32 }
    five-sixteenths: { outside: 5/16, bore: 17/64, barrel: 5/32 }
  plate: { material: plywood, thickness: ${plate}, least-finger: 1/8 }
`;

const job = (joint: string) => `
title: Worked cases
units: in
${shop()}
joints:
  it:
    kind: half-blind-dovetail
    boards: { tails: { thickness: 1/2 }, pins: { thickness: 3/4 } }
${joint}
`;

const together = (depth: string, bushing: string) =>
  job(`
    width: 7
    layout: { spacing: even, pitch: 7/8 }
    method: together
    depth: ${depth}
    cutter: half-14
    bushing: ${bushing}
    fit: { slack: 0 }
`);

/** "Geometry of the joints" (src/joints/README.md), numerical cases, all in inches, to a thousandth. */
const cases = [
  { depth: '3/8', bushing: 'half', s: 0.531, f: 0.344, length: 0.9065, root: 0.5, tip: -0.4065 },
  {
    depth: '13/32',
    bushing: 'seven-sixteenths',
    s: 0.4763,
    f: 0.3987,
    length: 0.8987,
    root: 0.4688,
    tip: -0.43,
  },
];

describe('one template for both boards', () => {
  it.each(cases)('comes out as worked by hand: depth $depth, bushing $bushing', async (wanted) => {
    const dxf = (await makeDxf(readText(together(wanted.depth, wanted.bushing)))).get(
      'it/finger-template-both.dxf',
    );
    const outline = plateOutline(dxf ?? '');
    const walls = crossingsAt(outline, 0).filter((x) => x > 0 && x < inch(7.5));
    const [a, b, c] = walls.slice(0, 3).map((x) => x / 25.4);
    expect((b ?? 0) - (a ?? 0)).toBeCloseTo(wanted.s, 3);
    expect((c ?? 0) - (b ?? 0)).toBeCloseTo(wanted.f, 3);
    // Roots and tips are half circles: their straight walls end a radius short of the far points.
    // Behind the openings lies the far edge, with the notches for the stops.
    const inner = outline.filter(
      (v) => v.y < inch(1) && v.x / 25.4 > (a ?? 0) - 0.001 && v.x / 25.4 < (c ?? 0) + 0.001,
    );
    const root = Math.max(...inner.map((v) => v.y)) / 25.4 + wanted.s / 2;
    const tip = Math.min(...inner.filter((v) => v.y > -inch(0.8)).map((v) => v.y)) / 25.4 - wanted.f / 2;
    expect(Math.abs(root - wanted.root)).toBeLessThan(0.001);
    expect(Math.abs(tip - wanted.tip)).toBeLessThan(0.001);
    expect(Math.abs(root - tip - wanted.length)).toBeLessThan(0.001);
  });

  it('takes a 1/4 in bit and a 5/16 in bushing for a quarter-inch joint (common practice, no source)', () => {
    const text = `
title: Small drawers
units: in
${shop()}
joints:
  it:
    kind: half-blind-dovetail
    width: 2
    boards: { tails: { thickness: 1/4 }, pins: { thickness: 3/8 } }
    layout: { spacing: even }
    method: together
    depth: 1/4
    cutter: quarter-10
    bushing: five-sixteenths
`;
    expect(solveOnly(readText(text)).made).toBeDefined();
  });
});

describe('two templates', () => {
  const apart = (width: string, more = '') =>
    job(`
    width: ${width}
    layout: { spacing: even, pitch: 2 }
    method: apart
    depth: 3/8
    cutter: half-14
    bushing: five-eighths
${more}
`);

  it.each([2, 3, 4, 5, 6, 7])(
    'on 2 in spacing %i pins suit a board of twice as many inches and 1/8 in (common practice, no source)',
    (pins) => {
      const outcome = solveOnly(readText(apart(`${2 * pins}-1/8`)));
      expect(codesOf(outcome)).toContain('pitch-suits');
      expect(outcome.made?.solved.layout.spans.filter(({ part }) => part === 'tail').length).toBe(pins);
    },
  );

  it.each(['2-1/4', '16'])('is made on boards of %s in (common practice, no source)', (width) => {
    expect(solveOnly(readText(apart(width))).made).toBeDefined();
  });

  it('sets sockets for square tails at the thickness and about 1/8 in (common practice, no source)', async () => {
    const dxf = (await makeDxf(readText(apart('4-1/8', '    tails-inside: square')))).get(
      'it/finger-template-sockets.dxf',
    );
    const outline = plateOutline(dxf ?? '').filter((v) => v.x > 0 && v.x < inch(4.125));
    // The far end is straight between two corners: the highest vertices inside the board's width.
    const end = Math.max(...outline.filter((v) => v.y < inch(1)).map((v) => v.y)) / 25.4 - 0.5;
    const flush = 1 / 16;
    const clear = flush + (3 / 8) * Math.tan((14 * Math.PI) / 180);
    expect(end).toBeGreaterThan(flush);
    expect(end).toBeLessThan(clear + 1e-6);
    expect(Math.abs(end - 1 / 8)).toBeLessThan(1 / 32);
  });

  it('moves a lipped front with a 3/8 in rabbet 3/8 in toward the operator (common practice, no source)', () => {
    const lip = '    lip: { end: 3/8, lower: 3/8, upper: 3/8, rabbet: 3/8 }';
    const { made } = solveOnly(readText(apart('4-1/8', lip)));
    const sockets = made?.report.cuts.find(({ board }) => board === 'sockets');
    expect(sockets?.boards[0]?.from).toEqual([-9.525, -9.525]);
    expect(sockets?.boards[0]?.to[0]).toBeCloseTo(inch(4.125 + 3 / 8), 6);
  });

  describe('square tails on a thin side', () => {
    const thin = (side: string) =>
      apart('4-1/8', '    tails-inside: square').replace(
        'tails: { thickness: 1/2 }',
        `tails: { thickness: ${side} }`,
      );

    it('are refused under half of the bit: pared to D/2, they would come out loose on the outside face', () => {
      const outcome = solveOnly(readText(thin('7/32')));
      expect(codesOf(outcome, 'refused')).toEqual(['square-tails-thin-side']);
      const [said] = outcome.diagnostics.filter(({ code }) => code === 'square-tails-thin-side');
      expect(said?.at).toBe('joints.it.tails-inside');
      const text = said ? sentence(said, formatterFor('in')) : '';
      expect(text).toMatch(
        /a bit no larger than 7\/16 in .* a side 1\/4 in .* thick or more, or write tails-inside: rounded$/,
      );
    });

    it('are made at half of the bit, and rounded ones on a thinner side too', () => {
      expect(solveOnly(readText(thin('1/4'))).made).toBeDefined();
      expect(solveOnly(readText(thin('7/32').replace('square', 'rounded'))).made).toBeDefined();
    });
  });
});

describe('what is refused, with what would do', () => {
  const refusals: readonly (readonly [string, string, string])[] = [
    ['lap-thin', 'depth: 11/16', 'method: apart'],
    ['bushing-over-tail', 'depth: 1/2', 'method: apart'],
    ['pitch-under-bit', 'depth: 3/8\n    layout: { pitch: 3/4 }', 'method: together'],
    ['bit-short', 'depth: 9/16', 'method: apart'],
    ['rabbet-shallow', 'depth: 3/8\n    lip: { end: 1/4, lower: 0, upper: 0, rabbet: 1/4 }', 'method: apart'],
    ['square-tails-together', 'depth: 3/8\n    tails-inside: square', 'method: together'],
  ];

  it.each(refusals)('%s', (code, depth, method) => {
    const bushing = code === 'bushing-over-tail' ? 'seven-eighths' : 'half';
    const text = job(`
    width: 6
    ${depth}
    ${method}
    cutter: half-14
    bushing: ${bushing}
`);
    const outcome = solveOnly(readText(text));
    expect(codesOf(outcome, 'refused')).toContain(code);
    expect(outcome.made).toBeUndefined();
  });
});
