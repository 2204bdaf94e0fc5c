import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { sentence } from '../../src/findings/catalogue.js';
import { isRefused } from '../../src/findings/finding.js';
import { sayIn } from '../../src/findings/say.js';
import { type TestCutBoard, type TestCutRequest, testCut } from '../../src/testcut/assemble.js';
import { type ReportedJoint, requestOf } from '../../src/testcut/from-report.js';
import { judgeTestCut } from '../../src/testcut/judge.js';
import { difference, dilate, erode, evenOdd, extents, rectangle, union } from '../../src/testcut/polygons.js';
import { verticesOn, withGroup, withVertices } from '../support/dxf-faults.js';
import { isWritten, type WrittenJoint, writeJoint } from '../support/written-joint.js';

/**
 * Errors put on purpose into templates as they are written, or into what is known of bit, bushing and board. The
 * test cut has to catch every one, and to pass the very same joint without it. The table is printed.
 */

const shop = {
  bits: {
    dovetail: { kind: 'dovetail', diameter: '1/2 in', angle: 8, height: '13/16 in', shank: '1/4 in' },
    straight: { kind: 'straight', diameter: '3/8 in', height: '1-1/4 in', shank: '1/4 in' },
  },
  bushings: { small: { outside: '7/16 in', bore: '13/32 in', barrel: '5/32 in' } },
  plate: { material: 'plywood', thickness: '1/2 in', 'least-finger': '3/16 in' },
};

/** Neither is its own mirror image. */
const jobs = {
  through: (slack: number) => ({
    kind: 'through-dovetail',
    width: 110,
    boards: { tails: { thickness: 12 }, pins: { thickness: 13 } },
    layout: { spacing: 'list', spans: [9, 27, 18, 23, 15, 10, 8] },
    cutters: { tails: 'dovetail', pins: 'straight' },
    bushing: 'small',
    fit: { slack },
  }),
  box: (slack: number) => ({
    kind: 'box',
    width: 96,
    boards: { one: { thickness: 10 }, two: { thickness: 12 } },
    layout: { spacing: 'list', spans: [16, 14, 18, 12, 20, 16] },
    cutter: 'straight',
    bushing: 'small',
    fit: { slack },
  }),
};
type Which = keyof typeof jobs;

const SLACK = 0.1;

const text = (which: Which, slack: number): string =>
  JSON.stringify({
    title: 'Specimen cabinet, tray',
    units: 'mm',
    shop,
    joints: { corner: jobs[which](slack) },
  });

const sound = new Map<Which, WrittenJoint>();
const loose = new Map<Which, WrittenJoint>();

async function written(which: Which, slack: number): Promise<WrittenJoint> {
  const one = await writeJoint(text(which, slack));
  if (!isWritten(one)) throw new Error(`${which}: ${one.join(', ')}`);
  return one;
}

beforeAll(async () => {
  for (const which of ['through', 'box'] as const) {
    sound.set(which, await written(which, SLACK));
    loose.set(which, await written(which, 2 * SLACK));
  }
});

/** An error: in the text of one template's DXF, in the files altogether, or in what is put in the router. */
interface Fault {
  readonly name: string;
  readonly joint: Which;
  readonly inFile?: (dxf: string) => string;
  /** Board whose file or request it is put into; every board's when left out. */
  readonly board?: string;
  readonly inFiles?: (files: WrittenJoint['files'], which: Which) => WrittenJoint['files'];
  readonly inRequest?: (board: TestCutBoard) => TestCutBoard;
}

const plateGrown = (by: (board: TestCutBoard) => number) => (board: TestCutBoard) => {
  const plate = evenOdd(board.drawing.layers.CUT ?? []);
  const amount = by(board);
  return withPlate(board, amount > 0 ? dilate(plate, amount) : erode(plate, -amount));
};

function withPlate(board: TestCutBoard, CUT: NonNullable<WrittenLayers['CUT']>): TestCutBoard {
  return { ...board, drawing: { ...board.drawing, layers: { ...board.drawing.layers, CUT } } };
}
type WrittenLayers = TestCutBoard['drawing']['layers'];

