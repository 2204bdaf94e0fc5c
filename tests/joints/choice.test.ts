import { describe, expect, test } from 'vitest';
import { hasErrors } from '../../src/diagnostics/diagnostic.js';
import { parseLayout } from '../../src/input/fields/layout-request.js';
import type { Job, LayoutRequest } from '../../src/input/types.js';
import { familyOf } from '../../src/joints/list.js';
import { judgeFingers } from '../../src/joints/search/choice.js';
import { testCutJob } from '../../src/outputs/testcut.js';
import { codesOf, inch, readText, solveOnly } from '../support/jobs.js';
import { long, wholeNight } from '../support/long.js';

/** What halfpin chooses where the layout is left blank: it can be cut whenever any choice can. */

const timeout = long ? 3_600_000 : 120_000;

/** Bits and bushings as a shop would own them, with bores that they turn in. mm and degrees. */
interface Kit {
  readonly dovetail: readonly [diameter: number, angle: number, height: number];
  readonly straight: number;
  readonly bushing: number;
}
const inchKits: readonly Kit[] = [
  { dovetail: [inch(1 / 2), 14, inch(1 / 2)], straight: inch(3 / 8), bushing: inch(5 / 8) },
  { dovetail: [inch(1 / 2), 14, inch(1 / 2)], straight: inch(5 / 16), bushing: inch(1 / 2) },
  { dovetail: [inch(1 / 2), 8, inch(13 / 16)], straight: inch(3 / 8), bushing: inch(7 / 16) },
  { dovetail: [inch(1 / 4), 8, inch(1 / 2)], straight: inch(1 / 4), bushing: inch(5 / 16) },
  { dovetail: [inch(3 / 8), 9, inch(3 / 8)], straight: inch(1 / 4), bushing: inch(1 / 2) },
  { dovetail: [inch(11 / 16), 8, inch(13 / 16)], straight: inch(1 / 2), bushing: inch(3 / 4) },
];
const metricKits: readonly Kit[] = [
  { dovetail: [8, 10, 10], straight: 6, bushing: 10 },
  { dovetail: [12.7, 14, 12.7], straight: 8, bushing: 17 },
  { dovetail: [14, 15, 13.5], straight: 10, bushing: 24 },
  { dovetail: [6.35, 8, 9.5], straight: 5, bushing: 8 },
  { dovetail: [20, 12, 20], straight: 12, bushing: 27 },
];

interface Boards {
  readonly first: number;
  readonly second: number;
}
const kinds = {
  'half-blind together': [
    { first: inch(1 / 2), second: inch(3 / 4) },
    { first: inch(3 / 8), second: inch(1 / 2) },
    { first: 16, second: 19 },
    { first: inch(1 / 4), second: inch(5 / 8) },
  ],
  'half-blind apart': [
    { first: inch(1 / 2), second: inch(3 / 4) },
    { first: 10, second: 18 },
  ],
  'through-dovetail': [
    { first: inch(1 / 2), second: inch(1 / 2) },
    { first: inch(3 / 4), second: inch(3 / 4) },
    { first: 10, second: 19 },
  ],
  box: [
    { first: inch(3 / 8), second: inch(3 / 8) },
    { first: 12, second: 19 },
  ],
} as const satisfies Readonly<Record<string, readonly Boards[]>>;
type Kind = keyof typeof kinds;

const PLATE = { thickness: inch(1 / 2), leastFinger: inch(3 / 16) };

/** The starter shop of a job that is read, with this kit in it. */
function jobOf(kind: Kind, kit: Kit, boards: Boards, width: number, layout: string): Job {
  const [diameter, angle, height] = kit.dovetail;
  const family = kind.startsWith('half-blind') ? 'half-blind-dovetail' : kind;
  const [one, two] = kind === 'box' ? ['one', 'two'] : ['tails', 'pins'];
  return readText(`units: mm
shop:
  bits:
    dovetail: { kind: dovetail, diameter: ${diameter}, angle: ${angle}, height: ${height}, shank: 6 }
    straight: { kind: straight, diameter: ${kit.straight}, height: 30, shank: ${Math.min(6, kit.straight)} }
  bushings: { bushing: { outside: ${kit.bushing}, bore: ${kit.bushing - 1.5}, barrel: 4 } }
  plate: { material: mdf, thickness: ${PLATE.thickness}, least-finger: ${PLATE.leastFinger} }
joints:
  joint:
    kind: ${family}
    width: ${width}
    boards: { ${one}: { thickness: ${boards.first} }, ${two}: { thickness: ${boards.second} } }
    ${kind === 'through-dovetail' ? 'cutters: { tails: dovetail, pins: straight }' : `cutter: ${kind === 'box' ? 'straight' : 'dovetail'}`}
    ${kind.startsWith('half-blind') ? `method: ${kind.split(' ')[1]}` : ''}
    bushing: bushing
    ${layout}
`);
}

const inches = [0.7, ...Array.from({ length: 22 }, (_, index) => index + 3)];

