import type { Job } from '../../src/input/types.js';
import type { Asked } from '../../src/outputs/ask.js';
import { type JointOutcome, solveJob } from '../../src/outputs/joint.js';
import { testCutJob } from '../../src/outputs/testcut.js';
import { readText } from '../support/jobs.js';
import { judgeFiles, makeFiles } from '../support/made.js';
import { row } from './measure.js';

/** Spans of a joint, from a drawer's to the widest board that halfpin takes, 2.5 m, each about 12 mm wide. */
const SPANS = [25, 50, 100, 200];

interface Stage {
  readonly name: string;
  /** What the shop says of plates and machines. */
  readonly job?: { readonly plate?: string; readonly shop?: string };
  readonly run: (job: Job, outcomes: readonly JointOutcome[]) => unknown;
}

const files =
  (options: Asked): Stage['run'] =>
  (job, outcomes) =>
    makeFiles(job, outcomes, options);

const cnc =
  'cnc: { cutter: 3, rpm: 18000, feed: 1500, plunge: 400, pass: 3, tabs: { count: 4 }, engraver: { tip: 0.3, depth: 0.3 } }';
const laser = 'laser: { kerf: 0.2, speed: 600, power: 300, score-speed: 3000, score-power: 80 }';

/** Every stage between a job's text and its files, and every writer, each by itself. */
const stages: readonly Stage[] = [
  { name: 'layout, waste, plates, drawings', run: (job) => solveJob(job) },
  {
    name: 'the same for a laser',
    job: { plate: ', cut-for: laser', shop: laser },
    run: (job) => solveJob(job),
  },
  {
    name: 'the same for a router table',
    job: { plate: ', cut-for: cnc', shop: cnc },
    run: (job) => solveJob(job),
  },
  {
    name: 'the same in parts',
    job: { plate: ', cut-for: laser', shop: laser.replace('}', ', bed: [400, 300] }') },
    run: (job) => solveJob(job),
  },
  { name: 'test cut', run: (job, outcomes) => testCutJob(job, outcomes) },
  { name: 'finger template, svg', run: files({ only: ['finger'], as: ['svg'] }) },
  { name: 'finger template, dxf', run: files({ only: ['finger'], as: ['dxf'] }) },
  { name: 'finger template, pdf on a4', run: files({ only: ['finger'], as: ['pdf'] }) },
  {
    name: 'finger template, pdf on a5',
    job: { shop: 'printer: { paper: a5 }' },
    run: files({ only: ['finger'], as: ['pdf'] }),
  },
  {
    name: 'finger template, gcode for a laser',
    job: { plate: ', cut-for: laser', shop: laser },
    run: files({ only: ['finger'], as: ['gcode'] }),
  },
  {
    name: 'finger template, gcode for a router table',
    job: { shop: cnc },
    run: files({ only: ['finger'], as: ['gcode'] }),
  },
  { name: 'finger template, stl', run: files({ only: ['finger'], as: ['stl'] }) },
  { name: 'finger template, 3mf', run: files({ only: ['finger'], as: ['3mf'] }) },
  { name: 'marker, svg', run: files({ only: ['marker'], as: ['svg'] }) },
  { name: 'marker, pdf', run: files({ only: ['marker'], as: ['pdf'] }) },
  { name: 'pattern, svg', run: files({ only: ['pattern'], as: ['svg'] }) },
  { name: 'pattern, dxf', run: files({ only: ['pattern'], as: ['dxf'] }) },
  { name: 'pattern, pdf on a4', run: files({ only: ['pattern'], as: ['pdf'] }) },
  {
    name: 'pattern, pdf on a5',
    job: { shop: 'printer: { paper: a5 }' },
    run: files({ only: ['pattern'], as: ['pdf'] }),
  },
  { name: 'set-up sheet, html', run: files({ only: ['sheet'], as: ['svg'] }) },
  { name: 'set-up sheet, pdf', run: files({ only: ['sheet'], as: ['pdf'] }) },
  {
    name: 'nest, dxf',
    job: { plate: ', sheet: [2600, 1500]' },
    run: files({ only: ['nest'], as: ['dxf'] }),
  },
  {
    name: 'judged for programs',
    job: { shop: cnc },
    run: (job, outcomes) => judgeFiles(job, outcomes, { as: ['gcode', 'stl'] }),
  },
];

const kinds: Readonly<Record<string, (spans: number) => string>> = {
  box: (spans) => `kind: box
    width: ${12 * spans}
    boards: { one: { thickness: 12 }, two: { thickness: 12 } }
    layout: { spacing: even, finger: 12 }
    cutter: straight-8`,
  'through-dovetail': (spans) => `kind: through-dovetail
    width: ${12 * spans}
    boards: { tails: { thickness: 12 }, pins: { thickness: 12 } }
    layout: { spacing: even, tails: ${Math.round(spans / 2.5)}, pin: 13 }
    cutters: { tails: half-8, pins: straight-8 }`,
};

/**
 * How time grows with the number of spans: the slope of log time over log spans, for each stage. Small jobs spend
 * much of their time on what does not grow, so that the slope of the last doubling is given beside it.
 */
export async function growth(): Promise<void> {
  for (const [kind, joint] of Object.entries(kinds)) {
    console.log(`Growth of a ${kind} joint, ${SPANS.join(', ')} spans: time ~ spans to the power`);
    for (const stage of stages) {
      const times: number[] = [];
      for (const spans of SPANS) times.push(await timeOf(stage, joint(spans)));
      const [before = Number.NaN, last = Number.NaN] = times.slice(-2);
      const power = slope(
        SPANS.map(Math.log),
        times.map((time) => Math.log(time)),
      );
      const all = times.map((time) => time.toFixed(1)).join(', ');
      row(stage.name, power, '', `last doubling ${Math.log2(last / before).toFixed(2)}; ${all} ms`);
    }
    console.log();
  }
}

/** Milliseconds, the least of a few after one that warms up: what else the machine does only adds. */
async function timeOf({ job: more = {}, run }: Stage, joint: string): Promise<number> {
  const job = readText(jobText(joint, more));
  const outcomes = solveJob(job);
  for (const { made, diagnostics } of outcomes) {
    if (!made) throw new Error(`refused: ${JSON.stringify(diagnostics)}`);
  }
  const times: number[] = [];
  for (let round = 0; round < 4; round += 1) {
    const start = performance.now();
    await run(job, outcomes);
    times.push(performance.now() - start);
  }
  return Math.min(...times.slice(1));
}

const jobText = (
  joint: string,
  { plate = '', shop = '' }: NonNullable<Stage['job']>,
): string => `title: Long case
units: mm
shop:
  bits:
    half-8: { kind: dovetail, diameter: 12.7, angle: 8, height: 20, shank: 6.35 }
    straight-8: { kind: straight, diameter: 8, height: 32, shank: 8 }
  bushings:
    guide: { outside: 11.1, bore: 9.5, barrel: 4 }
  plate: { material: plywood, thickness: 12, least-finger: 4${plate} }
  ${shop}
joints:
  long:
    ${joint}
    bushing: guide
    fit: { slack: 0.1 }
`;

/** Least-squares slope of y over x. */
function slope(xs: readonly number[], ys: readonly number[]): number {
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  const [middleX, middleY] = [mean(xs), mean(ys)];
  const across = xs.map((x) => x - middleX);
  const up = ys.map((y) => y - middleY);
  const product = across.reduce((sum, dx, index) => sum + dx * (up[index] ?? 0), 0);
  return product / across.reduce((sum, dx) => sum + dx * dx, 0);
}
