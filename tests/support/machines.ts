import fc from 'fast-check';
import { solveJob } from '../../src/outputs/joint.js';
import { testCutJob } from '../../src/outputs/testcut.js';
import { codesOf, readText, solveOnly } from './jobs.js';

/** What a shop cuts its plates with, as a shop file says it. A plate that is made for none is made for all of them. */

export interface Machine {
  readonly name: string;
  /** Width of what cuts, mm; 0 for files that hold the plate itself. */
  readonly width: number;
  readonly shop: Readonly<Record<string, unknown>>;
  readonly plate: Readonly<Record<string, unknown>>;
}

export const nominal: Machine = { name: 'nominal', width: 0, shop: {}, plate: {} };

export const laser: Machine = {
  name: 'laser',
  width: 0.2,
  shop: { laser: { kerf: 0.2 } },
  plate: { 'cut-for': 'laser' },
};

/** Metric and inch sizes of end mills, mm. */
export const cutters = [2, 3, 3.175, 4.7625, 6, 6.35] as const;

export function routerTable(cutter: number, relief?: 'corner' | 'edge'): Machine {
  return {
    name: `router table, ${cutter} mm${relief ? `, relief: ${relief}` : ''}`,
    width: cutter,
    shop: { cnc: { cutter, ...(relief && { relief }) } },
    plate: { 'cut-for': 'cnc' },
  };
}

export const everyMachine: readonly Machine[] = [laser, ...cutters.map((cutter) => routerTable(cutter))];

export const someMachine: fc.Arbitrary<Machine> = fc.constantFrom(...everyMachine);

/** The text of a JSON job whose plates are cut so. */
export function madeOn({ shop, plate }: Machine, text: string): string {
  const job = JSON.parse(text) as { shop: Record<string, unknown> & { plate: Record<string, unknown> } };
  return JSON.stringify({ ...job, shop: { ...job.shop, ...shop, plate: { ...job.shop.plate, ...plate } } });
}

/**
 * What is wrong with a job's plates as this machine makes them; undefined where nothing is. What can be made nominal
 * can be made by every laser and by every end mill up to the bushing's width: openings are as wide as it and inside
 * corners as round. By a wider one it is made as well, or its corners and gaps are refused before anything is cut.
 */
export async function problemOn(machine: Machine, text: string): Promise<string | undefined> {
  if (!solveOnly(readText(text)).made) return undefined;
  const job = readText(madeOn(machine, text));
  const outcomes = solveJob(job);
  const [outcome] = outcomes;
  if (!outcome?.made) {
    const codes = outcome ? codesOf(outcome, 'refused') : [];
    const tooWide = codes.length > 0 && codes.every((code) => TOO_WIDE.includes(code));
    return tooWide && machine.width > bushingOf(text) ? undefined : `${machine.name}: refused for ${codes}`;
  }
  const [cut] = await testCutJob(job, outcomes);
  const refused = cut?.diagnostics.filter(({ level }) => level === 'refused').map(({ code }) => code) ?? [];
  return cut?.cut && refused.length === 0 ? undefined : `${machine.name}: test cut refused for ${refused}`;
}

const TOO_WIDE: readonly string[] = ['corner-under-mill', 'gap-under-mill'];

function bushingOf(text: string): number {
  const job = JSON.parse(text) as { shop: { bushings: Record<string, { outside: number }> } };
  return Math.min(...Object.values(job.shop.bushings).map(({ outside }) => outside));
}
