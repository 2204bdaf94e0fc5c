import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { replay } from '../../src/cam/program/interpreter.js';
import type { ToolMove, ToolProgram } from '../../src/drawing/tool-moves.js';
import type { Segment } from '../../src/geometry/types.js';
import { gcodeWriter } from '../../src/writers/gcode.js';
import { milled, plateWith, roundComb, screwHoles, settingsFor } from '../cam/plates.js';

const written = (moves: readonly ToolMove[], more: Partial<ToolProgram> = {}): string =>
  gcodeWriter.write({
    remarks: [],
    tool: { kind: 'spindle', rpm: 18000, safeHeight: 5 },
    blank: { width: 100, height: 100 },
    moves,
    ...more,
  });

const body = (text: string): readonly string[] => text.split('\n').slice(4, -3);

/** Letters, digits and signs that no controller acts on, behind a sign that begins no command. */
const harmless = /^\(- [A-Za-z0-9 .,:/+-]+\)$/;

describe('an RS-274 file', () => {
  const { programs } = milled(plateWith(roundComb, ...screwHoles), settingsFor({ cutter: 3.175 }));

  test('spells out its modes before anything moves, goes up alone, starts the spindle and waits', () => {
    const lines = (programs.at(-1)?.text ?? '').split('\n').filter((line) => !line.startsWith('('));
    expect(lines.slice(0, 4)).toEqual(['G21 G90 G17 G40 G94', 'G0 Z5', 'M3 S16000', 'G4 P3']);
    expect(lines[4]).toMatch(/^G0 X\S+ Y\S+$/);
    expect(lines[5]).toMatch(/^G1 Z0 F300$/);
    expect(lines.slice(-3)).toEqual(['M5', 'M2', '']);
  });

  test('has no line over 50 characters, plain ASCII, no exponents or commas in numbers, no nested brackets', () => {
    for (const { text } of programs) {
      for (const line of text.split('\n')) {
        expect(line.length, line).toBeLessThanOrEqual(50);
        if (line.startsWith('(')) expect(line).toMatch(harmless);
        else expect(line).toMatch(/^([A-Z]-?\d+(\.\d{1,4})?( |$|(?=[A-Z])))*$/);
      }
    }
  });

  test('says what it holds, where zero is, and what to mind', () => {
    const said = (programs.at(-1)?.text ?? '').replace(/\)\n\(- /g, ' ');
    expect(said).toContain('(- A plate of 1/2 in ply - test');
    expect(said).toContain('do not compensate it again');
    expect(said).toContain('lower left corner of a blank');
    expect(said).toContain('eye and ear protection');
    expect(said).toContain('The manual of the machine and local rules come first.');
  });

  test('writes a feed where it changes only, and nothing for a move to where the tool is', () => {
    const line = (x: number): Segment => ({ kind: 'line', from: { x: x - 1, y: 0 }, to: { x, y: 0 } });
    const text = written([
      { kind: 'lift', z: 5 },
      { kind: 'travel', to: { x: 0, y: 0 } },
      { kind: 'plunge', z: -1, feed: 300 },
      { kind: 'cut', along: line(1), z: -1, feed: 900 },
      { kind: 'cut', along: line(2), z: -1, feed: 900 },
      { kind: 'cut', along: line(2.00001), z: -1, feed: 900 },
      { kind: 'say', text: 'done (nearly)' },
      { kind: 'lift', z: 5 },
    ]);
    expect(body(text)).toEqual([
      'G0 X0 Y0',
      'G1 Z-1 F300',
      'G1 X1 F900',
      'G1 X2',
      '(- done nearly)',
      'G0 Z5',
    ]);
  });
});

describe('a comment', () => {
  const commands = [
    'LOGOPEN,x',
    'MSG,',
    'DEBUG,#1',
    'PRINT,',
    'PROBEOPEN x',
    'ABORT,',
    'G0 X9)',
    ')\nG0 X9\n(',
    ';',
    '%',
  ];
  const title = fc.oneof(
    fc.string({ unit: 'binary', maxLength: 120 }),
    fc
      .array(fc.constantFrom(...commands, '!', '~', '?', '$', '\u0018', ' ', 'tray'), { maxLength: 30 })
      .map((all) => all.join('')),
  );

  test('is never obeyed, whatever it says: it starts no command and holds no character that a controller acts on', () => {
    fc.assert(
      fc.property(title, title, (remark, words) => {
        const text = written([{ kind: 'say', text: words }], { remarks: [remark] });
        const lines = text.split('\n');
        for (const line of lines.filter((one) => one.includes('('))) expect(line).toMatch(harmless);
        expect(lines.filter((one) => !one.startsWith('('))).toEqual(written([]).split('\n'));
        expect(replay(text).motions).toEqual(
          replay(written([])).motions.map((one) => ({ ...one, line: expect.any(Number) })),
        );
      }),
      { numRuns: 500 },
    );
  });

  test('keeps words and numbers that can be read', () => {
    expect(body(written([{ kind: 'say', text: 'Café’s 1/2" tray; ½ × 8°, (box)' }]))).toEqual([
      '(- Cafes 1/2 in tray, 1/2 x 8 deg, box)',
    ]);
  });
});

