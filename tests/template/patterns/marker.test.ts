import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { formatterFor } from '../../../src/diagnostics/formatter.js';
import { extentsOf } from '../../../src/drawing/drawing.js';
import type { ClosedItem, Drawing } from '../../../src/drawing/model.js';
import type { MarkerOptions } from '../../../src/input/types.js';
import type { SolvedJoint } from '../../../src/joints/family.js';
import { markerOf } from '../../../src/template/patterns/marker.js';
import { handJobs } from '../../support/hand-jobs.js';
import { codesOf, readSample, readText, solveOnly } from '../../support/jobs.js';
import { crossedTexts, meetingTexts, textBoxes } from '../../support/text-boxes.js';

const fmt = formatterFor('mm');

function through(slope: string, width = 90): SolvedJoint {
  const text = `
title: Specimen cabinet
units: mm
joints:
  tray:
    kind: through-dovetail
    width: ${width}
    boards: { tails: { thickness: 8 }, pins: { thickness: 12 } }
    slope: "${slope}"
    layout: { tails: 3 }`;
  const solved = solveOnly(readText(text)).made?.solved;
  if (!solved) throw new Error('refused');
  return solved;
}

function drawn(solved: SolvedJoint, options: MarkerOptions): Drawing {
  const [marker] = markerOf(solved, options, 'Specimen cabinet', fmt);
  if (!marker) throw new Error('no marker');
  return marker.drawing;
}

/** x of the plate's straight edges where the line at height y crosses them, and how far each leans (dx/dy). */
function edgesAt(drawing: Drawing, y: number): readonly { readonly x: number; readonly lean: number }[] {
  return drawing.items
    .filter((item): item is ClosedItem => item.kind === 'closed' && item.layer === 'CUT')
    .flatMap(({ outline }) =>
      outline.segments.flatMap(({ kind, from, to }) => {
        if (kind !== 'line' || from.y > y === to.y > y) return [];
        const lean = (to.x - from.x) / (to.y - from.y);
        return [{ x: from.x + (y - from.y) * lean, lean }];
      }),
    )
    .sort((a, b) => a.x - b.x);
}

describe('the marker of a through dovetail', () => {
  test.each([
    ['1:6', 0],
    ['1:6', 0.5],
    ['1:8', 0.3],
    ['1:5', 1],
  ])('at slope %s, a line %f wide has its middle on the wall of the pin, square to it', (slope, line) => {
    const solved = through(slope);
    const drawing = drawn(solved, { line });
    const n = Number(slope.split(':')[1]);
    // Half of the line, square to a wall that leans 1 in n, is this much along x: (w/2) / cos θ.
    const along = (line / 2) * Math.sqrt(1 + 1 / n ** 2);
    for (const fromEnd of [2, 6, 10]) {
      // A tail at that distance from its end: its width at the baseline and what the slope adds.
      const wider = (12 - fromEnd) / n;
      const walls = solved.layout.spans
        .filter(({ part }) => part === 'tail')
        .flatMap(({ from, to }) => [from - wider + along, to + wider - along]);
      const edges = edgesAt(drawing, -fromEnd);
      expect(edges).toHaveLength(walls.length);
      edges.forEach(({ x }, i) => {
        expect(x).toBeCloseTo(walls[i] ?? Number.NaN, 6);
      });
    }
  });

  test('the part over the end has square edges, as far apart as the tails are at their end', () => {
    const solved = through('1:6');
    const edges = edgesAt(drawn(solved, { line: 0.5 }), 4);
    const walls = solved.layout.spans
      .filter(({ part }) => part === 'tail')
      .flatMap(({ from, to }) => [from - 2 + 0.25, to + 2 - 0.25]);
    expect(edges).toHaveLength(walls.length);
    for (const { lean } of edges) expect(Math.abs(lean)).toBeLessThan(1e-9);
    edges.forEach(({ x }, i) => {
      expect(x).toBeCloseTo(walls[i] ?? Number.NaN, 6);
    });
  });

  test('one part serves both boards: the tips of its teeth give the pins their baseline', () => {
    const drawing = drawn(through('1:6'), { line: 0.5 });
    expect(drawing.items.filter(({ layer }) => layer === 'CUT')).toHaveLength(1);
    // The tail board is 8 thick; half of a line lies past the tips.
    expect(extentsOf(drawing, ['CUT'])?.maxY).toBeCloseTo(8 - 0.25, 9);
    expect(drawing.notes.join(' ')).toContain('pins: this part on the end');
  });

  test('the slope stands on it as ratio and degrees, the line as it was given', () => {
    const words = textBoxes(drawn(through('1:6'), {})).map(({ text }) => text);
    expect(words).toContain('slope 1:6, 9.46°');
    expect(words.join(' ')).toContain('0.5 mm');
  });

  test('folds on a scored line at the arris; a hook has a band for its strip', () => {
    const scores = (options: MarkerOptions) =>
      new Set(
        drawn(through('1:6'), options).items.flatMap((item) =>
          item.kind === 'open' && item.layer === 'SCORE' ? [item.path.segments[0]?.from.y] : [],
        ),
      );
    expect([...scores({})]).toEqual([0]);
    expect([...scores({ form: 'hook' })]).toEqual([0, 10]);
    const hook = drawn(through('1:6'), { form: 'hook', line: 0 });
    expect(extentsOf(hook, ['CUT'])?.maxY).toBeCloseTo(18, 9);
    expect(edgesAt(hook, 5).map(({ x }) => x)).toEqual(edgesAt(hook, 14).map(({ x }) => x));
  });
});

