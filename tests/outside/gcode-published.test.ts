import { describe, expect, test } from 'vitest';
import { toolPath } from '../../src/cam/compensated.js';
import { segmentOf } from '../../src/cam/program/backplot.js';
import { replay } from '../../src/cam/program/interpreter.js';
import { offsetRegion } from '../../src/geometry/offset.js';
import { area, outline } from '../../src/geometry/outline.js';
import { distance } from '../../src/geometry/point.js';
import { distanceToSegment, pointAt } from '../../src/geometry/segment.js';
import type { Segment } from '../../src/geometry/types.js';

/**
 * Kramer, Proctor and Messina, "The NIST RS274NGC Interpreter, Version 3", NISTIR 6556 (2000): the example of
 * an arc by its centre (3.5.3.2), and the pair of a material edge and its tool path (Appendix B, Tables 12 and
 * 13). Seen in a copy. The report's programs leave modes to the interpreter; here they are spelled out.
 */
const head = 'G21 G90 G17 G40 G94\n';
const edge = `${head}G0 X2 Y3
G2 X3 Y2 J-1 F100
G1 Y-1
G2 X2 Y-2 I-1
G1 X-2
G2 X-2.6 Y-0.2 J1
G1 X1.4 Y2.8
G2 X2 Y3 I0.6 J-0.8
`;
const path = `${head}G0 X2 Y3.5
G2 X3.5 Y2 J-1.5 F100
G1 Y-1
G2 X2 Y-2.5 I-1.5
G1 X-2
G2 X-2.9 Y0.2 J1.5
G1 X1.1 Y3.2
G2 X2 Y3.5 I0.9 J-1.2
`;

const segmentsOf = (text: string): readonly Segment[] =>
  replay(text)
    .motions.filter(({ rapid }) => !rapid)
    .flatMap((motion) => segmentOf(motion) ?? []);

test('G2 X10 Y16 I3 J4 from (7, 7) has its centre at (10, 11) and a radius of 5', () => {
  const { motions, faults } = replay(`${head}G0 X7 Y7\nG2 X10 Y16 I3 J4 F100`);
  expect(faults).toEqual([]);
  expect(motions[1]?.arc).toMatchObject({ center: { x: 10, y: 11 }, radius: 5, ccw: false });
});

describe('the published edge and tool path', () => {
  test('replay without a fault and close', () => {
    for (const text of [edge, path]) {
      const segments = segmentsOf(text);
      expect(replay(text).faults).toEqual([]);
      expect(segments).toHaveLength(7);
      for (const [i, one] of segments.entries()) {
        expect(distance(one.to, segments[(i + 1) % 7]?.from ?? one.to)).toBe(0);
      }
    }
    // 18 + π and 24 + 2.25 π, clockwise.
    expect(area(outline(segmentsOf(edge)))).toBeCloseTo(-(18 + Math.PI), 12);
    expect(area(outline(segmentsOf(path)))).toBeCloseTo(-(24 + 2.25 * Math.PI), 12);
  });

  test('are a cutter of diameter 1 apart, as the plate’s compensation makes them', () => {
    const clockwise = outline(segmentsOf(edge));
    const plate = offsetRegion([outline([...clockwise.segments].reverse().map((one) => turned(one)))], 0);
    const made = toolPath(plate, { for: 'cnc', cutter: 1, relief: 'none' }, { name: 'edge', at: '' });
    expect(made.ok).toBe(true);
    if (!made.ok) return;
    const [ours] = made.value.path;
    // The path stops EXACT_FIT (1e-6 mm) short of the half cutter, so that slots as wide as it live.
    for (const one of segmentsOf(path)) {
      for (const at of [0, 0.25, 0.5, 0.75]) {
        const away = (ours?.segments ?? []).map((other) => distanceToSegment(pointAt(one, at), other));
        expect(Math.min(...away)).toBeLessThan(2e-6);
      }
    }
    // A millionth all along 12 + 3 π.
    expect(Math.abs(area(outline(ours?.segments ?? [])) - (24 + 2.25 * Math.PI))).toBeLessThan(3e-5);
  });
});

function turned(one: Segment): Segment {
  return one.kind === 'line'
    ? { kind: 'line', from: one.to, to: one.from }
    : { ...one, from: one.to, to: one.from, ccw: !one.ccw };
}
