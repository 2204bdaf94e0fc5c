import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { containsPoint, isCounterClockwise, reversed } from '../../src/geometry/outline.js';
import { distanceToSegment } from '../../src/geometry/segment.js';
import type { Point, Region } from '../../src/geometry/types.js';
import { families } from '../../src/joints/list.js';
import { pushBushing } from '../../src/page/rout.js';
import { readText, solveOnly } from '../support/jobs.js';

/** What a bushing touches at the most, mm: wood gives more. */
const TOUCH = 2e-3;

const routed = families.filter(({ starter }) => starter.includes('bushing:'));

describe.each(routed.map(({ kind, starter }) => ({ kind, starter })))(
  'a bushing over the plates of a $kind',
  ({ starter }) => {
    const templates = solveOnly(readText(starter)).made?.templates ?? [];

    test('never goes into the plate, however it is pushed, and goes where it is free', () => {
      expect(templates.length).toBeGreaterThan(0);
      for (const { plate } of templates) {
        const cut = plate.sides[0]?.cut;
        if (!cut) throw new Error('a plate without a cut');
        const material: Region = [
          plate.outline,
          ...plate.holes.map((one) => (isCounterClockwise(one) ? reversed(one) : one)),
        ];
        const radius = cut.bushing.outside / 2 - 5e-4;
        const start: Point = { x: 0, y: cut.nearEdge - cut.bushing.outside };
        const free = { x: 20, y: start.y - 3 };
        expect(pushBushing(material, radius, start, free).at(-1)).toEqual(free);
        const spot = fc.record({
          x: fc.double({ min: -40, max: 130, noNaN: true }),
          y: fc.double({ min: -60, max: 60, noNaN: true }),
        });
        fc.assert(
          fc.property(fc.array(spot, { minLength: 1, maxLength: 4 }), (aims) => {
            let at = start;
            for (const aim of aims) {
              for (const step of pushBushing(material, radius, at, aim)) {
                const near = Math.min(
                  ...material.flatMap(({ segments }) => segments.map((one) => distanceToSegment(step, one))),
                );
                expect(near).toBeGreaterThan(radius - TOUCH);
                expect(containsPoint(material, step)).toBe(false);
                at = step;
              }
            }
          }),
          { numRuns: 25 },
        );
      }
    });
  },
);
