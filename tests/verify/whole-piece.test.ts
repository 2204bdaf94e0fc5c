import { describe, expect, test } from 'vitest';
import { solveJob } from '../../src/outputs/joint.js';
import { testCutJob, writtenTemplates } from '../../src/outputs/testcut.js';
import type { ProvenStand } from '../../src/verify/whole/held.js';
import { type ProofRequest, proveSetUp } from '../../src/verify/whole/prove.js';
import { EVERY_SECOND, holder } from '../support/holder.js';
import { readSample, readText } from '../support/jobs.js';

/**
 * The whole-piece proof: it holds for what halfpin writes, and a wrong word in any field of any stand fails it. What can be
 * changed without harm is listed with the reason.
 */
const joint = (kind: string, more: string) => `
title: Specimen cabinet
units: in
shop: ./shop.yaml
joints:
  tray:
    kind: ${kind}
    ${more}
    bushing: seven-sixteenths
    fit: { slack: 0.004 }
`;
const through = (layout: string, template = '') =>
  joint(
    'through-dovetail',
    `width: 5-1/2
    boards: { tails: { thickness: 1/2 }, pins: { thickness: 5/8 } }
    layout: ${layout}
    cutters: { tails: half-8, pins: straight-38 }${template}`,
  );
const UNEVEN = '{ spacing: varied, tails: 3, seed: 7, spread: 0.3 }';
const halfBlind = (layout: string, more = '') =>
  joint(
    'half-blind-dovetail',
    `width: 5-1/2
    boards: { tails: { thickness: 1/2 }, pins: { thickness: 3/4 } }
    layout: ${layout}
    cutter: half-8${more}`,
  );
const texts: Readonly<Record<string, string>> = {
  'through, even': through('{ spacing: even, tails: 3 }'),
  'through, uneven': through(UNEVEN),
  'through, uneven, one plate': through(UNEVEN, '\n    template: { plate: one }'),
  'half-blind apart, uneven': halfBlind(UNEVEN, '\n    method: apart\n    depth: 1/2'),
  'half-blind apart, unlike lips': halfBlind(
    UNEVEN,
    '\n    method: apart\n    depth: 1/2\n    lip: { end: 3/8, lower: 1/4, upper: 3/8, rabbet: 1/2 }',
  ),
  'half-blind, square': halfBlind(
    '{ spacing: even }',
    '\n    method: apart\n    depth: 1/2\n    tails-inside: square',
  ),
  'half-blind together': joint(
    'half-blind-dovetail',
    `width: 4-1/2
    boards: { tails: { thickness: 1/2 }, pins: { thickness: 3/4 } }
    method: together
    layout: { spacing: even }
    cutter: half-8`,
  ),
  'half-blind together, lipped': joint(
    'half-blind-dovetail',
    `width: 4-1/2
    boards: { tails: { thickness: 1/2 }, pins: { thickness: 3/4 } }
    method: together
    layout: { spacing: even }
    lip: { end: 3/8, lower: 1/4, upper: 3/8, rabbet: 5/8 }
    cutter: half-8`,
  ),
  box: joint(
    'box',
    `width: 3-3/8
    boards: { one: { thickness: 3/8 }, two: { thickness: 1/2 } }
    layout: { spacing: even, finger: 1/2 }
    cutter: straight-38`,
  ),
  'box, every second slot': holder(EVERY_SECOND),
};

async function asked(text: string): Promise<ProofRequest> {
  const job = readText(text);
  const outcome = solveJob(job).find(({ made }) => made);
  if (!outcome?.made)
    throw new Error(
      solveJob(job)
        .flatMap((one) => one.diagnostics.map(({ code }) => code))
        .join(),
    );
  const [cut] = await testCutJob(job, [outcome]);
  if (!cut?.cut) throw new Error('no test cut');
  const files = await writtenTemplates(job, outcome);
  const reach = Object.fromEntries(outcome.made.solved.boards.map((one) => [one.board, one.reach?.by ?? 0]));
  return { report: outcome.made.report, files, slack: outcome.joint.slack, cut: cut.cut, reach };
}

const requests = new Map(
  await Promise.all(Object.entries(texts).map(async ([name, text]) => [name, await asked(text)] as const)),
);
const names = Object.keys(texts);
const of = (name: string): ProofRequest => {
  const request = requests.get(name);
  if (!request) throw new Error(name);
  return request;
};

/** The request with one stand changed, or with a stand less. */
function changed(request: ProofRequest, index: number, change: (stand: ProvenStand) => object | undefined) {
  const stands = (request.report.setUp?.stands ?? []).flatMap((stand, i) => {
    const put = i === index ? change(stand) : {};
    return put ? [{ ...stand, ...put }] : [];
  });
  return { ...request, report: { ...request.report, setUp: { stands } } };
}

const codes = (request: ProofRequest) => proveSetUp(request).diagnostics.map(({ code }) => code);

describe('stands as written', () => {
  test.each(names)('%s: every corner closes', (name) => {
    const proof = proveSetUp(of(name));
    expect(proof.diagnostics).toEqual([]);
    expect(proof.ok && proof.value?.closed).toBe(name.startsWith('half-blind') ? 2 : 4);
    expect(proof.ok && proof.value?.offSize).toBeLessThan(0.02);
  });

  test('a job is proven by its test cut, and report.json says so', async () => {
    const job = readSample('slide-box.yaml');
    const [cut] = await testCutJob(job, solveJob(job));
    expect(cut?.proof?.closed).toBe(4);
  });
});

