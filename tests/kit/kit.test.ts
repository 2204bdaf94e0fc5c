import { describe, expect, test } from 'vitest';
import { commonBits, commonBushings } from '../../shared/tools.js';
import { sentence } from '../../src/diagnostics/catalogue.js';
import { formatterFor } from '../../src/diagnostics/formatter.js';
import { bushingOpening } from '../../src/geometry/compensate.js';
import { extents, rectangle } from '../../src/geometry/outline.js';
import { difference } from '../../src/geometry/regions/boolean.js';
import { clipLine } from '../../src/geometry/regions/clip.js';
import type { Job, Joint, Shop } from '../../src/input/types.js';
import type { Cut, JointFamily } from '../../src/joints/family.js';
import { type Kit, kitOf } from '../../src/joints/kit/kit.js';
import { families, familyOf } from '../../src/joints/list.js';
import { passesOf } from '../../src/joints/measure.js';
import { solveWithoutOffers } from '../../src/joints/search/choice.js';
import { solveJob } from '../../src/outputs/joint.js';
import { cutByHand, readSample, readText } from '../support/jobs.js';
import { bigShop } from './shops.js';

const samples = ['case-corner.yaml', 'small-tray.yaml', 'slide-box.yaml', 'refused-label-holder.yaml'];
const starters = families.filter((family) => family.bitSlots !== undefined);
const jobs: readonly Job[] = [
  ...samples.map(readSample),
  ...starters.map((family) => readText(family.starter)),
];

function only(job: Job): { family: JointFamily; joint: Joint; shop: Shop } {
  const [joint] = job.joints;
  const family = joint && familyOf(joint.kind);
  if (!family) throw new Error('the job has no joint');
  return { family, joint, shop: job.shop };
}

function kit(job: Job, options = {}): Kit {
  const { family, joint, shop } = only(job);
  return kitOf(family, joint, shop, options);
}

/** The joint with tools by name, as the kit's lists have them. */
function withTools(job: Job, choice: Kit['choices'][number]): Job {
  const { family, joint } = only(job);
  const slots = family.bitSlots?.(joint) ?? [];
  const changed = slots.reduce<Joint>((to, slot, index) => slot.put(to, choice.bits[index] ?? slot.bit), {
    ...joint,
    bushing: choice.bushing,
  });
  return { ...job, joints: [changed] };
}