/** One width for each kit and pair of boards, each in its turn, or all of them. */
function widthsFor(turn: number): readonly number[] {
  return (
    wholeNight
      ? inches
      : long
        ? inches.filter((_, i) => i % 3 === turn % 3)
        : [inches[((turn - 1) * 5) % inches.length] ?? 3]
  ).map(inch);
}

/** Depths to type: of the sockets of a half-blind joint, of others none. */
function depthsFor(kind: Kind, { second }: Boards): readonly (number | undefined)[] {
  if (!kind.startsWith('half-blind')) return [undefined];
  return [undefined, ...[0.4, 0.5, 0.6, 0.7, 0.8].map((share) => share * second)];
}

/** Whether a number of tails or fingers, and a depth, can be cut as typed: by the family and the plates, without any search. */
function canBeTyped(job: Job, kind: Kind, count: number, depth: number | undefined): boolean {
  const [joint] = job.joints;
  const family = joint && familyOf(joint.kind);
  if (!joint || !family) return false;
  const counted: Partial<LayoutRequest> = kind === 'box' ? { fingers: count } : { tails: count };
  const typed = {
    ...joint,
    layout: { ...joint.layout, ...counted },
    ...(depth !== undefined && { depth }),
  };
  if (!parseLayout(typed.width, typed.layout, 'layout').ok) return false;
  const solved = family.solve(typed, job.shop);
  return solved.ok && !hasErrors(judgeFingers(solved.value, typed, job.shop));
}

describe.each(Object.keys(kinds) as Kind[])('a blank layout, %s', (kind) => {
  test(
    'is refused only where every number from 1 to 40 is, over one bound, and raises no caution',
    () => {
      const made = { all: 0, refused: 0 };
      let turn = 0;
      for (const kit of [...inchKits, ...metricKits]) {
        for (const boards of kinds[kind]) {
          turn += 1;
          for (const width of widthsFor(turn)) {
            const job = jobOf(kind, kit, boards, width, '');
            const outcome = solveOnly(job);
            const where = `${width} ${JSON.stringify({ kit, boards })}: ${codesOf(outcome)}`;
            made.all += 1;
            if (outcome.made) {
              expect(
                codesOf(outcome, 'caution').filter((code) => code !== 'cutter-in-bore'),
                where,
              ).toEqual([]);
              continue;
            }
            made.refused += 1;
            const byLayout = codesOf(outcome, 'refused').filter((code) => !OF_TOOLS.has(code));
            expect(byLayout.length, where).toBeLessThan(2);
            for (let count = 1; count <= 40; count += 1) {
              for (const depth of depthsFor(kind, boards)) {
                expect(canBeTyped(job, kind, count, depth), `${count} at ${depth}, ${where}`).toBe(false);
              }
            }
          }
        }
      }
      expect(made.refused).toBeGreaterThan(0);
      expect(made.all - made.refused).toBeGreaterThan(made.all / 4);
    },
    timeout,
  );
});

/** Refusals over bits and bushings themselves, which no layout cures. */
const OF_TOOLS: ReadonlySet<string> = new Set([
  'bit-short',
  'bit-neck',
  'shank-in-bore',
  'cutter-in-bore',
  'barrel-long',
  'bushing-over-tail',
]);

/** The commonest drawers: half-blind, one template, a side of 1/2 in and a front of 3/4 in. */
test.each([
  ['1/2 in, 14°', inchKits[0]],
  ['1/4 in, 8°', inchKits[3]],
] as const)('the commonest drawer is made at every width with %s', async (_, kit) => {
  for (let eighths = 24; eighths <= 96; eighths += wholeNight ? 1 : long ? 3 : 5.142) {
    const width = inch(eighths / 8);
    const boards = { first: inch(1 / 2), second: inch(3 / 4) };
    if (!kit) throw new Error('no kit');
    const job = jobOf('half-blind together', kit, boards, width, '');
    const outcome = solveOnly(job);
    expect(outcome.made, `${width}: ${codesOf(outcome)}`).toBeDefined();
    expect(codesOf(outcome, 'caution')).toEqual([]);
    const [cut] = long || eighths === 24 ? await testCutJob(job, [outcome]) : [];
    expect(hasErrors(cut?.diagnostics ?? []), `${width}`).toBe(false);
  }
});

test('what is given stays as it is given', () => {
  const [kit] = inchKits;
  if (!kit) throw new Error('no kit');
  const boards = { first: inch(1 / 2), second: inch(3 / 4) };
  const made = (layout: string) => solveOnly(jobOf('half-blind together', kit, boards, inch(5), layout)).made;
  const tails = (layout: string) =>
    made(layout)?.solved.layout.spans.filter(({ part }) => part === 'tail').length;
  for (const count of [3, 4, 5, 6]) expect(tails(`layout: { tails: ${count} }`)).toBe(count);
  expect(made('depth: 11')?.solved.cuts[0]?.depth).toBe(11);
  const spans = made('layout: { end-pin: 10 }')?.solved.layout.spans ?? [];
  expect(spans[0]?.to).toBeCloseTo(10, 6);
});