/** δ = B/2 − r of the bit's tip, by which the template's outline stands inside the waste that leaves the board. */
const offset = ({ bushing, cutter }: TestCutBoard): number => (bushing - cutter.diameter) / 2;

/** An upright strip of the plate with one finger, from its tip to its root; screw holes lie farther back. */
const inStrip = (from: number, to: number) => (vertex: { x: number; y: number }) =>
  vertex.x > from && vertex.x < to && vertex.y < 20;

const moveFinger = (from: number, to: number, by: number) => (dxf: string) =>
  withVertices(dxf, 'CUT', (v) => (inStrip(from, to)(v) ? { ...v, x: v.x + by } : v));

const scaled = (by: number) => (dxf: string) =>
  withVertices(dxf, 'CUT', ({ x, y }) => ({ x: x * by, y: y * by }));
const shiftedBy = (dx: number, dy: number) => (dxf: string) =>
  withVertices(dxf, 'CUT', ({ x, y }) => ({ x: x + dx, y: y + dy }));
const mirroredAbout = (width: number) => (dxf: string) =>
  withVertices(dxf, 'CUT', ({ x, y }) => ({ x: width - x, y }), true);
const turned = (degrees: number) => (dxf: string) => {
  const [s, c] = [Math.sin((degrees * Math.PI) / 180), Math.cos((degrees * Math.PI) / 180)];
  return withVertices(dxf, 'CUT', ({ x, y }) => ({ x: c * x - s * y, y: s * x + c * y }));
};

/** Every template in place of the one after it. */
const swappedFiles = (files: WrittenJoint['files']): WrittenJoint['files'] => {
  const templates = files.filter(({ name }) => name.endsWith('.dxf'));
  return templates.map(({ name }, i) => ({ name, text: templates[(i + 1) % templates.length]?.text ?? '' }));
};
const looseFiles = (_: WrittenJoint['files'], which: Which) => loose.get(which)?.files ?? [];

/** Without the finger over a stretch of the board; the spine behind the fence stays. */
const withoutFinger = (from: number, to: number) => (board: TestCutBoard) => {
  const plate = evenOdd(board.drawing.layers.CUT ?? []);
  const { minY } = extents(plate);
  return withPlate(board, difference(plate, [rectangle({ minX: from, maxX: to, minY: minY - 1, maxY: 2 })]));
};
/** With a bar across the mouth of every opening. */
const mouthsClosed = (board: TestCutBoard) => {
  const plate = evenOdd(board.drawing.layers.CUT ?? []);
  const box = extents(plate);
  return withPlate(board, union(plate, [rectangle({ ...box, maxY: box.minY + 3 })]));
};
const bit = (diameter: number, degrees?: number) => (board: TestCutBoard) => ({
  ...board,
  cutter: {
    diameter: board.cutter.diameter + diameter,
    angle: degrees === undefined ? board.cutter.angle : (degrees * Math.PI) / 180,
  },
});
const bushing = (by: number) => (board: TestCutBoard) => ({ ...board, bushing: board.bushing + by });

