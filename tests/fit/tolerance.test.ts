import { describe, expect, test } from 'vitest';
import { generalTolerance } from '../../shared/general-tolerances.js';
import { formatterFor } from '../../src/diagnostics/formatter.js';
import {
  deviationOf,
  meanOf,
  normalShare,
  quasiRandom,
  radicalInverse,
  uniformVariance,
} from '../../src/fit/distribution.js';
import { toleranceDrawing } from '../../src/fit/histogram.js';
import { readTolerances } from '../../src/fit/read-tolerances.js';
import {
  type ErrorSource,
  type ToleranceStudy,
  type Tolerances,
  toleranceStudy,
} from '../../src/fit/tolerance.js';
import type { Job, Joint } from '../../src/input/types.js';
import type { SolvedJoint } from '../../src/joints/family.js';
import { type Factors, type FitModel, middlePlayOf } from '../../src/joints/fit-model.js';
import { families } from '../../src/joints/list.js';
import { solveJob } from '../../src/outputs/joint.js';
import { pictureWriter } from '../../src/writers/picture.js';
import { cutByHand, readSample, readText } from '../support/jobs.js';
import { playByCutting } from '../support/play-by-cutting.js';

interface Made {
  readonly joint: Joint;
  readonly solved: SolvedJoint;
}

function modelOf({ fit, name }: SolvedJoint): FitModel {
  if (!fit) throw new Error(`${name} has no fit model`);
  return fit;
}

function made(job: Job): Made {
  const [outcome] = solveJob(job);
  if (!outcome?.made) throw new Error(`${job.title} is refused`);
  return { joint: outcome.joint, solved: outcome.made.solved };
}

function starter(kind: string, change: (text: string) => string = (text) => text): Made {
  return made(readText(change(families.find((family) => family.kind === kind)?.starter ?? '')));
}

const through = made(readSample('case-corner.yaml'));
const together = starter('half-blind-dovetail');
const apart = starter('half-blind-dovetail', (text) =>
  text.replace('method: together', 'method: apart').replace('bushing: half\n', 'bushing: seven-sixteenths\n'),
);
const box = made(readSample('slide-box.yaml'));
const joints: Readonly<Record<string, Made>> = { through, together, apart, box };

const given: Tolerances = { bit: 0.02, bushing: 0.03, kerf: 0.04, thickness: 0.1, depth: 0.1, angle: 0.003 };

function study({ solved }: Made, tolerances: Tolerances = given, options = {}): ToleranceStudy {
  const result = toleranceStudy(solved, tolerances, options);
  if (!result.ok) throw new Error(JSON.stringify(result.diagnostics));
  return result.value;
}

function partialsOf(one: ToleranceStudy): Readonly<Partial<Record<ErrorSource, number>>> {
  return Object.fromEntries(one.errors.map(({ source, partial }) => [source, partial]));
}

/** The kernel stops EXACT_FIT short at each of its steps, mm. */
const CUT_EXACT = 1e-5;

describe('the play of a pair', () => {
  test.each(Object.entries(joints))('by formula is what cutting gives: %s', (_name, { joint, solved }) => {
    const model = modelOf(solved);
    expect(playByCutting(solved, {})).toBeCloseTo(joint.slack, 4);
    const offs: readonly Factors[] = [
      { dovetail: 0.05, straight: -0.03 },
      { bushing: -0.08, kerf: 0.03 },
      { angle: -0.004, depth: -0.2, thickness: 0.3 },
      {
        dovetail: -0.04,
        straight: 0.05,
        bushing: -0.05,
        kerf: 0.02,
        thickness: -0.2,
        depth: 0.15,
        angle: 0.005,
      },
    ];
    for (const errors of offs) {
      const cut = playByCutting(solved, errors);
      expect(cut, JSON.stringify(errors)).toBeDefined();
      expect(Math.abs((cut ?? 0) - middlePlayOf(model, errors))).toBeLessThan(CUT_EXACT);
    }
  });
});

