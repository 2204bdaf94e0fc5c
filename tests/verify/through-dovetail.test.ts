import { expect, test } from 'vitest';
import { testCut } from '../../src/verify/assemble.js';
import {
  type HandTemplate,
  type HandThrough,
  moved,
  throughPinsTemplate,
  throughTailsTemplate,
  widthOf,
} from '../support/hand-templates.js';
import { type AsRouted, cutThrough, throughRequest, viaSvg } from '../support/hand-testcut.js';

const inch = 25.4;
const degree = Math.PI / 180;

/** The numerical case of the project's geometry notes: W 5-1/4 in, t 3/4 in, 8°, D 11/16, d 3/8, B 7/16 in. */
const carcass: HandThrough = {
  pins: [7 / 16, 11 / 16, 11 / 16, 7 / 16].map((pin) => pin * inch),
  tails: [5 / 8, 1.75, 5 / 8].map((tail) => tail * inch),
  dovetail: (11 / 16) * inch,
  angle: 8 * degree,
  straight: (3 / 8) * inch,
  bushing: (7 / 16) * inch,
  tailBoard: 0.75 * inch,
  pinBoard: 0.75 * inch,
  nose: 10,
  slack: 0,
};

/** No two spans alike, boards of two thicknesses. */
const lopsided: HandThrough = {
  ...carcass,
  pins: [9, 18, 24, 14],
  tails: [16, 40, 22],
  tailBoard: 15,
  pinBoard: 18.5,
};

/** The pair of glue lines on the two sides of an inner pin, added up: the slack of that pair. */
function pairSlack(joint: HandThrough, routed: AsRouted, pin: number): number {
  const middle = cutThrough(joint, { ...routed, levels: 3 }).sections[1];
  const [left, right] = (middle?.glueLines ?? []).slice(2 * pin - 1, 2 * pin + 1);
  if (!left || !right) throw new Error('no such pair');
  return left.gap + right.gap;
}

/** Moves every corner of a template whose x lies in a range, as a wrongly drawn finger would. */
function shifted(template: HandTemplate, from: number, to: number, by: number): HandTemplate {
  return moved(template, (corner) =>
    corner.x > from && corner.x < to ? { ...corner, x: corner.x + by } : corner,
  );
}

test.each([
  ['the worked case', carcass],
  ['lopsided, two thicknesses', lopsided],
  ['steep sides', { ...carcass, angle: 14 * degree, nose: 4 }],
  [
    'a socket as wide as its bit and an opening as wide as its bushing',
    { ...carcass, bushing: carcass.dovetail },
  ],
  ['a bushing smaller than the bit', { ...carcass, bushing: 0.4 * inch }],
])('a through dovetail cut by the rules closes at nine levels: %s', (_, joint) => {
  const cut = cutThrough(joint);
  expect(cut.levels).toHaveLength(9);
  expect(cut.sections.every(({ glueLines }) => glueLines.length === 6)).toBe(true);
  expect(cut.worstGap).toBeLessThan(0.002);
  expect(cut.worstOverlap).toBeLessThan(0.002);
});

test('levels run from the tail board’s end to its baseline', () => {
  const { levels } = cutThrough(lopsided);
  expect(levels[0]?.z).toBeCloseTo(0, 9);
  expect(levels[8]?.z).toBeCloseTo(18.5, 9);
});

test('the written SVG gives the same joint as the written DXF', () => {
  const dxf = cutThrough(lopsided);
  const svg = cutThrough(lopsided, { via: viaSvg });
  expect(svg.worstGap).toBeCloseTo(dxf.worstGap, 4);
  expect(svg.worstOverlap).toBeCloseTo(dxf.worstOverlap, 4);
  expect(svg.glueArea).toBeCloseTo(dxf.glueArea, 2);
});

test('glue area: six sloped sides of t_T by t_P ÷ cos θ, and shoulders of all pins and the tails’ insides', () => {
  const { tailBoard, pinBoard, angle, pins, tails } = lopsided;
  const cut = cutThrough(lopsided);
  expect(cut.glueArea).toBeCloseTo((6 * tailBoard * pinBoard) / Math.cos(angle), 1);
  const sum = (spans: readonly number[]): number => spans.reduce((all, span) => all + span, 0);
  const growth = 3 * pinBoard * pinBoard * Math.tan(angle); // each of three tails widens by 2k per unit
  expect(cut.shoulderArea).toBeCloseTo(sum(pins) * tailBoard + sum(tails) * pinBoard + growth, 0);
});

test('slack shows as half of it on each glue line, at every level', () => {
  const cut = cutThrough({ ...carcass, slack: 0.2 });
  expect(cut.worstOverlap).toBe(0);
  for (const { gap } of cut.levels) expect(gap).toBeCloseTo(0.1, 3);
});

test('a pin finger 0.2 mm too wide overlaps by half of that on each side', () => {
  const pins = throughPinsTemplate(carcass);
  const left = carcass.pins[0] ?? 0;
  const finger = left + (carcass.tails[0] ?? 0) + (carcass.pins[1] ?? 0) / 2;
  const wide = shifted(shifted(pins, finger - 15, finger, -0.1), finger, finger + 15, 0.1);
  const cut = cutThrough(carcass, { pins: wide });
  expect(cut.worstOverlap).toBeCloseTo(0.1, 3);
  expect(cut.worstGap).toBeLessThan(0.002);
  expect(Math.abs((cut.overlapAt?.x ?? 0) - finger)).toBeLessThan(10);
});

