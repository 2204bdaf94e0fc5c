import { afterAll, describe, expect, test } from 'vitest';
import { sentence } from '../../src/diagnostics/catalogue.js';
import { hasErrors } from '../../src/diagnostics/diagnostic.js';
import { formatterFor } from '../../src/diagnostics/formatter.js';
import { type TestCutBoard, type TestCutRequest, testCut } from '../../src/verify/assemble.js';
import {
  difference,
  dilate,
  erode,
  evenOdd,
  extents,
  rectangle,
  union,
} from '../../src/verify/cut/polygons.js';
import { type ReportedJoint, requestOf } from '../../src/verify/files/from-report.js';
import { judgeTestCut } from '../../src/verify/judge.js';
import { withVertices } from './dxf-faults.js';
import type { WrittenJoint } from './written-joint.js';

/**
 * Errors put on purpose into templates as they are written, or into what is known of bit, bushing and board. The
 * test cut has to catch every one, and to pass the very same joint without it. The table is printed.
 */

/** An error: in the text of one template's DXF, in the files altogether, or in what is put in the router. */
export interface Fault {
  readonly name: string;
  readonly joint: string;
  readonly inFile?: (dxf: string) => string;
  /** Board whose file or request it is put into; every board's when left out. */
  readonly board?: string;
  readonly inFiles?: (files: WrittenJoint['files']) => WrittenJoint['files'];
  readonly inRequest?: (board: TestCutBoard) => TestCutBoard;
}

export const plateGrown = (by: (board: TestCutBoard) => number) => (board: TestCutBoard) => {
  const plate = evenOdd(board.drawing.layers.CUT ?? []);
  const amount = by(board);
  return withPlate(board, amount > 0 ? dilate(plate, amount) : erode(plate, -amount));
};

function withPlate(board: TestCutBoard, CUT: NonNullable<WrittenLayers['CUT']>): TestCutBoard {
  return { ...board, drawing: { ...board.drawing, layers: { ...board.drawing.layers, CUT } } };
}
type WrittenLayers = TestCutBoard['drawing']['layers'];

/** δ = B/2 − r of the bit's tip, by which the template's outline stands inside the waste that leaves the board. */
export const offset = ({ bushing, cutter }: TestCutBoard): number => (bushing - cutter.diameter) / 2;

/** An upright strip of the plate with one finger, from its tip to its root; screw holes lie farther back. */
const inStrip = (from: number, to: number) => (vertex: { x: number; y: number }) =>
  vertex.x > from && vertex.x < to && vertex.y < 20;

export const moveFinger = (from: number, to: number, by: number) => (dxf: string) =>
  withVertices(dxf, 'CUT', (v) => (inStrip(from, to)(v) ? { ...v, x: v.x + by } : v));

export const scaled = (by: number) => (dxf: string) =>
  withVertices(dxf, 'CUT', ({ x, y }) => ({ x: x * by, y: y * by }));
export const shiftedBy = (dx: number, dy: number) => (dxf: string) =>
  withVertices(dxf, 'CUT', ({ x, y }) => ({ x: x + dx, y: y + dy }));
export const mirroredAbout = (width: number) => (dxf: string) =>
  withVertices(dxf, 'CUT', ({ x, y }) => ({ x: width - x, y }), true);
export const turned = (degrees: number) => (dxf: string) => {
  const [s, c] = [Math.sin((degrees * Math.PI) / 180), Math.cos((degrees * Math.PI) / 180)];
  return withVertices(dxf, 'CUT', ({ x, y }) => ({ x: c * x - s * y, y: s * x + c * y }));
};

/** Every template in place of the one after it. */
export const swappedFiles = (files: WrittenJoint['files']): WrittenJoint['files'] => {
  const templates = files.filter(({ name }) => name.endsWith('.dxf'));
  return templates.map(({ name }, i) => ({ name, text: templates[(i + 1) % templates.length]?.text ?? '' }));
};

/** Without the finger over a stretch of the board; the spine behind the fence stays. */
export const withoutFinger = (from: number, to: number) => (board: TestCutBoard) => {
  const plate = evenOdd(board.drawing.layers.CUT ?? []);
  const { minY } = extents(plate);
  return withPlate(board, difference(plate, [rectangle({ minX: from, maxX: to, minY: minY - 1, maxY: 2 })]));
};
/** With a bar across the mouth of every opening. */
export const mouthsClosed = (board: TestCutBoard) => {
  const plate = evenOdd(board.drawing.layers.CUT ?? []);
  const box = extents(plate);
  return withPlate(board, union(plate, [rectangle({ ...box, maxY: box.minY + 3 })]));
};
export const bit = (diameter: number, degrees?: number) => (board: TestCutBoard) => ({
  ...board,
  cutter: {
    diameter: board.cutter.diameter + diameter,
    angle: degrees === undefined ? board.cutter.angle : (degrees * Math.PI) / 180,
  },
});
export const bushing = (by: number) => (board: TestCutBoard) => ({ ...board, bushing: board.bushing + by });

/** The tests of a table of faults: every one is a change, and is caught. `joint` gives a sound joint by its name. */
export function expectAllCaught(
  title: string,
  faults: readonly Fault[],
  slack: number,
  joint: (name: string) => WrittenJoint,
): void {
  describe(title, () => {
    const rows: string[] = [];
    afterAll(() => {
      const head = `fault | joint | caught | what was measured`;
      console.log(
        `${faults.length} faults, ${rows.filter((row) => row.includes('| yes |')).length} caught\n${[head, ...rows].join('\n')}`,
      );
    });

    test.each([...new Set(faults.map((fault) => fault.joint))])('a %s joint without one closes', (name) => {
      expect(judged(joint(name), slack)).toMatchObject({ caught: false });
    });

    test.each(faults)('$name ($joint, $board) is caught', (fault) => {
      const { caught, measured, changed } = judged(joint(fault.joint), slack, fault);
      rows.push(
        `${fault.name} | ${fault.joint}${fault.board ? `, ${fault.board}` : ''} | ${caught ? 'yes' : 'NO'} | ${measured}`,
      );
      expect(changed).toBe(true);
      expect(caught).toBe(true);
    });
  });
}

export interface Verdict {
  readonly changed: boolean;
  readonly caught: boolean;
  readonly measured: string;
}

/** What the test cut says of a joint with a fault in it, or with none. */
export function judged(joint: WrittenJoint, slack: number, fault?: Fault): Verdict {
  const isIts = (file: string): boolean => fault?.board === undefined || file.includes(`-${fault.board}.`);
  const inPlace = fault?.inFiles ? fault.inFiles(joint.files) : joint.files;
  const files = inPlace.map((file) =>
    fault?.inFile && file.name.endsWith('.dxf') && isIts(file.name)
      ? { ...file, text: fault.inFile(file.text) }
      : file,
  );
  const read = requestOf(joint.report as ReportedJoint, files);
  const changedText = asNumbers(files) !== asNumbers(joint.files);
  if (!read.ok) return said(read.diagnostics, changedText);
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
    ? said(judgeTestCut(cut.value, slack, 'joints.corner'), changed)
    : said(cut.diagnostics, changed);
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

function said(diagnostics: ReturnType<typeof judgeTestCut>, changed: boolean): Verdict {
  const measured = diagnostics
    .map((one) => `${one.code}: ${sentence(one, formatterFor('mm'))}`.slice(0, 100))
    .join(' | ');
  return { caught: hasErrors(diagnostics), measured, changed };
}