describe('a kit', () => {
  test('agrees with make: its choices can be made, its refusals cannot', () => {
    let made = 0;
    let refusedOnes = 0;
    for (const job of jobs) {
      const { choices, refusals } = kit(job);
      for (const choice of choices.slice(0, 12)) {
        const [outcome] = solveJob(withTools(job, choice));
        const why = outcome?.diagnostics.map((one) => sentence(one, formatterFor('mm'))).join('\n');
        expect(outcome?.made, `${job.title} ${choice.bits.map(({ name }) => name)}: ${why}`).toBeDefined();
        made += 1;
      }
      const { family, joint } = only(job);
      const slots = family.bitSlots?.(joint) ?? [];
      for (const refusal of refusals) {
        if (!refusal.bushing || refusal.bits.length !== slots.length) continue;
        const [outcome] = solveJob(withTools(job, refusal as Kit['choices'][number]));
        expect(outcome?.made).toBeUndefined();
        refusedOnes += 1;
      }
    }
    expect(made).toBeGreaterThan(30);
    expect(refusedOnes).toBeGreaterThan(10);
  });

  test('measures the finger that the drawn plate has', () => {
    let measured = 0;
    for (const job of jobs) {
      for (const choice of kit(job).choices.slice(0, 6)) {
        const { family, joint, shop } = only(withTools(job, choice));
        const solved = solveWithoutOffers(family, joint, shop);
        const widths = solved.ok ? solved.value.cuts.flatMap(innerFingers) : [];
        if (widths.length === 0) continue;
        expect(choice.finger).toBeCloseTo(Math.min(...widths), 4);
        measured += 1;
      }
    }
    expect(measured).toBeGreaterThan(20);
  });

  test('gives every refusal a reason, and every tool an answer', () => {
    for (const job of jobs) {
      const { family, joint, shop } = only(job);
      const { choices, refusals } = kit(job);
      for (const { diagnostics } of refusals) {
        expect(diagnostics.filter((one) => one.level === 'refused').length).toBeGreaterThan(0);
      }
      const answered = new Set([...choices, ...refusals].flatMap(({ bits }) => bits.map(({ name }) => name)));
      const kinds = family.bitSlots?.(joint).map(({ kind }) => kind);
      const wanted = Object.values(shop.bits).filter(({ kind }) => kinds?.includes(kind));
      expect(wanted.filter(({ name }) => !answered.has(name))).toEqual([]);
      const bushings = new Set([...choices, ...refusals].map(({ bushing }) => bushing?.name));
      expect(Object.keys(shop.bushings).filter((name) => !bushings.has(name))).toEqual([]);
    }
  });

  test('puts the best first: what speaks against it, then strength, then passes', () => {
    for (const job of jobs.slice(2)) {
      const { choices } = kit(job, { common: true });
      const least = job.shop.plate.leastFinger;
      const ranks = choices.map(({ penalty, finger = Infinity, passes, lacking }) => [
        Math.round(penalty / 0.25),
        -Math.round(Math.min(finger, 2 * least) / 0.1),
        passes,
        lacking,
      ]);
      expect(ranks).toEqual([...ranks].sort(byRank));
    }
  });

  test('a bit as wide as the stock is thick comes before larger ones whose fingers are stronger', () => {
    const starter = familyOf('through-dovetail')?.starter ?? '';
    const { choices } = kit(readText(starter.replace('width: 3-1/2 ', 'width: 8 ')), { common: true });
    const widths = choices.map(({ bits }) => bits[0]?.diameter ?? 0);
    expect(widths[0]).toBeCloseTo(12.7, 6);
    expect(Math.max(...widths)).toBeGreaterThan(15);
  });

  test('an edge is one line that is followed', () => {
    const { choices } = kit(readSample('edge-drawer-edging.yaml'));
    expect(Math.max(...choices.map(({ passes }) => passes))).toBeLessThan(20);
  });

  test('with the common sizes never knows less than without', () => {
    for (const job of jobs.slice(2)) {
      const [bare, common] = [kit(job), kit(job, { common: true })];
      expect(common.choices.length).toBeGreaterThanOrEqual(bare.choices.length);
      expect(common.choices.filter(({ lacking }) => lacking === 0).length).toBe(bare.choices.length);
    }
  });

  test('says that a joint cut by hand has nothing to choose', () => {
    expect(kit(readText(cutByHand)).diagnostics.map(({ code }) => code)).toEqual(['kit-by-hand']);
  });
});

test('tools with which only another choice than the first can be cut are of use', () => {
  const text = (familyOf('half-blind-dovetail')?.starter ?? '')
    .replace('width: 4-1/2', 'width: 5')
    .replace('    depth: 3/8 ', '    # depth: 3/8 ')
    .replace('bushing: half', 'bushing: five-eighths')
    .replace('bushings:', 'bushings:\n    five-eighths: { outside: 5/8, bore: 17/32, barrel: 5/32 }');
  const { choices } = kit(readText(text));
  expect(choices.find(({ own }) => own)?.diagnostics).toEqual([]);
});

describe('the number of layouts solved', () => {
  test('is at most one for each pair of 200 bits and 40 bushings', () => {
    const job = readText(familyOf('box')?.starter ?? '');
    const shop = bigShop(job.shop, 200, 40, ['straight']);
    const big = kit({ ...job, shop });
    expect(Object.keys(shop.bits)).toHaveLength(200);
    expect(Object.keys(shop.bushings)).toHaveLength(40);
    expect(big.solved).toBeGreaterThan(100);
    expect(big.solved).toBeLessThan(200 * 40);
    expect(big.choices.length).toBeGreaterThan(10);
    expect(big.diagnostics.map(({ code }) => code)).toEqual([]);
  });

  test('leaves out every pair that the tools alone rule out', () => {
    const job = readText(familyOf('box')?.starter ?? '');
    const { bits, bushings } = job.shop;
    const long = Object.fromEntries(
      Object.values(bushings).map((one) => [one.name, { ...one, barrel: job.shop.plate.thickness + 1 }]),
    );
    const ruledOut = kit(withBushings(job, long));
    expect(ruledOut.solved).toBe(0);
    expect(ruledOut.refusals.map(({ diagnostics }) => diagnostics[0]?.code)).toEqual(
      Object.keys(bushings).map(() => 'barrel-long'),
    );
    const short = Object.fromEntries(Object.values(bits).map((one) => [one.name, { ...one, height: 2 }]));
    const low = kit({ ...job, shop: { ...job.shop, bits: short } });
    expect(low.solved).toBe(0);
    expect(low.refusals.map(({ diagnostics }) => diagnostics[0]?.code)).toEqual(['bit-short']);
  });

  test('stays within its bound, every pair first, and what was left out is said', () => {
    const job = readText(familyOf('through-dovetail')?.starter ?? '');
    const shop = bigShop(job.shop, 30, 10, ['dovetail', 'straight']);
    const all = kit({ ...job, shop });
    const few = kit({ ...job, shop }, { most: 40 });
    expect(all.diagnostics).toEqual([]);
    expect(few.solved).toBe(40);
    expect(few.diagnostics.map(({ code }) => code)).toEqual(['kit-untried']);
  });

  test('tries no more of a kind that takes long to solve than its family allows, and says so', () => {
    const job = readText(familyOf('edge')?.starter ?? '');
    const { solved, diagnostics } = kit({ ...job, shop: bigShop(job.shop, 30, 10, ['straight']) });
    expect(solved).toBe(familyOf('edge')?.mostTries);
    expect(diagnostics.map(({ code }) => code)).toEqual(['kit-untried']);
  });
});