const faults: readonly Fault[] = [
  { name: 'bushing offset halved', joint: 'box', inRequest: plateGrown((b) => offset(b) / 2) },
  { name: 'bushing offset doubled', joint: 'box', inRequest: plateGrown((b) => -offset(b)) },
  { name: 'bushing offset with its sign turned', joint: 'box', inRequest: plateGrown((b) => 2 * offset(b)) },
  {
    name: 'bushing offset halved',
    joint: 'through',
    board: 'pins',
    inRequest: plateGrown((b) => offset(b) / 2),
  },
  {
    name: 'bushing offset doubled',
    joint: 'through',
    board: 'pins',
    inRequest: plateGrown((b) => -offset(b)),
  },
  {
    name: 'bushing offset with its sign turned',
    joint: 'through',
    board: 'tails',
    inRequest: plateGrown((b) => 2 * offset(b)),
  },
  { name: 'no bushing offset at all', joint: 'through', inRequest: plateGrown((b) => offset(b)) },
  { name: 'kerf of 0.2 mm not allowed for', joint: 'box', inRequest: plateGrown(() => -0.1) },
  { name: 'kerf of 0.2 mm on the wrong side', joint: 'through', inRequest: plateGrown(() => -0.2) },
  { name: 'kerf of 0.2 mm allowed for twice', joint: 'box', inRequest: plateGrown(() => 0.1) },
  { name: 'one finger moved by 0.2 mm', joint: 'box', board: 'one', inFile: moveFinger(28, 51, 0.2) },
  { name: 'one finger moved by 0.2 mm', joint: 'through', board: 'pins', inFile: moveFinger(34, 56, 0.2) },
  { name: 'one finger moved by 0.2 mm', joint: 'through', board: 'tails', inFile: moveFinger(50, 80, -0.2) },
  { name: 'a finger left out', joint: 'box', board: 'two', inRequest: withoutFinger(46, 62) },
  { name: 'a finger left out', joint: 'through', board: 'pins', inRequest: withoutFinger(35, 55) },
  { name: 'mirrored plate', joint: 'through', board: 'pins', inFile: mirroredAbout(110) },
  { name: 'mirrored plate', joint: 'through', board: 'tails', inFile: mirroredAbout(110) },
  { name: 'mirrored plate', joint: 'box', board: 'one', inFile: mirroredAbout(96) },
  { name: 'the two templates exchanged', joint: 'box', inFiles: swappedFiles },
  { name: 'the two templates exchanged', joint: 'through', inFiles: swappedFiles },
  { name: 'bit of 7° where 8° is meant', joint: 'through', board: 'tails', inRequest: bit(0, 7) },
  { name: 'bit of 14° where 8° is meant', joint: 'through', board: 'tails', inRequest: bit(0, 14) },
  { name: 'plate turned by half a degree', joint: 'through', board: 'pins', inFile: turned(0.5) },
  { name: 'plate turned by half a degree', joint: 'box', board: 'two', inFile: turned(0.5) },
  { name: 'plate 0.3 mm off its stop', joint: 'box', board: 'one', inFile: shiftedBy(0.3, 0) },
  { name: 'pin plate 2 mm forward', joint: 'through', board: 'pins', inFile: shiftedBy(0, -2) },
  { name: 'pin plate 2 mm back', joint: 'through', board: 'pins', inFile: shiftedBy(0, 2) },
  { name: 'open contour', joint: 'through', board: 'tails', inFile: (dxf) => withGroup(dxf, 'CUT', 70, '0') },
  { name: 'open contour', joint: 'box', board: 'one', inFile: (dxf) => withGroup(dxf, 'CUT', 70, '0') },
  {
    name: 'file in inches, numbers in mm',
    joint: 'box',
    inFile: (dxf) => dxf.replace(/(\$INSUNITS\s+70\s+)4/, '$11'),
  },
  { name: 'plate smaller by 25.4', joint: 'through', inFile: scaled(1 / 25.4) },
  { name: 'plate 0.5 % too large', joint: 'box', board: 'one', inFile: scaled(1.005) },
  { name: 'units left out', joint: 'box', inFile: (dxf) => dxf.replace('$INSUNITS', '$NOTHING') },
  { name: 'straight bit 1/16 in too large', joint: 'box', inRequest: bit(25.4 / 16) },
  {
    name: 'straight bit in place of the dovetail bit',
    joint: 'through',
    board: 'tails',
    inRequest: bit(0, 0),
  },
  { name: 'bushing 1/2 in for 7/16 in', joint: 'through', inRequest: bushing(25.4 / 16) },
  { name: 'bushing worn by 0.1 mm', joint: 'box', inRequest: bushing(-0.1) },
  {
    name: 'bushing changed between the boards',
    joint: 'through',
    board: 'pins',
    inRequest: bushing(-25.4 / 16),
  },
  { name: 'bar across the mouths', joint: 'box', board: 'two', inRequest: mouthsClosed },
  { name: 'slack doubled', joint: 'through', inFiles: looseFiles },
  { name: 'slack doubled', joint: 'box', inFiles: looseFiles },
  {
    name: 'board drawn 1 mm too thin',
    joint: 'through',
    board: 'pins',
    inFile: (dxf) => withVertices(dxf, 'STOCK', (v) => (v.y < -1 ? { ...v, y: v.y + 1 } : v)),
  },
  {
    name: 'board drawn 1 mm off the reference edge',
    joint: 'box',
    board: 'one',
    inFile: (dxf) => withVertices(dxf, 'STOCK', ({ x, y }) => ({ x: x + 1, y })),
  },
];

