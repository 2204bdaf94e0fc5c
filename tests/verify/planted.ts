import type { Diagnostic } from '../../src/diagnostics/diagnostic.js';
import type { Job } from '../../src/input/types.js';
import { solveJob } from '../../src/outputs/joint.js';
import { testCutJob } from '../../src/outputs/testcut.js';
import type { WrittenFile } from '../../src/verify/files/reported.js';
import { type WrittenVertex, withVertices } from '../support/dxf-faults.js';
import { readText } from '../support/jobs.js';
import { makeFiles } from '../support/made.js';
import { withSvgVertices } from '../support/svg-faults.js';

/** Written folders for the tables of planted faults and of harmless changes: one joint of each kind, as DXF and as SVG. */

const shop = {
  bits: {
    dovetail: { kind: 'dovetail', diameter: 12.7, angle: 8, height: 20 },
    steep: { kind: 'dovetail', diameter: 12.7, angle: 14, height: 12.7 },
    straight: { kind: 'straight', diameter: 8, height: 30 },
  },
  bushings: {
    eleven: { outside: 11, bore: 10 },
    small: { outside: 12.7, bore: 10 },
    large: { outside: 15, bore: 13 },
  },
  plate: { material: 'plywood', thickness: 6, 'least-finger': 3 },
};

type Fields = Readonly<Record<string, unknown>>;

const drawer: Fields = {
  kind: 'half-blind-dovetail',
  boards: { tails: { thickness: 12 }, pins: { thickness: 18 } },
  depth: 10,
  cutter: 'steep',
};
const lopsided = { spacing: 'list', spans: [9, 20, 14, 26, 13, 14, 8] };

export const joints: Readonly<Record<string, Fields>> = {
  box: {
    kind: 'box',
    width: 95,
    boards: { one: { thickness: 10 }, two: { thickness: 12 } },
    layout: { spacing: 'list', spans: [12, 14, 13, 12, 16, 12, 16] },
    cutter: 'straight',
    bushing: 'eleven',
  },
  through: {
    kind: 'through-dovetail',
    width: 104,
    boards: { tails: { thickness: 12 }, pins: { thickness: 10 } },
    layout: { spacing: 'list', spans: [9, 18, 15, 24, 16, 13, 9] },
    cutters: { tails: 'dovetail', pins: 'straight' },
    bushing: 'eleven',
  },
  together: { ...drawer, method: 'together', width: 96, bushing: 'small', layout: { tails: 4 } },
  apart: { ...drawer, method: 'apart', width: 104, bushing: 'large', layout: lopsided },
  square: {
    ...drawer,
    method: 'apart',
    width: 104,
    bushing: 'large',
    layout: lopsided,
    'tails-inside': 'square',
  },
  edge: {
    kind: 'edge',
    width: 120,
    boards: { one: { thickness: 10 }, two: { thickness: 10 } },
    line: { d: 'M 0 0 C 20 0 25 -8 40 -8 S 70 6 90 6 S 110 0 125 0', unit: 'mm' },
    cutter: 'straight',
    bushing: 'eleven',
  },
};

export type Kind = 'box' | 'through' | 'together' | 'apart' | 'square' | 'edge';

/** The job of a joint, with fields of it and of the shop changed. */
export function jobOf(kind: Kind, change: Fields = {}, inShop: Fields = {}): Job {
  const joint = { fit: { slack: 0.1 }, ...joints[kind], ...change };
  return readText(
    JSON.stringify({
      title: 'Specimen cabinet',
      units: 'mm',
      shop: { ...shop, ...inShop },
      joints: { corner: joint },
    }),
  );
}

export type Files = readonly WrittenFile[];
export type Format = 'dxf' | 'svg';
export const formats: readonly Format[] = ['dxf', 'svg'];

/** What `make` writes of the templates, in these formats. */
export async function filesOf(job: Job, as: readonly Format[]): Promise<Files> {
  const outcomes = solveJob(job);
  if (!outcomes[0]?.made) throw new Error(JSON.stringify(outcomes[0]?.diagnostics));
  const made = await makeFiles(job, outcomes, { only: ['finger'], as });
  return made.flatMap(({ path, content }) =>
    /\.(dxf|svg)$/.test(path) && typeof content === 'string'
      ? [{ name: path.split('/').at(-1) ?? path, text: content }]
      : [],
  );
}

/** What a proof of a folder with these files refuses. */
export async function refusalsOf(job: Job, files: Files): Promise<readonly Diagnostic[]> {
  const [cut] = await testCutJob(job, solveJob(job), { written: () => files, levels: 3 });
  return (cut?.diagnostics ?? []).filter(({ level }) => level === 'refused');
}

type Move = (vertex: WrittenVertex) => WrittenVertex;

/** The contours of a layer moved, whatever the format. */
export const moved = (file: WrittenFile, layer: string, move: Move, turnsOver = false): WrittenFile => ({
  ...file,
  text: file.name.endsWith('.svg')
    ? withSvgVertices(file.text, layer, move, turnsOver)
    : withVertices(file.text, layer, move, turnsOver),
});

/** Only the file of this name changed; the name is without its extension. */
export const only = (name: string, change: (file: WrittenFile) => WrittenFile) => (files: Files) =>
  files.map((file) => (file.name.replace(/\.\w+$/, '') === name ? change(file) : file));

/** Entities put before those of a DXF file: each a type and its groups. */
export const withEntities =
  (
    ...entities: readonly (readonly [
      type: string,
      ...groups: (readonly [code: number, value: string | number])[],
    ])[]
  ) =>
  (dxf: string): string => {
    const text = entities.flatMap(([type, ...groups]) => [[0, type] as const, ...groups]);
    const lines = text.map(([code, value]) => `${code}\n${value}\n`).join('');
    return dxf.replace(/(\n\s*2\r?\nENTITIES\r?\n)/, (head) => head + lines);
  };

/** A circle over a finger, where a cut would be seen. */
export const circleOn = (layer: string) => ['CIRCLE', [8, layer], [10, 30], [20, -2], [40, 2]] as const;
