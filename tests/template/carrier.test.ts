import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readJob } from '../../src/input/read-job.js';
import { families } from '../../src/joints/list.js';
import type { Polygon } from '../../src/verify/cut/polygons.js';
import { extents } from '../../src/verify/cut/polygons.js';
import { type CarriedCut, carriedCuts, inTheWay, laidPieces, leastWall } from '../support/carried-joint.js';
import { edgeJobs } from '../support/edge-jobs.js';
import { readSample, readText, solveOnly } from '../support/jobs.js';
import { howMany } from '../support/long.js';
import { apartJobs, togetherJobs } from '../support/random-half-blind.js';
import { boxJobs, throughDovetailJobs } from '../support/random-jobs.js';

/**
 * Carriers and plates, read back from their DXF files. Each piece is laid on its plate hole over hole; then its edge has to stand
 * where the report has the board under that plate, whatever the stand.
 */

const SEED = 20261201;
const WITHIN = 0.001;

/** Where stops have to stand: outside every place of the board, its reference edge, with a lip or without, at either hand. */
function wantedStops({ template, cut, width }: CarriedCut): readonly number[] {
  const { bothStops, referenceEdge } = template.plate;
  const stops = cut.stops ?? [0];
  return cut.boards.flatMap(({ from, to }) => {
    const left = from[0] + Math.min(...stops);
    const lipped = cut.boards.length === 1 && from[0] <= 0 && referenceEdge === 0;
    const right = (lipped ? width - from[0] : to[0]) + Math.max(...stops);
    return [
      ...(referenceEdge === 0 || bothStops ? [left] : []),
      ...(referenceEdge !== 0 || bothStops ? [right] : []),
    ];
  });
}

const hasEdge = (laid: readonly Polygon[], axis: 'x' | 'y', at: number): boolean =>
  laid.some((ring) => {
    const { minX, maxX, minY, maxY } = extents([ring]);
    return (axis === 'x' ? [minX, maxX] : [minY, maxY]).some((edge) => Math.abs(edge - at) < WITHIN);
  });

interface Seen {
  stops: number;
  fences: number;
  gauges: number;
  lacking: number;
}

function expectCarried(one: CarriedCut, seen: Seen): void {
  const { template, cut, plate } = one;
  const { carrier } = template;
  expect(carrier).toBeDefined();
  if (!carrier) return;
  const side = template.plate.sides.findIndex(({ cut: own }) => own.board === cut.board);
  const laid = laidPieces(one);
  const lacking = carrier.lacking.filter((part) => part.side === side);
  seen.lacking += lacking.length;
  // There is no room for two holes where board and nose together, or the plate's arm beside a wide opening, are narrow.
  if (lacking.length > 0)
    expect(-cut.boards.reduce((y, { from }) => Math.min(y, from[1]), 0) < 12 || cut.bushing > 25).toBe(true);
  for (const x of wantedStops(one)) {
    if (lacking.some(({ role }) => role === 'stop')) continue;
    expect(hasEdge(laid, 'x', x), `a stop at ${x} of ${carrier.template}`).toBe(true);
    seen.stops += 1;
  }
  const onEnd = cut.boards.every(({ to }) => Math.abs(to[1]) < 1e-6);
  if (onEnd) {
    expect(hasEdge(laid, 'y', 0), `a fence of ${carrier.template}`).toBe(true);
    seen.fences += 1;
  } else if (!lacking.some(({ role }) => role === 'gauge')) {
    // Pushed against the plate's near edge, with its layers hole over hole, it ends where the flat board does.
    const gauge = carrier.parts.find((part) => part.role === 'gauge' && part.side === side);
    const [upper, lower] =
      gauge?.layers.map(({ outline }) => Math.max(...outline.segments.map((s) => s.from.y))) ?? [];
    const flat = Math.min(...cut.boards.filter(({ to }) => to[1] > 1e-6).map(({ from }) => from[1]));
    expect(upper).toBeCloseTo(extents(plate).minY, 3);
    expect(lower).toBeCloseTo(flat, 3);
    seen.gauges += 1;
  }
  const names = carrier.parts.map(({ name }) => name);
  expect(new Set(names).size).toBe(names.length);
  expect(inTheWay(one, side)).toBeLessThan(0.01);
  expect(leastWall(one)).toBeGreaterThan(4 - 0.01);
}

const kinds: readonly (readonly [string, fc.Arbitrary<string>])[] = [
  ['through dovetail', throughDovetailJobs],
  ['box', boxJobs],
  ['half-blind, together', togetherJobs],
  ['half-blind, apart', apartJobs],
  ['edge', edgeJobs],
];

describe('laid hole over hole, edges stand on their lines, clear of the bit, in random jobs', () => {
  test.each(kinds)(
    '%s',
    async (_, jobs) => {
      const seen: Seen = { stops: 0, fences: 0, gauges: 0, lacking: 0 };
      await fc.assert(
        fc.asyncProperty(jobs, async (text) => {
          const { result } = readJob({ name: 'random.yaml', text }, families, () => undefined);
          if (!result.ok) return;
          for (const one of await carriedCuts(result.value)) expectCarried(one, seen);
        }),
        { numRuns: howMany(40, 8), seed: SEED, endOnFailure: true },
      );
      expect(seen.stops + seen.fences + seen.gauges).toBeGreaterThan(10);
    },
    300_000,
  );
});

