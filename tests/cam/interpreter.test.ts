import { describe, expect, test } from 'vitest';
import { replay } from '../../src/cam/program/interpreter.js';

const head = 'G21 G90 G17 G40 G94\n';
const whats = (text: string) => replay(text).faults.map(({ line, what }) => `${line}: ${what}`);

describe('the interpreter starts with nothing', () => {
  test('a motion before its modes, a cut before its feed, an arc from nowhere are faults', () => {
    expect(whats('G0 Z5')).toEqual(['1: motion before G21 G90 G17 G40 G94']);
    expect(whats(`${head}G1 X1 Y1`)).toEqual(['2: a cut without a feed']);
    expect(whats(`${head}X1`)).toEqual(['2: coordinates without a motion']);
    expect(whats(`${head}G2 X1 Y1 I1 F100`)).toEqual(['2: an arc from a place that nothing has set']);
    expect(whats(`${head}M3`)).toEqual(['2: a spindle without a speed']);
  });

  test('a place that nothing has set stays unknown', () => {
    const [up] = replay(`${head}G0 Z5`).motions;
    expect(up?.from).toEqual({ x: undefined, y: undefined, z: undefined });
    expect(up?.to).toEqual({ x: undefined, y: undefined, z: 5 });
  });
});

describe('the interpreter reads', () => {
  test('motion, feed and speed as they hold on from line to line', () => {
    const { motions, faults } = replay(
      `${head}S9000 M3\nG0 X0 Y0\nG1 Z-1 F50\nX10 F200\nY5\nG0 Z3\nM5\nG0 X0\nM2`,
    );
    expect(faults).toEqual([]);
    expect(motions.map(({ rapid, feed, speed }) => [rapid, feed, speed])).toEqual([
      [true, 0, 9000],
      [false, 50, 9000],
      [false, 200, 9000],
      [false, 200, 9000],
      [true, 0, 9000],
      [true, 0, 0],
    ]);
    expect(motions[3]).toMatchObject({ from: { x: 10, y: 0, z: -1 }, to: { x: 10, y: 5, z: -1 } });
  });

  test('words with spaces or without, and nothing of comments', () => {
    const text = `${head}(G1 X99 F1)\nG0 X1 Y2 (to the hole)\nG0X3Y4`;
    expect(replay(text).motions.map(({ to }) => [to.x, to.y])).toEqual([
      [1, 2],
      [3, 4],
    ]);
    expect(replay(text).faults).toEqual([]);
  });

  test('no exponents, no commas, no brackets within brackets, no unknown words', () => {
    for (const bad of ['G0 X1e2', 'G0 X1,5', 'G0 (a (b)) X1', 'G0 X', 'G0 A1', 'G91', 'M6 T1', 'G28']) {
      expect(whats(head + bad).length, bad).toBeGreaterThan(0);
    }
  });

  test('an arc by its centre, with radii that may differ by 0.002 mm and no more', () => {
    const arc = (to: string) => replay(`${head}G0 X0 Y0\nG3 ${to} F10`);
    expect(arc('X10.0019 Y0 I5 J0')).toMatchObject({ faults: [], radiusError: expect.closeTo(0.0019, 6) });
    expect(arc('X10.0021 Y0 I5 J0').faults).toHaveLength(1);
    expect(arc('X10 Y0').faults).toMatchObject([{ what: 'an arc without a centre' }]);
  });

  test('an end, after which nothing may stand', () => {
    expect(replay(`${head}M5\nM2`)).toMatchObject({ ended: true, faults: [] });
    expect(whats(`${head}M5\nM2\nG0 Z1`)).toContain('4: text after the end of the program');
    expect(replay(head)).toMatchObject({ ended: false });
  });
});
