import fc from 'fast-check';
import { expect, test } from 'vitest';
import { extents } from '../../src/geometry/outline.js';
import { CLOSED_WITHIN } from '../../src/verify/judge.js';
import { codesOf, readText, solveOnly } from '../support/jobs.js';
import { boxJobs, throughDovetailJobs } from '../support/random-jobs.js';
import { closed, isWritten, withTemplate, writeJoint } from '../support/written-joint.js';

const tray = (template: string, sheet = '') => `
title: Specimen cabinet
units: in
shop:
  units: in
  bits:
    half-8: { kind: dovetail, diameter: 1/2, angle: 8, height: 13/16 }
    straight-38: { kind: straight, diameter: 3/8, height: 3/4 }
  bushings: { seven-sixteenths: { outside: 7/16 } }
  plate: { material: plywood, thickness: 1/2, least-finger: 3/16${sheet} }
joints:
  tray:
    kind: through-dovetail
    width: 5-1/2
    boards: { tails: { thickness: 1/2 }, pins: { thickness: 1/2 } }
    layout: { spacing: varied, tails: 3, seed: 7, spread: 0.3 }
    cutters: { tails: half-8, pins: straight-38 }
    bushing: seven-sixteenths
    template: ${template}
`;

test('both boards cut at the two edges of one plate close as they do under two plates', async () => {
  let cut = 0;
  await fc.assert(
    fc.asyncProperty(fc.oneof(throughDovetailJobs, boxJobs), async (text) => {
      const made = await writeJoint(withTemplate(text, { plate: 'one' }));
      if (!isWritten(made)) return;
      cut += 1;
      expect(made.report.cuts.map(({ template }) => template)).toEqual([
        'finger-template-both',
        'finger-template-both',
      ]);
      const { worstGap, worstOverlap, slack } = closed(made);
      expect(worstOverlap).toBeLessThan(CLOSED_WITHIN);
      expect(worstGap - slack / 2).toBeLessThan(CLOSED_WITHIN);
    }),
    { numRuns: 25, seed: 20261125 },
  );
  expect(cut).toBeGreaterThan(15);
});

test('the edges share their centre line, and the fence is as wide as its two sides are apart', () => {
  const made = solveOnly(readText(tray('{ plate: one }'))).made;
  const [template, mirrored] = made?.templates ?? [];
  const [, pins] = template?.plate.sides ?? [];
  if (!template || !pins?.turned) throw new Error('no turned side');
  // Half a turn about (X/2, Y/2): the joint's middle stays where it is.
  expect(pins.turned.x).toBeCloseTo(5.5 * 25.4, 9);
  const placed = made?.report.cuts[1]?.placed;
  expect(placed).toEqual({ turned: 180, x: 139.7, y: expect.closeTo(pins.turned.y, 5) });
  expect(template.plate.screws.every(({ y }) => y > template.plate.spineFrom)).toBe(true);
  // Every layer is inside the plate, on both sides of the middle.
  const box = extents(template.plate.outline);
  const stock = template.drawing.items.filter(({ layer }) => layer === 'STOCK');
  expect(stock).toHaveLength(2);
  expect(box.maxY - box.minY).toBeGreaterThan(pins.turned.y);
  expect(mirrored?.plate.name).toBe('finger-template-both-mirrored');
});

test('a plate over the sheet is refused with its size, the sheet and what to lessen', () => {
  const outcome = solveOnly(readText(tray('{ plate: one }', ', sheet: [10, 6]')));
  expect(outcome.made).toBeUndefined();
  const [said] = outcome.diagnostics.filter(({ level }) => level === 'refused');
  expect(said?.code).toBe('one-plate-over-sheet');
  expect(said?.data).toMatchObject({ sheetWidth: 254, sheetHeight: expect.closeTo(152.4, 6) });
  // The same plate turned on its side fits a tall sheet.
  expect(solveOnly(readText(tray('{ plate: one }', ', sheet: [8, 12]'))).made).toBeDefined();
});

test('a joint with one cut or none keeps what it has, and is told so', () => {
  const hand = tray('{ plate: one }')
    .replace(/ {4}(cutters|bushing):.*\n/g, '')
    .replace('tails: 3,', 'tails: 3,')
    .replace('template:', 'slope: 1:8\n    template:');
  expect(codesOf(solveOnly(readText(hand)))).toContain('one-plate-no-pair');
});