describe('what an error costs', () => {
  // ∂play: "What an error costs" in src/joints/README.md; for leaning pin walls the exact factor is 1/cos θ, not 1.
  const k = (angle: number) => Math.tan(angle);
  const rows: readonly (readonly [name: string, expected: Partial<Record<ErrorSource, number>>])[] = [
    ['box', { straight: 2, bushing: -2, kerf: 2, depth: 0, thickness: 0 }],
    ['together', { dovetail: 2, bushing: -2, kerf: 2, depth: -2 * k((14 * Math.PI) / 180), thickness: 0 }],
    ['apart', { dovetail: 2, bushing: -2, kerf: 2, depth: -2 * k((14 * Math.PI) / 180), thickness: 0 }],
    [
      'through',
      {
        dovetail: 1,
        straight: 1 / Math.cos(Math.atan(1 / 7)),
        bushing: -1 - 1 / Math.cos(Math.atan(1 / 7)),
        kerf: 1 + 1 / Math.cos(Math.atan(1 / 7)),
        depth: 0,
        thickness: 0,
      },
    ],
  ];

  test.each(rows)('is what the table says: %s', (name, expected) => {
    const partials = partialsOf(study(joints[name] ?? through));
    for (const [source, value] of Object.entries(expected)) {
      expect(Math.abs((partials[source as ErrorSource] ?? Number.NaN) - value), source).toBeLessThan(2e-3);
    }
  });

  test('differs from the rounded table of the through joint by less than 2 %', () => {
    const { straight = 0, bushing = 0 } = partialsOf(study(through));
    expect(Math.abs(straight - 1)).toBeLessThan(0.02);
    expect(Math.abs(bushing + 2)).toBeLessThan(0.02 * 2);
    expect(straight).toBeGreaterThan(1.005);
  });

  test('an angle counts by the depth that it runs over', () => {
    const cos2 = (angle: number) => Math.cos(angle) ** 2;
    const half = partialsOf(study(together)).angle ?? 0;
    expect(half).toBeCloseTo((-2 * 9.525) / cos2((14 * Math.PI) / 180), 1);
    const whole = partialsOf(study(through)).angle ?? 0;
    expect(whole).toBeCloseTo(-19.05 / cos2(Math.atan(1 / 7)), 1);
  });
});

