import { cutPathOf } from '../../src/cam/compensated.js';
import { replay } from '../../src/cam/program/interpreter.js';
import { millPrograms } from '../../src/cam/program/mill-program.js';
import { type MillSettings, millSettings } from '../../src/cam/settings.js';
import { closed, open, text } from '../../src/drawing/drawing.js';
import type { Drawing } from '../../src/drawing/model.js';
import { circle, outlineFromBulges, polygon, rectangle } from '../../src/geometry/outline.js';
import { line } from '../../src/geometry/segment.js';
import type { Outline } from '../../src/geometry/types.js';
import type { Cnc } from '../../src/input/types.js';
import { gcodeWriter } from '../../src/writers/gcode.js';

/** Plates to cut in these tests, and a router table to cut them with: its feeds are made up, for these tests only. */

export const points = (...all: readonly (readonly [number, number])[]): Outline =>
  polygon(all.map(([x, y]) => ({ x, y })));

/** A comb with square slots, one of them slanted, far enough from symmetry to tell left from right. */
export const squareComb = points(
  [-40, -20],
  [10, -20],
  [10, 12],
  [28, 12],
  [28, -20],
  [60, -20],
  [55, 8],
  [80, 8],
  [75, -20],
  [120, -20],
  [120, 60],
  [-40, 60],
);

/** The same with slot ends as a bushing of 12 mm leaves them. */
const quarter = Math.tan(Math.PI / 8);
export const roundComb = outlineFromBulges([
  { x: -40, y: -20 },
  { x: 10, y: -20 },
  { x: 10, y: 6, bulge: -quarter },
  { x: 16, y: 12 },
  { x: 22, y: 12, bulge: -quarter },
  { x: 28, y: 6 },
  { x: 28, y: -20 },
  { x: 120, y: -20 },
  { x: 120, y: 60 },
  { x: -40, y: 60 },
]);

export const screwHoles = [circle({ x: -28, y: 48 }, 2.5), circle({ x: 108, y: 48 }, 2.5)];

export function plateWith(...outlines: readonly Outline[]): Drawing {
  return {
    title: 'A plate (of ½ in ply) – “test”',
    notes: [],
    items: [
      ...outlines.map((one) => closed('CUT', one)),
      closed('STOCK', rectangle(0, -12, 88, 0)),
      open('SCORE', { closed: false, segments: [line({ x: 44, y: 14 }, { x: 44, y: 40 })] }),
      open('SCORE', { closed: false, segments: [line({ x: 0, y: 20 }, { x: 0, y: 40 })] }),
      text('ENGRAVE', 'TAILS 8°', { x: 30, y: 44 }, 3),
    ],
  };
}

export const cnc: Cnc = { cutter: 4, rpm: 16000, feed: 1200, plunge: 300, pass: 4, engraver: { tip: 0.3 } };

export const sheet = { material: 'plywood', thickness: 12, leastFinger: 5 };

export function settingsFor(more: Cnc = {}, thickness = sheet.thickness): MillSettings {
  const settings = millSettings({ ...cnc, ...more }, { ...sheet, thickness });
  if (!settings.ok) throw new Error('settings are missing');
  return settings.value;
}

/** The programs of a drawing as text and as they replay. */
export function milled(drawing: Drawing, settings: MillSettings) {
  const source = { name: 'plate', at: 'shop.cnc' };
  const path = cutPathOf(drawing, { for: 'cnc', ...settings }, source);
  const made = path.ok ? millPrograms(drawing, path.value, settings, source) : path;
  const programs = (made.ok ? made.value : []).map(({ suffix, program }) => {
    const text = gcodeWriter.write(program);
    return { suffix, program, text, played: replay(text) };
  });
  const diagnostics = path.ok ? [...path.diagnostics, ...made.diagnostics] : path.diagnostics;
  return { diagnostics, codes: diagnostics.map(({ code }) => code), programs };
}