test('one finger moved 0.2 mm gapes on one side and overlaps on the other', () => {
  const finger = (carcass.pins[0] ?? 0) + (carcass.tails[0] ?? 0) + (carcass.pins[1] ?? 0) / 2;
  const cut = cutThrough(carcass, {
    pins: shifted(throughPinsTemplate(carcass), finger - 15, finger + 15, 0.2),
  });
  expect(cut.worstGap).toBeCloseTo(0.2, 3);
  expect(cut.worstOverlap).toBeCloseTo(0.2, 3);
});

test('what an error costs: slack of a pair by differencing, against opening − finger − (B − D) − (B − d)/cos θ', () => {
  const loose = { ...lopsided, slack: 0.4 };
  const half = 0.05;
  const perUnit = (routed: (by: number) => AsRouted): number =>
    (pairSlack(loose, routed(half), 1) - pairSlack(loose, routed(-half), 1)) / (2 * half);
  const socket = loose.pins[0] ?? 0;
  const from = socket + (loose.tails[0] ?? 0);
  const middle = from + (loose.pins[1] ?? 0) / 2;
  const widened = (template: HandTemplate, by: number, reach: number): HandTemplate =>
    shifted(shifted(template, middle - reach, middle, -by / 2), middle, middle + reach, by / 2);
  expect(perUnit((by) => ({ dovetail: by }))).toBeCloseTo(1, 3);
  // A pin's side is sloped in plan: what the bit takes square to it counts 1/cos θ along the joint.
  const alongX = 1 / Math.cos(loose.angle);
  expect(perUnit((by) => ({ straight: by }))).toBeCloseTo(alongX, 3);
  expect(perUnit((by) => ({ bushing: by }))).toBeCloseTo(-1 - alongX, 3);
  expect(perUnit((by) => ({ tails: widened(throughTailsTemplate(loose), by, 9) }))).toBeCloseTo(1, 2);
  expect(perUnit((by) => ({ pins: widened(throughPinsTemplate(loose), by, 15) }))).toBeCloseTo(-1, 2);
  expect(perUnit((by) => ({ depth: by }))).toBeCloseTo(0, 2);
});

test('the pin template moved toward the operator by Δ makes every inner pin 2Δk wider, away from him narrower', () => {
  // The finger is widest at its root, away from the operator: moved toward him, wider finger does the work.
  const loose = { ...carcass, slack: 0.4 };
  const k = Math.tan(loose.angle);
  for (const away of [-0.5, 0.5]) {
    const pins = moved(throughPinsTemplate(loose), (corner) => ({ ...corner, y: corner.y + away }));
    expect(pairSlack(loose, { pins }, 1)).toBeCloseTo(0.4 + 2 * away * k, 3);
  }
});

test.each<[string, (joint: HandThrough) => AsRouted]>([
  [
    'tails plate mirrored',
    (joint) => ({
      tails: moved(throughTailsTemplate(joint), ({ x, y, bulge }) => ({
        x: widthOf(joint) - x,
        y,
        ...(bulge === undefined ? {} : { bulge: -bulge }),
      })),
    }),
  ],
  [
    'pins plate mirrored',
    (joint) => ({
      pins: moved(throughPinsTemplate(joint), ({ x, y }) => ({ x: widthOf(joint) - x, y })),
    }),
  ],
  [
    'taper turned toward the inside',
    (joint) => ({ pins: throughPinsTemplate({ ...joint, angle: -joint.angle }) }),
  ],
  [
    'angle out by half a degree',
    (joint) => ({ pins: throughPinsTemplate({ ...joint, angle: joint.angle + 0.5 * degree }) }),
  ],
  [
    'bushing offset left out',
    (joint) => ({ pins: throughPinsTemplate({ ...joint, bushing: joint.straight }) }),
  ],
  [
    'only the contours scaled by 25.4',
    (joint) => ({
      tails: moved(throughTailsTemplate(joint), (corner) => ({
        ...corner,
        x: corner.x / 25.4,
        y: corner.y / 25.4,
      })),
    }),
  ],
])('a wrong plate does not pass: %s', (_, fault) => {
  const result = testCut(throughRequest(lopsided, fault(lopsided)));
  if (!result.ok) return;
  const { worstGap, worstOverlap } = result.value;
  expect(Math.max(worstGap, worstOverlap)).toBeGreaterThan(0.02);
});

test('a cut too deep leaves the ends proud and the sides as they were; too shallow leaves them back', () => {
  const deep = cutThrough(carcass, { depth: 0.5 });
  expect(deep.proud.tails).toBeCloseTo(0.5, 9);
  expect(deep.proud.pins).toBeCloseTo(0.5, 9);
  expect(deep.worstGap).toBeLessThan(0.002);
  const shallow = cutThrough(carcass, { depth: -0.5 });
  expect(shallow.proud.tails).toBeCloseTo(-0.5, 9);
  expect(shallow.worstOverlap).toBeLessThan(0.002);
});
