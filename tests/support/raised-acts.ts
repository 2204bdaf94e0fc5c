import type { Diagnostic, Result } from '../../src/diagnostics/diagnostic.js';
import { formatterFor } from '../../src/diagnostics/formatter.js';
import { refit } from '../../src/fit/refit.js';
import { toleranceStudy } from '../../src/fit/tolerance.js';
import { rectangle } from '../../src/geometry/outline.js';
import { difference } from '../../src/geometry/regions/boolean.js';
import type { Cut, SolvedJoint } from '../../src/joints/family.js';
import { kitOf } from '../../src/joints/kit/kit.js';
import { familyOf } from '../../src/joints/list.js';
import { readPrinter, setFactors } from '../../src/outputs/printer.js';
import { testCutJoint } from '../../src/outputs/testcut.js';
import { fingerTemplates } from '../../src/template/finger-template.js';
import { type TestCutBoard, testCut } from '../../src/verify/assemble.js';
import { judgeTestCut } from '../../src/verify/judge.js';
import { withVertices } from './dxf-faults.js';
import { plateGrown } from './faults.js';
import { cutByHand, readSample, readText, solveOnly } from './jobs.js';
import { drawer } from './troubled-jobs.js';
import { isWritten, requestFor, type WrittenJoint, writeJoint } from './written-joint.js';

const starter = familyOf('through-dovetail')?.starter ?? '';

/** What is done with a job besides solving it, or to its files, and the code that answers. */
export interface RaisedAct {
  readonly code: string;
  readonly raise: () => Promise<readonly Diagnostic[]> | readonly Diagnostic[];
}

const act = (code: string, raise: RaisedAct['raise']): RaisedAct => ({ code, raise });

const solvedOf = (text: string): SolvedJoint => {
  const solved = solveOnly(readText(text)).made?.solved;
  if (!solved) throw new Error('the job is refused');
  return solved;
};

const said = <T extends { readonly diagnostics: readonly Diagnostic[] }>(
  result: Result<T>,
): readonly Diagnostic[] =>
  result.ok ? [...result.diagnostics, ...result.value.diagnostics] : result.diagnostics;

// A trial piece

const caseCorner = () => {
  const solved = solveOnly(readSample('case-corner.yaml')).made?.solved;
  if (!solved) throw new Error('the sample is refused');
  return solved;
};
const boxCorner = () => {
  const solved = solveOnly(readSample('slide-box.yaml')).made?.solved;
  if (!solved) throw new Error('the sample is refused');
  return solved;
};
const measure = (code: string, solved: () => SolvedJoint, ...words: readonly string[]): RaisedAct =>
  act(code, () => said(refit(solved(), words, 'mm')));
const apart = () => solvedOf(drawer('width: 5\n    method: apart'));
const together = () => solvedOf(drawer('width: 5'));
const onePass = () => solvedOf(starter.replace('tails: 3', 'tails: 3, pin: 1/2'));
const oneTail = () => solvedOf(starter.replace('tails: 3', 'tails: 1'));

// Plates of a joint whose family wants something of them that they can't be

const plates = (code: string, change: (cut: Cut) => Cut): RaisedAct =>
  act(code, () => {
    const job = readSample('case-corner.yaml');
    const [joint] = job.joints;
    const solved = caseCorner();
    if (!joint) throw new Error('no joint');
    const context = {
      jobTitle: '',
      joint,
      shop: job.shop,
      fmt: formatterFor('mm'),
      holds: { label: '', note: '' },
    };
    return fingerTemplates({ ...solved, cuts: solved.cuts.map(change) }, context).diagnostics;
  });

// Test cuts

const text = (fields: Readonly<Record<string, unknown>>): string =>
  JSON.stringify({
    units: 'mm',
    shop: {
      bits: {
        dovetail: { kind: 'dovetail', diameter: 12.7, angle: 14, height: 12.7 },
        straight: { kind: 'straight', diameter: 9, height: 30 },
      },
      bushings: { large: { outside: 15 } },
      plate: { material: 'plywood', thickness: 6, 'least-finger': 4 },
    },
    joints: {
      corner: {
        kind: 'half-blind-dovetail',
        method: 'apart',
        width: 104,
        boards: { tails: { thickness: 12 }, pins: { thickness: 18 } },
        depth: 10,
        cutter: 'dovetail',
        bushing: 'large',
        layout: { spacing: 'list', spans: [9, 20, 14, 26, 13, 14, 8] },
        fit: { slack: 0.1 },
        ...fields,
      },
    },
  });

const written = async (fields: Readonly<Record<string, unknown>>): Promise<WrittenJoint> => {
  const one = await writeJoint(text(fields));
  if (!isWritten(one)) throw new Error(one.join());
  return one;
};

type Change = (board: TestCutBoard) => TestCutBoard;

interface AsCut {
  /** The board that is changed; every one where left out. */
  readonly board?: string;
  readonly change?: Change;
  readonly files?: (files: WrittenJoint['files']) => WrittenJoint['files'];
  /** In place of what the plate's material holds, mm. */
  readonly leastFinger?: number;
  /** Of the joint. */
  readonly fields?: Readonly<Record<string, unknown>>;
}

