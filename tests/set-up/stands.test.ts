import { describe, expect, test } from 'vitest';
import { solveJob } from '../../src/outputs/joint.js';
import { letterOf } from '../../src/set-up/ends.js';
import { standsOf, stopAt } from '../../src/set-up/stands.js';
import { readText } from '../support/jobs.js';

/**
 * One drawer by hand, mm: sides 12, front 19, 140 high, lip 9 at the ends, 6 below and 8 above, groove at the lower edge. The
 * layout is uneven, so the second corner wants the plates' mirror image. Lower edges are reference edges.
 */
const W = 140;
const [SIDE, LAP, DEPTH] = [12, 7, 12];
const LIP = { end: 9, lower: 6, upper: 8 };
const FRONT = DEPTH + LAP;
const PLATE = 12.7;

const job = readText(`
title: Specimen cabinet
units: mm
shop: ./shop.yaml
joints:
  drawer:
    kind: half-blind-dovetail
    width: ${W}
    boards: { tails: { thickness: ${SIDE} }, pins: { thickness: ${FRONT} } }
    method: apart
    layout: { spacing: varied, tails: 3, seed: 7, spread: 0.3, groove: { from: 10, width: 6 } }
    lip: { end: ${LIP.end}, lower: ${LIP.lower}, upper: ${LIP.upper}, rabbet: 13 }
    depth: ${DEPTH}
    cutter: half-8
    bushing: seven-sixteenths
pieces:
  tray:   { kind: drawer, outside: { width: 300, depth: 250, height: ${W} }, corners: drawer, count: 7 }
`);
const [outcome] = solveJob(job);
const made = outcome?.made;
if (!made) throw new Error(outcome?.diagnostics.map(({ code }) => code).join());
const { trial, stands } = standsOf({ ...made, shop: job.shop, pieces: job.pieces });
const find = (piece: string, end: string) => {
  const found = stands.filter((one) => one.piece === piece && one.end === end);
  expect(found).toHaveLength(1);
  const [stand] = found;
  if (!stand) throw new Error(`${piece} ${end}`);
  return stand;
};

describe('a lipped drawer, by hand', () => {
  /**
   * The side stands on end, inside face toward you. D's right end up, seen on its outside face: reference edge at its left with
   * the left end up, so at its right with the right end up; from the inside that is left again.
   */
  test('corner 1: D right with A left, both at the left stop of the plates as they are', () => {
    expect(find('D', 'right')).toMatchObject({
      corner: 1,
      board: 'tails',
      template: 'finger-template-tails',
      faceToOperator: 'inside',
      posture: 'on end',
      referenceEdge: 'left-stop',
      rect: { x0: 0, x1: W, y0: -SIDE, y1: 0 },
      along: 0,
      across: 0,
    });
    const front = find('A', 'left');
    expect(front).toMatchObject({
      corner: 1,
      board: 'pins',
      template: 'finger-template-sockets',
      faceToOperator: 'inside',
      posture: 'flat',
      referenceEdge: 'left-stop',
    });
    // The lower lip lies past the joint at the stop, the end's lip toward you.
    expect(front.rect).toMatchObject({ x0: -LIP.lower, x1: W + LIP.upper, y0: -LIP.end });
    expect(stopAt(front)).toBe(-LIP.lower);
  });

  test('corner 2: B left with A right, at the right stop of the mirror images', () => {
    expect(find('B', 'left')).toMatchObject({
      corner: 2,
      template: 'finger-template-tails-mirrored',
      faceToOperator: 'inside',
      referenceEdge: 'right-stop',
      rect: { x0: 0, x1: W, y0: -SIDE, y1: 0 },
    });
    const front = find('A', 'right');
    expect(front).toMatchObject({
      corner: 2,
      template: 'finger-template-sockets-mirrored',
      referenceEdge: 'right-stop',
    });
    expect(front.rect).toMatchObject({ x0: -LIP.upper, x1: W + LIP.lower, y0: -LIP.end });
    expect(stopAt(front)).toBe(W + LIP.lower);
  });

  test('one depth for both boards, a dovetail bit in one pass, the plate above it', () => {
    for (const stand of stands) {
      expect(stand.passes).toEqual([DEPTH]);
      expect(stand.extension).toBeCloseTo(job.shop.plate.thickness + DEPTH, 9);
    }
    expect(job.shop.plate.thickness).toBeCloseTo(PLATE, 9);
  });

  test('every board of seven drawers has a letter of its own; the back between the sides has no end', () => {
    const letters = new Set(stands.map(({ piece }) => piece));
    expect(letters.size).toBe(7 * 3);
    expect([...letters].filter((one) => one.length > 1).toSorted()).toEqual(['AB']);
    expect(letters.has('C')).toBe(false);
    expect([0, 25, 26, 27, 51, 52].map(letterOf)).toEqual(['A', 'Z', 'AA', 'AB', 'AZ', 'BA']);
  });

  test('the work begins with the set-up that stands, and changes each plate once', () => {
    expect(trial).toBe(2);
    const plates = stands.map(({ template }) => template);
    expect(plates.filter((one, i) => one !== plates[i - 1])).toEqual([
      'finger-template-sockets',
      'finger-template-sockets-mirrored',
      'finger-template-tails',
      'finger-template-tails-mirrored',
    ]);
    expect(stands.map(({ order }) => order)).toEqual(stands.map((_, i) => i + 1));
  });

  test('report.json has them all, exact', () => {
    const reported = made.report.setUp?.stands ?? [];
    expect(reported.map(({ piece, end }) => `${piece} ${end}`)).toEqual(
      stands.map(({ piece, end }) => `${piece} ${end}`),
    );
    expect(reported[0]?.bushing).toBeCloseTo(11.1125, 4);
  });
});