test('a slot wider than the bit takes passes, and deep slots take passes down', () => {
  const job = readText(familyOf('box')?.starter ?? '');
  const { family, joint, shop } = only(job);
  const solved = family.solve(joint, shop);
  if (!solved.ok) throw new Error('the starter is refused');
  const [cut] = solved.value.cuts;
  if (!cut) throw new Error('no cut');
  // The slot is 3/8 in and g/4 at each wall, the bit 3/8 in: the slack alone asks for a second pass.
  expect(passesOf(cut)).toBe(2);
  expect(passesOf({ ...cut, cutterRadius: 20 })).toBe(1);
  expect(passesOf({ ...cut, depth: 2.5 * cut.bit.diameter })).toBe(6);
});

/** Sizes that are sold: the ranges of values.md's kind, common practice, no source. */
test('common sizes are sizes that can be: an axis, a bore, a barrel, each within what is usual', () => {
  for (const { kind, diameter, angle, height, shank } of commonBits) {
    if (kind === 'dovetail') {
      expect(angle).toBeGreaterThanOrEqual(7);
      expect(angle).toBeLessThanOrEqual(14);
      expect(diameter - 2 * height * Math.tan((angle * Math.PI) / 180)).toBeGreaterThan(2);
    } else expect(angle).toBe(0);
    expect([6, 6.35, 8, 12, 12.7]).toContain(shank);
  }
  for (const { outside, bore, barrel } of commonBushings) {
    expect(outside - bore).toBeGreaterThanOrEqual(25.4 / 16 - 1e-9);
    expect(outside - bore).toBeLessThanOrEqual((3 * 25.4) / 32 + 1e-9);
    expect(barrel).toBeGreaterThanOrEqual(25.4 / 4);
  }
  const names = [...commonBits, ...commonBushings].map(({ name }) => name);
  expect(new Set(names).size).toBe(names.length);
});

/** Widths of the fingers between two openings of the plate that a cut needs, as its outline is worked out. */
function innerFingers(cut: Cut): readonly number[] {
  const y = cut.narrowestAt + 1e-3;
  const [left, right] = [-500, 1000];
  const openings = bushingOpening(cut.waste, cut.cutterRadius, cut.bushing.outside / 2);
  const plate = difference([rectangle(left, cut.nearEdge, right, 100)], openings);
  const parts = clipLine({ x: left - 1, y }, { x: right + 1, y }, plate);
  return parts.slice(1, -1).map((part) => {
    const box = extents(part);
    return box.maxX - box.minX;
  });
}

function byRank(one: readonly number[], other: readonly number[]): number {
  for (const [index, rank] of one.entries()) {
    const apart = rank - (other[index] ?? 0);
    if (apart !== 0) return apart;
  }
  return 0;
}

function withBushings(job: Job, bushings: Shop['bushings']): Job {
  const joints = job.joints.map((joint) => {
    const bushing = bushings[joint.bushing?.name ?? ''];
    return bushing ? { ...joint, bushing } : joint;
  });
  return { ...job, joints, shop: { ...job.shop, bushings } };
}