describe('the spread', () => {
  test('of a linear sum of uniform errors has the variance of the GUM, 4.3.7: a²/3 each', () => {
    expect(uniformVariance(1)).toBeCloseTo(1 / 3, 12);
    // Two errors of ±0.02 and ±0.03 that count double: variance 4 · (0.02² + 0.03²)/3.
    const one = study(box, { bit: 0.02, bushing: 0.03, kerf: 0, thickness: 0, depth: 0 });
    const byHand = Math.sqrt((4 * (0.02 ** 2 + 0.03 ** 2)) / 3);
    expect(Math.abs(one.linear.deviation - byHand) / byHand).toBeLessThan(1e-3);
    expect(Math.abs(one.sampled.deviation - byHand) / byHand).toBeLessThan(5e-3);
    expect(one.errors.map(({ source }) => source).slice(0, 2)).toEqual(['bushing', 'straight']);
    expect(one.errors[0]?.share).toBeCloseTo(9 / 13, 2);
  });

  test.each(Object.entries(joints))(
    'by linear theory and by the run agree for small errors: %s',
    (_name, joint) => {
      const { linear, sampled } = study(joint);
      expect(linear.deviation).toBeGreaterThan(0.03);
      expect(Math.abs(sampled.deviation - linear.deviation) / linear.deviation).toBeLessThan(0.01);
      expect(Math.abs(sampled.mean - linear.mean)).toBeLessThan(0.002);
      expect(sampled.tight + sampled.good + sampled.loose).toBeCloseTo(1, 9);
      expect(linear.tight + linear.good + linear.loose).toBeCloseTo(1, 9);
    },
  );

  test('of a single error is what can be said by hand: shares by length', () => {
    // The bushing alone, ±0.1: play 0.1 ∓ 0.2, anywhere alike from −0.1 to 0.3.
    const exact = { bit: 0, kerf: 0, thickness: 0, depth: 0 };
    const one = study(box, { ...exact, bushing: 0.1 }, { tight: 0, loose: 0.2 });
    expect(one.sampled.tight).toBeCloseTo(0.25, 2);
    expect(one.sampled.loose).toBeCloseTo(0.25, 2);
    expect(one.sampled.least).toBeCloseTo(-0.1, 2);
    expect(one.sampled.most).toBeCloseTo(0.3, 2);
  });

  test('of no error at all is one joint, and good', () => {
    const none = { bit: 0, bushing: 0, kerf: 0, thickness: 0, depth: 0, angle: 0 };
    const one = study(through, none);
    expect(one.linear).toMatchObject({ deviation: 0, good: 1 });
    expect(one.sampled.good).toBe(1);
  });

  test('grows with every tolerance, and the worst error is named', () => {
    const base = study(together).linear.deviation;
    for (const key of ['bit', 'bushing', 'kerf', 'depth', 'angle'] as const) {
      const more = study(together, { ...given, [key]: 10 * (given[key] ?? 0) });
      expect(more.linear.deviation).toBeGreaterThan(base);
      expect(more.errors[0]?.source).toBe(key === 'bit' ? 'dovetail' : key);
      expect(more.diagnostics.map(({ code }) => code)).toContain('tolerance-worst');
    }
  });

  test('is the same for the same seed and nearly so for another', () => {
    expect(study(through)).toEqual(study(through));
    const other = study(through, given, { seed: 7 });
    expect(other.play).not.toEqual(study(through).play);
    expect(Math.abs(other.sampled.good - study(through).sampled.good)).toBeLessThan(0.02);
  });

  test('asks for kerf and angle, and takes the rest from ISO 2768-1', () => {
    const one = study(through, {});
    expect(one.errors.map(({ source }) => source).sort()).toEqual([
      'bushing',
      'depth',
      'dovetail',
      'straight',
      'thickness',
    ]);
    const codes = one.diagnostics.map(({ code }) => code);
    expect(codes).toEqual(expect.arrayContaining(['tolerance-asked', 'tolerance-assumed', 'tolerance-idle']));
    // 17.4625, 9.525 and 11.1125 mm: ±0.1 in class f; 19.05 mm: ±0.2 in class m.
    for (const { source, halfWidth, from } of one.errors) {
      expect(from).toBe('iso-2768-1');
      expect(halfWidth).toBe(source === 'depth' || source === 'thickness' ? 0.2 : 0.1);
    }
  });

  test('is refused for a joint cut by hand, and for limits the wrong way round', () => {
    const hand = made(readText(cutByHand));
    expect(toleranceStudy(hand.solved, given).diagnostics[0]?.code).toBe('refit-by-hand');
    const limits = toleranceStudy(box.solved, given, { tight: 0.2, loose: 0.1 });
    expect(limits.diagnostics[0]?.code).toBe('tolerance-limits');
  });
});

/** ISO 2768-1, classes f and m, in a copy of its table of linear dimensions. */
test('general tolerances are those of the table, each range with its upper end', () => {
  const rows = [
    [2, 0.05, 0.1],
    [3, 0.05, 0.1],
    [3.1, 0.05, 0.1],
    [6, 0.05, 0.1],
    [12.7, 0.1, 0.2],
    [30, 0.1, 0.2],
    [30.1, 0.15, 0.3],
    [120, 0.15, 0.3],
    [400, 0.2, 0.5],
  ] as const;
  for (const [size, fine, medium] of rows) {
    expect(generalTolerance(size, 'f')).toBe(fine);
    expect(generalTolerance(size, 'm')).toBe(medium);
  }
  expect(generalTolerance(0.4, 'f')).toBeUndefined();
  expect(generalTolerance(401, 'm')).toBeUndefined();
});