interface Verdict {
  readonly changed: boolean;
  readonly caught: boolean;
  readonly measured: string;
}

function judged(which: Which, fault?: Fault): Verdict {
  const joint = sound.get(which);
  if (!joint) throw new Error(which);
  const isIts = (file: string): boolean => fault?.board === undefined || file.includes(`-${fault.board}.`);
  const inPlace = fault?.inFiles ? fault.inFiles(joint.files, which) : joint.files;
  const files = inPlace.map((file) =>
    fault?.inFile && file.name.endsWith('.dxf') && isIts(file.name)
      ? { ...file, text: fault.inFile(file.text) }
      : file,
  );
  const read = requestOf(joint.report as ReportedJoint, files);
  const changedText = asNumbers(files) !== asNumbers(joint.files);
  if (!read.ok) return said(read.findings, changedText);
  const request: TestCutRequest = {
    ...read.value,
    boards: read.value.boards.map((board) =>
      fault?.inRequest && (fault.board === undefined || fault.board === board.board)
        ? fault.inRequest(board)
        : board,
    ),
  };
  const changed = changedText || fault?.inRequest !== undefined;
  const cut = testCut(request);
  return cut.ok
    ? said(judgeTestCut(cut.value, SLACK, 'joints.corner'), changed)
    : said(cut.findings, changed);
}

/** The files with every coordinate written alike, so that only a change of what is drawn shows. */
function asNumbers(files: WrittenJoint['files']): string {
  const plain = (dxf: string): string =>
    withVertices(
      withVertices(dxf, 'CUT', (vertex) => vertex),
      'STOCK',
      (vertex) => vertex,
    );
  return JSON.stringify(files.map((file) => ({ ...file, text: plain(file.text) })));
}

function said(findings: ReturnType<typeof judgeTestCut>, changed: boolean): Verdict {
  const measured = findings
    .map((one) => `${one.code}: ${sentence(one, sayIn('mm'))}`.slice(0, 100))
    .join(' | ');
  return { caught: isRefused(findings), measured, changed };
}

describe('deliberate errors', () => {
  const rows: string[] = [];
  afterAll(() => {
    const head = `fault | joint | caught | what was measured`;
    console.log(
      `${faults.length} faults, ${rows.filter((row) => row.includes('| yes |')).length} caught\n${[head, ...rows].join('\n')}`,
    );
  });

  test('are thirty or more', () => {
    expect(faults.length).toBeGreaterThanOrEqual(30);
  });

  test.each(['through', 'box'] as const)('a %s joint without one closes', (which) => {
    expect(judged(which)).toMatchObject({ caught: false });
    expect(verticesOn(sound.get(which)?.files[0]?.text ?? '', 'CUT').length).toBeGreaterThan(10);
  });

  test.each(faults)('$name ($joint, $board) is caught', (fault) => {
    const { caught, measured, changed } = judged(fault.joint, fault);
    rows.push(
      `${fault.name} | ${fault.joint}${fault.board ? `, ${fault.board}` : ''} | ${caught ? 'yes' : 'NO'} | ${measured}`,
    );
    expect(changed).toBe(true);
    expect(caught).toBe(true);
  });
});
