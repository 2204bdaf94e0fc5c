import { describe, expect, test } from 'vitest';
import { areaOfRegion } from '../../src/geometry/outline.js';
import { intersection, union } from '../../src/geometry/regions/boolean.js';
import { mirrorY, translate } from '../../src/geometry/transform.js';
import { readJob } from '../../src/input/read-job.js';
import { placementOf } from '../../src/joints/boards.js';
import { THROUGH } from '../../src/joints/edge/edge.js';
import { families } from '../../src/joints/list.js';
import { solveJob } from '../../src/outputs/joint.js';
import { readSample, readText } from '../support/jobs.js';
import { judgeFiles, makeFiles } from '../support/made.js';

/** Joint lines from drawings: what a bit can follow, and what is said where it cannot. */

const shop = {
  bits: {
    'straight-6': { kind: 'straight', diameter: 6, height: 40 },
    'straight-10': { kind: 'straight', diameter: 10, height: 40 },
    'straight-16': { kind: 'straight', diameter: 16, height: 40 },
  },
  bushings: { guide: { outside: 17 } },
  plate: { material: 'plywood', thickness: 12, 'least-finger': 3 },
};

function diagnosticsOf(
  line: object,
  joint: object = {},
  files: Readonly<Record<string, string>> = {},
  tools: object = shop,
) {
  const text = JSON.stringify({
    units: 'mm',
    shop: tools,
    joints: {
      edging: {
        kind: 'edge',
        width: 100,
        boards: { one: { thickness: 18 }, two: { thickness: 18 } },
        line,
        cutter: 'straight-10',
        bushing: 'guide',
        fit: { slack: 0 },
        ...joint,
      },
    },
  });
  const reading = readJob({ name: 'job.yaml', text }, families, (path) => files[path]);
  const { result } = reading;
  const outcome = result.ok ? solveJob(result.value)[0] : undefined;
  return {
    diagnostics: [...result.diagnostics, ...(outcome?.diagnostics ?? [])],
    solved: outcome?.made?.solved,
    files: reading.files,
  };
}

const refusedIn = (found: ReturnType<typeof diagnosticsOf>) =>
  found.diagnostics.filter(({ level }) => level === 'refused');

/** A parabola y = x²/2ρ about x = 50, whose radius at the vertex is ρ: exact as a quadratic Bézier; level beside it. */
function parabola(radius: number, upward: boolean): string {
  const half = 1.5 * radius;
  const rise = (upward ? -1 : 1) * (half ** 2 / (2 * radius));
  return `M 0 ${rise} L ${50 - half} ${rise} Q 50 ${-rise} ${50 + half} ${rise} L 100 ${rise}`;
}

describe('a bend', () => {
  // Board one lies above the line: it is cut where the line bulges upward, board two where it sags.
  test.each([
    [3, false, 'one'],
    [4.2, false, 'one'],
    [3, true, 'two'],
    [4.2, true, 'two'],
  ])('of radius %s is refused with its place, its radius and the largest bit', (radius, sags, board) => {
    const found = refusedIn(diagnosticsOf({ d: parabola(radius, sags), unit: 'mm' }));
    const tight = found.filter(({ code }) => code === 'bend-tight');
    expect(tight).toHaveLength(1);
    const data = tight[0]?.data as { board: string; x: number; radius: number; largest: number };
    expect(data.radius).toBeCloseTo(radius, 6);
    expect(data.largest).toBeCloseTo(2 * radius, 6);
    expect(data.x).toBeCloseTo(50, 6);
    expect(data.board).toBe(board);
  });

  test('names the bits of the shop that would do', () => {
    const smooth = 'M 0 0 C 20 0 30 22 50 22 S 80 0 100 0';
    const line = { d: smooth, unit: 'mm' };
    expect(refusedIn(diagnosticsOf(line))).toEqual([]);
    const found = refusedIn(diagnosticsOf({ d: 'M 0 0 C 30 0 44 22 50 22 S 70 0 100 0', unit: 'mm' }));
    const tight = found.find(({ code }) => code === 'bend-tight');
    expect(tight?.data).toMatchObject({ bit: 'straight-10' });
    const { largest, others } = (tight?.data ?? {}) as { largest: number; others: readonly string[] };
    for (const name of others) expect(shop.bits[name as 'straight-6'].diameter).toBeLessThanOrEqual(largest);
  });
});