describe('every kind of stand', () => {
  const shop = `units: mm
shop:
  units: mm
  bits:
    tail: { kind: dovetail, diameter: 12.7, angle: 8, height: 20 }
    plain: { kind: straight, diameter: 8, height: 25 }
  bushings: { guide: { outside: 11.1 } }
  plate: { material: plywood, thickness: 12, least-finger: 3 }
`;
  const through = (rest: string) => `${shop}joints:
  corner:
    kind: through-dovetail
    width: 140
    boards: { tails: { thickness: 12 }, pins: { thickness: 14 } }
    cutters: { tails: tail, pins: plain }
    bushing: guide
${rest}`;
  const drawer = (rest: string) => `${shop}joints:
  corner:
    kind: half-blind-dovetail
    width: 140
    boards: { tails: { thickness: 12 }, pins: { thickness: 19 } }
    cutter: tail
    bushing: guide
${rest}`;
  const uneven = '    layout: { spacing: graduated, tails: 3, ratio: 1.2 }\n';
  const jobs: readonly (readonly [string, string])[] = [
    ['both stops', through('    layout: { tails: 3 }\n')],
    ['a mirrored plate', through(uneven)],
    ['one plate, turned', through('    layout: { tails: 3 }\n    template: { plate: one }\n')],
    ['one plate and its mirror image', through(`${uneven}    template: { plate: one }\n`)],
    ['two cuts an end', through('    layout: { tails: 4 }\n    template: { slots: every-second }\n')],
    ['both boards at once', drawer('    method: together\n')],
    ['sockets apart', drawer('    method: apart\n')],
    ['sockets and tails at one plate', drawer('    method: apart\n    template: { plate: one }\n')],
    ['a lipped front', drawer('    method: apart\n    lip: { end: 8, lower: 8, upper: 6, rabbet: 13 }\n')],
    [
      'a front without a lower lip',
      drawer('    method: apart\n    lip: { end: 8, lower: 0, upper: 8, rabbet: 13 }\n'),
    ],
  ];
  test.each(jobs)('%s', async (_, text) => {
    const seen: Seen = { stops: 0, fences: 0, gauges: 0, lacking: 0 };
    const all = await carriedCuts(readText(text));
    expect(all.length).toBeGreaterThan(0);
    for (const one of all) expectCarried(one, seen);
    expect(seen.lacking).toBe(0);
    expect(seen.stops).toBeGreaterThan(0);
  });

  test('a spacer is as wide as the board is moved', async () => {
    const text = through('    layout: { tails: 4 }\n    template: { slots: every-second }\n');
    for (const { template, cut } of await carriedCuts(readText(text))) {
      const spacer = template.carrier?.parts.find(({ role }) => role === 'spacer');
      const xs = spacer?.layers.flatMap(({ outline }) => outline.segments.map(({ from }) => from.x)) ?? [];
      expect(Math.max(...xs) - Math.min(...xs)).toBeCloseTo(Math.abs(cut.stops?.[1] ?? 0), 3);
    }
  });

  test('a stop without room for two holes is said to be left out, and the rest is there', () => {
    const text = through('    layout: { tails: 3 }\n    template: { nose: 4 }\n')
      .replaceAll(/thickness: 1[24] \}/g, 'thickness: 5 }')
      .replace('height: 20', 'height: 5');
    const outcome = solveOnly(readText(text));
    expect(
      outcome.diagnostics.filter(({ code }) => code === 'carrier-no-room').map(({ data }) => data),
    ).toEqual(
      (outcome.made?.templates ?? []).flatMap(({ plate, carrier }) =>
        (carrier?.lacking ?? []).map(({ name }) => ({ template: plate.name, part: name })),
      ),
    );
    const carriers = outcome.made?.templates.map(({ carrier }) => carrier) ?? [];
    expect(carriers.flatMap((one) => one?.lacking ?? []).length).toBeGreaterThan(0);
    for (const one of carriers) expect(one?.parts.map(({ role }) => role)).toContain('fence');
  });

  test('a plate without screw holes has no carrier', () => {
    const text = through('    layout: { tails: 3 }\n    template: { hole: 0 }\n');
    const { made } = solveOnly(readText(text));
    expect(made?.templates.map(({ carrier }) => carrier)).toEqual([undefined, undefined]);
    expect(made?.templates.flatMap(({ plate }) => plate.registers)).toEqual([]);
  });

  test.each(['shelf-case.yaml', 'cabinet.yaml', 'slide-box.yaml'])(
    '%s, plates in parts among them',
    async (name) => {
      const seen: Seen = { stops: 0, fences: 0, gauges: 0, lacking: 0 };
      for (const one of await carriedCuts(readSample(name))) {
        if (one.template.carrier) expectCarried(one, seen);
      }
      expect(seen.stops).toBeGreaterThan(1);
      expect(seen.lacking).toBe(0);
    },
    120_000,
  );
});