/** A drawer, or another joint, that is cut otherwise than asked, by its tools or its files. */
const cut = (
  code: string,
  { board, change = (one) => one, files = (all) => all, leastFinger, fields = {} }: AsCut,
): RaisedAct =>
  act(code, async () => {
    const joint = await written(fields);
    const request = requestFor({ ...joint, files: files(joint.files) });
    const boards = request.boards.map((one) =>
      board === undefined || one.board === board ? change(one) : one,
    );
    const made = testCut({ ...request, boards, ...(leastFinger !== undefined && { leastFinger }) });
    return made.ok ? judgeTestCut(made.value, 0.1, 'joints.corner') : made.diagnostics;
  });

const deeper =
  (by: number): Change =>
  (board) => ({ ...board, depth: board.depth + by });

const rootsMoved = (by: number) => (files: WrittenJoint['files']) =>
  files.map((file) =>
    file.name.startsWith('finger-template-sockets.')
      ? {
          ...file,
          text: withVertices(file.text, 'CUT', (v) => (v.y > 1 && v.y < 20 ? { ...v, y: v.y + by } : v)),
        }
      : file,
  );

/** The plates of the other end in place of these. */
const mirrored = (files: WrittenJoint['files']) =>
  files.map((file) => ({
    ...file,
    text: files.find(({ name }) => name === file.name.replace('.dxf', '-mirrored.dxf'))?.text ?? file.text,
  }));

const through = {
  kind: 'through-dovetail',
  method: undefined,
  depth: undefined,
  cutter: undefined,
  boards: { tails: { thickness: 12 }, pins: { thickness: 12 } },
  layout: { tails: 2 },
  cutters: { tails: 'dovetail', pins: 'straight' },
};
const lip = { lip: { end: 9, lower: 6, upper: 6, rabbet: 10.5 } };

// Printers

const shopText = 'units: mm\nprinter: { paper: a4, scale-x: 1.22 }\n';
const printerOf = (name: string, of: string) => readPrinter({ name, text: of }).result;
const factors = (code: string, page?: 'corrected'): RaisedAct =>
  act(code, () => {
    const read = printerOf('shop.yaml', shopText);
    return read.ok
      ? setFactors(shopText, read.value, { x: 144, ...(page && { page }) }).diagnostics
      : read.diagnostics;
  });

export const raisedActs: readonly RaisedAct[] = [
  act('kit-none', () => {
    const job = readText(drawer('width: 0.5'));
    const [joint] = job.joints;
    const family = joint && familyOf(joint.kind);
    return family ? kitOf(family, joint, job.shop).diagnostics : [];
  }),
  plates('plate-in-parts', (one) => ({
    ...one,
    // A moat round an island.
    waste: difference([rectangle(10, -30, 80, 30)], [rectangle(40, -5, 50, 5)]),
  })),
  // A bit that is wider than the sockets.
  plates('bit-cannot-reach', (one) => ({ ...one, cutterRadius: 15 })),

  measure('measured-none', oneTail, 'pin=5 mm'),
  measure('refit-looser', caseCorner, 'gap=0.3 mm'),
  measure(
    'refit-unexplained',
    boxCorner,
    ...['gap=0.4 mm', 'bit=6 mm', 'bushing=10 mm', 'kerf=0.1 mm', 'scale=1'],
  ),
  measure('refit-undecided', caseCorner, 'socket-2=16.9 mm'),
  measure('measured-scale', boxCorner, 'scale=abc'),
  measure('refit-keep', boxCorner, 'gap=0.1 mm', 'bushing=10.02 mm'),
  measure('refit-no-entry', onePass, 'bushing=11.4 mm'),
  act('refit-settings', () => said(refit(caseCorner(), ['gap=0.3 mm'], 'mm', { settings: { fence: 0.2 } }))),
  measure('refit-depth', together, 'overlap=0.05 mm'),
  measure('refit-board-depth', caseCorner, 'proud-tails=1 mm'),
  measure('refit-template', apart, 'proud-side=0.5 mm'),
  act('tolerance-shares', () => said(toleranceStudy(caseCorner(), {}, {}))),

  act('testcut-by-hand', () => {
    const report = solveOnly(readText(cutByHand)).made?.report;
    return report ? testCutJoint(report, 0.1, []).diagnostics : [];
  }),
  cut('joint-tight', { change: plateGrown(() => 0.02) }),
  cut('end-proud', { change: deeper(0.3), fields: through }),
  cut('face-proud', { files: rootsMoved(-0.4) }),
  cut('face-shy', { files: rootsMoved(0.4) }),
  cut('shoulders-open', { board: 'tails', change: deeper(0.3) }),
  cut('sockets-deep', { board: 'pins', change: deeper(0.3) }),
  cut('layout-uncut', { files: mirrored }),
  cut('cut-through-face', { change: deeper(8.5) }),
  cut('cut-into-lip', { change: deeper(1), fields: lip }),
  cut('cut-into-fence', { board: 'tails', change: (board) => ({ ...board, backing: 1 }) }),
  cut('cut-into-plate', {
    change: (board) => ({ ...board, bushing: 7, cutter: { ...board.cutter, height: 12 } }),
  }),
  cut('cut-finger-thin', { leastFinger: 20 }),

  factors('factor-range', 'corrected'),
  factors('factors-at-page'),
  act(
    'shop-elsewhere',
    () => printerOf('tray.yaml', 'units: mm\nshop: ./shop.yaml\njoints: {}\n').diagnostics,
  ),
  act('printer-no-shop', () => printerOf('tray.yaml', 'units: mm\njoints: {}\n').diagnostics),
];