test.each([
  ['a corner', 'M 0 0 L 50 10 L 100 0', 'corner-sharp'],
  ['a loop', 'M 0 0 C 120 60 -20 60 100 0', 'line-crosses-itself'],
  ['a line that ends on the board', 'M 0 0 L 60 0', 'line-short'],
  ['a closed line', 'M 0 0 L 100 0 L 50 40 Z', 'path-closed'],
  ['a line in parts', 'M 0 0 L 40 0 M 60 0 L 100 0', 'path-in-parts'],
  ['an upright line', 'M 0 0 L 0 100', 'line-upright'],
  ['a bad path', 'M 0 0 L 50 10 X', 'path-unreadable'],
])('%s is refused', (_, d, code) => {
  expect(refusedIn(diagnosticsOf({ d, unit: 'mm' })).map((one) => one.code)).toContain(code);
});

test('a bad path gets the position of its character', () => {
  const [one] = refusedIn(diagnosticsOf({ d: 'M 0 0 L 50 10 X', unit: 'mm' }));
  expect(one?.data).toMatchObject({ position: 15 });
});

test.each([
  ['that do not join in height', 'M 0 0 L 30 5', 'repeat-step'],
  ['that kink', 'M 0 0 Q 15 8 30 0', 'repeat-kink'],
])('repeats %s are refused', (_, d, code) => {
  expect(refusedIn(diagnosticsOf({ d, unit: 'mm' }, { repeat: {} })).map((one) => one.code)).toContain(code);
});

test('by hand a line may have corners, where it repeats, too', () => {
  const found = diagnosticsOf(
    { d: 'M 0 0 L 25 12 L 50 0', unit: 'mm' },
    { repeat: {}, cutter: undefined, bushing: undefined },
  );
  expect(refusedIn(found)).toEqual([]);
  expect(found.solved?.cuts).toEqual([]);
});

describe('an SVG document', () => {
  const wave = 'M 0 0 C 20 0 30 10 50 10 S 80 0 100 0';
  const inside = (body: string, attributes = 'width="100mm" height="40mm" viewBox="0 0 100 40"') =>
    `<svg xmlns="http://www.w3.org/2000/svg" ${attributes}>${body}</svg>`;
  const heightOf = (svg: string, id?: string) => {
    const found = diagnosticsOf(
      { svg: 'wave.svg', ...(id && { id }) },
      { repeat: {}, width: 300 },
      { 'wave.svg': svg },
    );
    expect(refusedIn(found)).toEqual([]);
    const blanks = found.diagnostics.find(({ code }) => code === 'edge-blanks');
    return (blanks?.data as { height: number } | undefined)?.height;
  };

  // CSS Values and Units 3, "Absolute lengths": 1 in = 2.54 cm = 25.4 mm = 96 px = 72 pt = 6 pc.
  test.each([
    ['mm', inside(`<path d="${wave}"/>`), 10],
    [
      'in, by its viewBox',
      inside(`<path d="${wave}"/>`, 'width="10in" height="4in" viewBox="0 0 100 40"'),
      25.4,
    ],
    ['px', inside(`<path d="${wave}"/>`, 'width="100" height="40"'), (10 * 25.4) / 96],
    [
      'pt',
      inside(`<path d="${wave}"/>`, 'width="100pt" height="40pt" viewBox="0 0 100 40"'),
      (10 * 25.4) / 72,
    ],
    [
      'transforms one in another',
      inside(`<g transform="translate(5 3) scale(2)"><path transform="rotate(180)" d="${wave}"/></g>`),
      20,
    ],
    ['a matrix', inside(`<path transform="matrix(1 0 0 1.5 0 9)" d="${wave}"/>`), 15],
  ])('is read in %s', (_, svg, height) => {
    expect(heightOf(svg)).toBeCloseTo(height, 4);
  });

  test('gives the line with the id, and lists the ids where none is named', () => {
    const two = inside(`<path id="wave" d="${wave}"/><line id="ruler" x1="0" y1="0" x2="100" y2="0"/>`);
    expect(heightOf(two, 'wave')).toBeCloseTo(10, 4);
    const [many] = refusedIn(diagnosticsOf({ svg: 'w.svg' }, {}, { 'w.svg': two }));
    expect(many).toMatchObject({ code: 'svg-lines-many', data: { ids: ['wave', 'ruler'] } });
    const [unknown] = refusedIn(diagnosticsOf({ svg: 'w.svg', id: 'none' }, {}, { 'w.svg': two }));
    expect(unknown).toMatchObject({ code: 'svg-id-unknown', data: { known: ['wave', 'ruler'] } });
  });

  test('is listed among the files to watch, there or not', () => {
    expect(diagnosticsOf({ svg: 'w.svg' }).files).toEqual(['job.yaml', 'w.svg']);
    expect(refusedIn(diagnosticsOf({ svg: 'w.svg' })).map(({ code }) => code)).toEqual([
      'text-file-unreadable',
    ]);
  });

  test('that is broken is refused with its line', () => {
    const [one] = refusedIn(diagnosticsOf({ svg: 'w.svg' }, {}, { 'w.svg': '<svg>\n<path d="M0 0"' }));
    expect(one).toMatchObject({ code: 'svg-unreadable', data: { line: 2 } });
  });
});