describe('an arc in the file', () => {
  const coordinate = fc.double({ min: 0, max: 1500, noNaN: true });

  test('ends within 0.002 mm of its radius and turns as it should, wherever and however large it is', () => {
    fc.assert(
      fc.property(
        coordinate,
        coordinate,
        fc.double({ min: 1e-3, max: 400, noNaN: true }),
        fc.double({ min: 0, max: 2 * Math.PI, noNaN: true }),
        fc.double({ min: 1e-4, max: 1.5 * Math.PI, noNaN: true }),
        fc.boolean(),
        fc.double({ min: -30, max: 0, noNaN: true }),
        (x, y, radius, start, sweep, ccw, z) => {
          const at = (angle: number) => ({
            x: x + radius * Math.cos(angle),
            y: y + radius * Math.sin(angle),
          });
          const to = at(start + (ccw ? sweep : -sweep));
          const along: Segment = { kind: 'arc', from: at(start), to, center: { x, y }, radius, ccw };
          const text = written([
            { kind: 'lift', z: 5 },
            { kind: 'travel', to: along.from },
            { kind: 'plunge', z: 0, feed: 300 },
            { kind: 'cut', along, z, feed: 900 },
          ]);
          expect(Math.max(...text.split('\n').map((line) => line.length))).toBeLessThanOrEqual(50);
          const { faults, motions, radiusError } = replay(text);
          expect(faults.filter(({ what }) => !/spindle on/.test(what))).toEqual([]);
          expect(radiusError).toBeLessThan(0.002);
          const last = motions.at(-1);
          expect(Math.hypot((last?.to.x ?? 0) - to.x, (last?.to.y ?? 0) - to.y)).toBeLessThan(
            1e-4 * Math.SQRT2,
          );
          const [arc] = motions.filter((one) => one.arc);
          if (!arc?.arc) return;
          expect(arc.arc.ccw).toBe(ccw);
          const angle = (spot: { x: number | undefined; y: number | undefined }) =>
            Math.atan2((spot.y ?? 0) - y, (spot.x ?? 0) - x);
          const turned = ((ccw ? 1 : -1) * (angle(arc.to) - angle(arc.from)) + 4 * Math.PI) % (2 * Math.PI);
          // Rounded ends turn the radius by 1e-4 mm at most.
          expect(Math.abs(turned - sweep) * radius).toBeLessThan(3e-4);
        },
      ),
      { numRuns: 500 },
    );
  });

  test('is a line where it is so short that its ends could be one point', () => {
    const along: Segment = {
      kind: 'arc',
      from: { x: 5, y: 0 },
      to: { x: 5, y: 0.004 },
      center: { x: 0, y: 0 },
      radius: 5,
      ccw: true,
    };
    const text = written([
      { kind: 'travel', to: along.from },
      { kind: 'cut', along, z: 0, feed: 900 },
    ]);
    expect(body(text)).toEqual(['G0 X5 Y0', 'G1 Y0.004 Z0 F900']);
  });

  test('with a height and long numbers goes down in chords on its own helix', () => {
    const from = { x: 1234.56789, y: 1111.11111 };
    const center = { x: from.x - 222.22222, y: from.y - 111.11111 };
    const radius = Math.hypot(222.22222, 111.11111);
    const along: Segment = {
      kind: 'arc',
      from,
      to: { x: center.x - 111.11111, y: center.y + 222.22222 },
      center,
      radius,
      ccw: true,
    };
    const text = written([
      { kind: 'travel', to: from },
      { kind: 'plunge', z: -11.1111, feed: 100 },
      { kind: 'cut', along, z: -22.2222, feed: 900.5 },
    ]);
    const { motions } = replay(text);
    const cut = motions.filter(({ rapid, from: a, to: b }) => !rapid && a.x !== b.x);
    for (const { to } of cut) {
      expect(Math.abs(Math.hypot((to.x ?? 0) - center.x, (to.y ?? 0) - center.y) - radius)).toBeLessThan(
        2e-4,
      );
    }
    expect(motions.at(-1)?.to.z).toBe(-22.2222);
  });
});