/** A wrong value for each field: where it makes sense only sometimes, undefined at other times. */
const other =
  <T>(one: T, two: T) =>
  (value: T) =>
    value === one ? two : one;
const mutations: Readonly<Record<string, (stand: ProvenStand) => object | undefined>> = {
  order: ({ order }) => ({ order: order + 1 }),
  piece: ({ piece }) => ({ piece: piece === 'A' ? 'B' : 'A' }),
  of: () => ({ of: 'another' }),
  copy: ({ copy }) => ({ copy: copy + 1 }),
  place: ({ place }) => ({ place: other('front', 'back')(place ?? '') }),
  end: ({ end }) => ({ end: other('left', 'right')(end ?? '') }),
  corner: ({ corner = 1 }) => ({ corner: (corner % 4) + 1 }),
  board: ({ board }) => ({ board: `${board}s` }),
  template: ({ template }) => ({
    template: template.endsWith('mirrored') ? template.replace('-mirrored', '') : `${template}-mirrored`,
  }),
  posture: ({ posture }) => ({ posture: other('flat', 'on end')(posture) }),
  faceToOperator: ({ faceToOperator }) => ({ faceToOperator: other('outside', 'inside')(faceToOperator) }),
  referenceEdge: ({ referenceEdge }) => ({ referenceEdge: other('left-stop', 'right-stop')(referenceEdge) }),
  along: ({ along }) => ({ along: along + 3 }),
  across: ({ across }) => ({ across: across + 3 }),
  bit: ({ bit }) => ({ bit: { ...bit, diameter: bit.diameter + 0.2 } }),
  'bit.angle': ({ bit }) => ({ bit: { ...bit, angle: (bit.angle ?? 0) + 1 } }),
  bushing: ({ bushing }) => ({ bushing: bushing - 0.2 }),
  extension: ({ extension }) => ({ extension: extension + 0.1 }),
  depth: ({ depth, extension, passes }) => ({
    depth: depth + 0.1,
    extension: extension + 0.1,
    passes: [...passes.slice(0, -1), depth + 0.1],
  }),
  passes: ({ passes }) => ({ passes: passes.map((one) => one - 0.1) }),
  feed: () => ({ feed: 'right-to-left' }),
  'rect, along x': ({ rect }) => ({ rect: { ...rect, x0: rect.x0 + 0.2, x1: rect.x1 + 0.2 } }),
  'rect, along y': ({ rect }) => ({ rect: { ...rect, y0: rect.y0 + 0.2, y1: rect.y1 + 0.2 } }),
  'rect, size': ({ rect }) => ({ rect: { ...rect, x1: rect.x1 + 0.2 } }),
  placed: ({ placed }) =>
    placed ? { placed: { ...placed, x: placed.x + 0.2 } } : { placed: { x: 100, y: 60 } },
  everySecond: ({ everySecond }) =>
    everySecond
      ? { everySecond: { ...everySecond, mark: 3 - everySecond.mark } }
      : { everySecond: { cut: 1, mark: 1 } },
};

describe('a wrong word in any field of any stand', () => {
  describe.each(names)('%s', (name) => {
    test.each(Object.keys(mutations))('%s', (field) => {
      const request = of(name);
      const stands = request.report.setUp?.stands ?? [];
      const unharmed = stands.flatMap((stand, i) => {
        const mutate = mutations[field] ?? (() => undefined);
        return codes(changed(request, i, mutate)).length > 0 ? [] : [`${stand.piece} ${stand.end}`];
      });
      expect(unharmed).toEqual([]);
    });

    test('a stand that is missing', () => {
      const request = of(name);
      const stands = request.report.setUp?.stands ?? [];
      for (const i of stands.keys()) {
        expect(codes(changed(request, i, () => undefined))).toEqual(['set-up-wrong']);
      }
    });
  });

  /**
   * Turned upside down, a plate that is its own mirror image over a board is the same plate there: only its marks are
   * underneath. A front under a plate for both boards is such a board, since the comb's one slot more lies beside it; so is
   * board two, whose every second slot here lies the same from both edges.
   */
  const harmedBoards: Readonly<Record<string, readonly string[]>> = {
    'through, uneven': ['pins', 'tails'],
    'through, uneven, one plate': ['pins', 'tails'],
    'half-blind apart, uneven': ['pins', 'tails'],
    'half-blind apart, unlike lips': ['pins', 'tails'],
    'half-blind together': ['tails'],
    'half-blind together, lipped': ['tails'],
    'box, every second slot': ['one'],
  };
  test.each(names)('%s: plateSide, unless the plate is its own mirror image', (name) => {
    const request = of(name);
    const stands = request.report.setUp?.stands ?? [];
    const harmed = stands.filter(
      (_, i) => codes(changed(request, i, () => ({ plateSide: 'turned' }))).length > 0,
    );
    expect([...new Set(harmed.map(({ board }) => board))].toSorted()).toEqual(harmedBoards[name] ?? []);
  });
});