describe('the largest bit that is named', () => {
  const jobOf = (diameter: number, d: string) =>
    diagnosticsOf(
      { d, unit: 'mm' },
      { cutter: 'tried' },
      {},
      {
        ...shop,
        bits: { tried: { kind: 'straight', diameter, height: 40 } },
        bushings: { guide: { outside: 20 } },
      },
    );

  test.each([
    ['one', parabola(4.2, false)],
    ['two', parabola(4.2, true)],
  ])('does on board %s, and one that is a little larger does not', (board, d) => {
    const [tight] = refusedIn(jobOf(10, d)).filter(({ code }) => code === 'bend-tight');
    const { largest } = (tight?.data ?? { largest: 0 }) as { largest: number };
    const bays = (diameter: number) =>
      refusedIn(jobOf(diameter, d)).filter(({ code, data }) => {
        return code === 'bend-tight' && (data as { board: string }).board === board;
      });
    expect(bays(largest)).toEqual([]);
    // What a bit leaves grows with the square of what it is too large: 0.005 mm is not reached at once.
    expect(bays(largest * 1.15)).toHaveLength(1);
  });
});

describe('a solved edge', () => {
  test('is cut right through both boards, a little into what lies under them', () => {
    const boards = { one: { thickness: 18 }, two: { thickness: 12 } };
    const { solved } = diagnosticsOf({ d: 'M 0 0 H 100', unit: 'mm' }, { boards });
    expect(solved?.cuts.map(({ depth }) => depth)).toEqual([18 + THROUGH, 12 + THROUGH]);
  });

  test('has waste on both faces alike that fills the blanks, with no wood between', () => {
    const { solved } = diagnosticsOf({ d: 'M 0 0 C 20 0 30 22 50 22 S 80 0 100 0', unit: 'mm' });
    const [one, two] = solved?.markings ?? [];
    if (!solved || !one || !two) throw new Error('refused');
    const meeting = placementOf(solved)?.y ?? 0;
    const other = two.outsideFace.waste.map((shape) => translate(mirrorY(shape), 0, meeting));
    expect(areaOfRegion(union(one.outsideFace.waste, other))).toBeCloseTo(100 * meeting, 2);
    expect(areaOfRegion(intersection(one.outsideFace.waste, other))).toBeLessThan(0.01);
    for (const { outsideFace, insideFace } of [one, two]) expect(insideFace).toEqual(outsideFace);
    // Held with its edge up and its reference edge left, each board shows another face.
    expect([one.faceUpright, two.faceUpright]).toEqual(['inside', 'outside']);
  });

  test('makes no corner, and a piece that wants one is told', () => {
    const text = `units: mm
shop: ./shop.yaml
joints:
  edging:
    kind: edge
    width: 100
    boards: { one: { thickness: 15 }, two: { thickness: 15 } }
    line: { d: M 0 0 H 100, unit: mm }
pieces:
  tray: { kind: box, corners: edging, outside: { length: 300, width: 200, height: 100 } }
`;
    const [outcome] = solveJob(readText(text));
    expect(outcome?.diagnostics.map(({ code }) => code)).toContain('piece-no-corner');
  });

  test('has no marker; asked for one it says so', async () => {
    const job = readSample('edge-drawer-edging.yaml');
    const outcomes = solveJob(job);
    const files = await makeFiles(job, outcomes, { only: ['marker'], as: ['svg'] });
    expect(files.map(({ path }) => path)).toEqual(['drawer-edging/report.json']);
    const said = await judgeFiles(job, outcomes, { only: ['marker'], as: ['svg'] });
    expect(said.map(({ code }) => code)).toEqual(['asked-unmade']);
    expect(await judgeFiles(job, outcomes, { as: ['svg'] })).toEqual([]);
  });
});