describe('the quasi-random run', () => {
  /** Van der Corput's sequence in base 2 and 3, as any text on the Halton sequence prints it. */
  test('has the mirrored digits of the published sequence', () => {
    expect([1, 2, 3, 4, 5, 6, 7].map((index) => radicalInverse(index, 2))).toEqual([
      1 / 2,
      1 / 4,
      3 / 4,
      1 / 8,
      5 / 8,
      3 / 8,
      7 / 8,
    ]);
    const third = [1 / 3, 2 / 3, 1 / 9, 4 / 9, 7 / 9, 2 / 9];
    for (const [index, value] of third.entries()) expect(radicalInverse(index + 1, 3)).toBeCloseTo(value, 12);
  });

  test('fills every direction: mean 1/2 and variance 1/12', () => {
    const points = quasiRandom(4096, 7, 3);
    for (let direction = 0; direction < 7; direction++) {
      const along = points.map((point) => point[direction] ?? Number.NaN);
      expect(Math.min(...along)).toBeGreaterThanOrEqual(0);
      expect(Math.max(...along)).toBeLessThan(1);
      expect(Math.abs(meanOf(along) - 0.5)).toBeLessThan(0.002);
      expect(Math.abs(deviationOf(along) ** 2 - 1 / 12)).toBeLessThan(0.001);
    }
  });

  /** Any table of the normal distribution. */
  test('is set beside the normal distribution of the tables', () => {
    for (const [z, share] of [
      [0, 0.5],
      [1, 0.841345],
      [1.96, 0.975002],
      [-2, 0.02275],
      [3, 0.99865],
    ] as const) {
      expect(Math.abs(normalShare(z) - share)).toBeLessThan(1e-6);
    }
  });
});

describe('tolerances as they are typed', () => {
  test('are lengths, and degrees for the angle', () => {
    const read = readTolerances(['bit=0.02mm', 'bushing=±0.001 in', 'kerf = +-0.05 mm', 'angle=0.5'], 'in');
    expect(read.ok && read.value).toEqual({
      bit: 0.02,
      bushing: 0.0254,
      kerf: 0.05,
      angle: (0.5 * Math.PI) / 180,
    });
  });

  test('may come with the limits of the play, which may lie below nothing', () => {
    const read = readTolerances(['tight=-0.05', 'loose=0.15'], 'mm');
    expect(read.ok && read.value).toEqual({ tight: -0.05, loose: 0.15 });
  });

  test('are refused each with its place', () => {
    const words = ['bits=1', 'bit=5 mm', 'kerf=x', 'angle=30', 'angle=steep', 'depth'];
    const read = readTolerances([...words, 'loose=3', 'bushing=0.1', 'bushing=0.2', 'kerf=-0.1'], 'mm');
    expect(read.diagnostics.map(({ code }) => code)).toEqual([
      'measured-unknown',
      'tolerance-range',
      'length-unclear',
      'tolerance-angle',
      'angle-unclear',
      'tolerance-form',
      'tolerance-limit',
      'tolerance-twice',
      'tolerance-range',
    ]);
    for (const { at } of read.diagnostics) expect(at).toMatch(/^--tolerance /);
  });
});

describe('the histogram', () => {
  test('holds every joint of the run once, and both limits', () => {
    const one = study(through);
    const drawing = toleranceDrawing(one, 'Case corner', formatterFor('mm'));
    const bars = drawing.items.filter((item) => item.kind === 'closed');
    const areas = bars.map((item) => {
      const { segments } = item.outline;
      const xs = segments.map(({ to }) => to.x);
      const ys = segments.map(({ to }) => to.y);
      return { width: Math.max(...xs) - Math.min(...xs), height: Math.max(...ys), left: Math.min(...xs) };
    });
    expect(bars.length).toBeGreaterThan(10);
    for (const { width } of areas) expect(width).toBeCloseTo(150 / 40, 6);
    const tallest = Math.max(...areas.map(({ height }) => height));
    expect(tallest).toBeLessThanOrEqual(70 + 1e-9);
    expect(drawing.items.filter((item) => item.kind === 'open' && item.dashed)).toHaveLength(2);
    expect(drawing.items.every(({ layer }) => layer !== 'CUT')).toBe(true);
  });

  test('writes the same bytes each time', async () => {
    const colours = {
      CUT: '#D55E00',
      SCORE: '#0072B2',
      ENGRAVE: '#009E73',
      REF: '#CC79A7',
      STOCK: '#56B4E9',
    };
    const write = () =>
      pictureWriter.write(toleranceDrawing(study(box), 'Slide box', formatterFor('mm')), { colours });
    expect(await write()).toBe(await write());
    expect(await write()).toMatch(/^<\?xml/);
  });
});