test('half-blind boards get a part each: the front is marked on its end and its inside face', () => {
  const text = `
title: Specimen cabinet
units: mm
joints:
  drawer:
    kind: half-blind-dovetail
    width: 90
    boards: { tails: { thickness: 10 }, pins: { thickness: 20 } }
    slope: 1:7
    depth: 14
    layout: { tails: 2 }`;
  const solved = solveOnly(readText(text)).made?.solved;
  if (!solved) throw new Error('refused');
  const outlines = drawn(solved, { line: 0 }).items.filter(({ layer }) => layer === 'CUT');
  // The side's comb, and the front's plate with a window for each socket.
  expect(outlines).toHaveLength(2 + 2);
});

test('words keep clear of each other and of every edge, whatever the joint', () => {
  let seen = 0;
  fc.assert(
    fc.property(handJobs, fc.constantFrom(0, 0.5), fc.constantFrom('fold', 'hook'), (text, line, form) => {
      const solved = solveOnly(readText(text)).made?.solved;
      if (!solved) return;
      const drawing = drawn(solved, { line, form });
      seen += 1;
      expect(textBoxes(drawing).length).toBeGreaterThan(0);
      expect(meetingTexts(drawing)).toEqual([]);
      expect(crossedTexts(drawing, ['CUT', 'SCORE'])).toEqual([]);
    }),
    { numRuns: 60, seed: 20261125 },
  );
  expect(seen).toBeGreaterThan(25);
});

test('samples cut by router have a marker, too; a line as wide as a finger is refused', () => {
  for (const name of ['case-corner.yaml', 'small-tray.yaml', 'slide-box.yaml']) {
    const solved = solveOnly(readSample(name)).made?.solved;
    expect(solved && markerOf(solved, {}, 'x', fmt)).toHaveLength(1);
  }
  const bad = `
title: x
units: mm
joints:
  a: { kind: box, width: 60, boards: { one: { thickness: 9 }, two: { thickness: 9 } }, marker: { line: 5 } }`;
  expect(() => solveOnly(readText(bad))).toThrow(/2 mm.*a wider line is no line to saw to/);
  expect(codesOf(solveOnly(readText(bad.replace('line: 5', 'line: 0'))), 'refused')).toEqual([]);
});
