import { describe, expect, test } from 'vitest';
import type { Job } from '../../src/input/types.js';
import { type Factors, type FitModel, type FitSize, factorOf } from '../../src/joints/fit-model.js';
import { families } from '../../src/joints/list.js';
import { solveJob } from '../../src/outputs/joint.js';
import type { TestCut } from '../../src/verify/assemble.js';
import { area } from '../../src/verify/cut/polygons.js';
import { readSample, readText } from '../support/jobs.js';
import { cutAs, type Off, playOf, trialRequest } from './on-paper.js';

/**
 * Every factor of the fit model, found again by differencing the test cut: it takes the written templates and
 * another polygon library, and knows nothing of the model. Thickness is left to the kernel's cut in
 * tolerance.test.ts, since a board of another thickness is another job to the test cut.
 */

const starterOf = (kind: string) => families.find((family) => family.kind === kind)?.starter ?? '';
const halfBlind = starterOf('half-blind-dovetail');
const jobs: Readonly<Record<string, Job>> = {
  through: readSample('case-corner.yaml'),
  'half-blind, together': readText(halfBlind),
  'half-blind, apart': readText(
    halfBlind
      .replace('method: together', 'method: apart')
      .replace('bushing: half\n', 'bushing: seven-sixteenths\n'),
  ),
  box: readSample('slide-box.yaml'),
  edge: readSample('edge-drawer-edging.yaml'),
  'edge, two bits': withTwoBits(readSample('edge-drawer-edging.yaml')),
};

/** Board two cut with another bit of the same size. */
function withTwoBits(job: Job): Job {
  const slots = families.find(({ kind }) => kind === 'edge')?.bitSlots;
  const joints = job.joints.map((joint) => {
    const slot = slots?.({ ...joint, oneCutter: false } as typeof joint).find(({ key }) =>
      key.endsWith('two'),
    );
    if (!slot) throw new Error('no place for a second bit');
    return slot.put(joint, { ...slot.bit, name: 'another' });
  });
  return { ...job, joints };
}

function modelOf(job: Job): FitModel {
  const fit = solveJob(job)[0]?.made?.solved.fit;
  if (!fit) throw new Error(`${job.title} has no fit model`);
  return fit;
}

/** Steps of the differences, mm and radians: far over the test cut's chords, far under what play bends within. */
const STEP = 0.1;
const ANGLE_STEP = 0.005;
const SCALE_STEP = 0.01;

/** The test cut's chords, 2e-4 mm each, over a step; a share of the factor for what is not straight. */
const CLOSE = 0.02;

/** Only what leaves the bushing room in its openings, of both ways that a size can be off. */
const signs: Factors = { bushing: -1, kerf: 1, scale: 1 };

function off(size: FitSize, by: number, twoBits: boolean): Off {
  if (size === 'fence') return { back: { pins: by } };
  // Where board two has a bit of its own, the first one is board one's.
  return size === 'straight' && twoBits ? { straight: by, second: 0 } : { [size]: by };
}

/** Of flat boards: twice the mean gap along the line, since a bump has two sides. */
function pairOf(cut: TestCut): number {
  if (cut.way !== 'placed') return playOf(cut)[1] ?? Number.NaN;
  const [level] = cut.sections;
  return level ? (2 * (area(level.gaps) - area(level.overlaps))) / level.glueLength : Number.NaN;
}

describe.each(Object.entries(jobs))('the factors of a pair: %s', (_, job) => {
  const { pair } = modelOf(job);
  const sizes = (Object.keys(pair.factors) as FitSize[]).filter((size) => size !== 'thickness');

  test.each(sizes)('%s', async (size) => {
    const request = await trialRequest(job);
    const step = size === 'angle' ? ANGLE_STEP : size === 'scale' ? SCALE_STEP : STEP;
    const play = (by: number) => pairOf(cutAs(request, off(size, by, sizes.includes('second'))));
    const sign = signs[size];
    const factor =
      sign === undefined
        ? (play(step) - play(-step)) / (2 * step)
        : (play(sign * step) - play(0)) / (sign * step);
    const wanted = factorOf(pair, size);
    expect(Math.abs(factor - wanted)).toBeLessThan(CLOSE * Math.max(1, Math.abs(wanted)));
  });
});

test('every kind that is cut with a router is among them, with every tool that its model names', () => {
  const routed = families.filter(({ bitSlots }) => bitSlots !== undefined).map(({ kind }) => kind);
  expect(new Set(Object.values(jobs).flatMap(({ joints }) => joints.map(({ kind }) => kind)))).toEqual(
    new Set(routed),
  );
  for (const job of Object.values(jobs)) {
    const { tools, pair } = modelOf(job);
    for (const { role } of tools) expect(Math.abs(pair.factors[role] ?? 0)).toBeGreaterThanOrEqual(1);
  }
});

test('a half-pin has half of what a pair has', () => {
  const { pair, endPair = {} } = modelOf(readSample('case-corner.yaml'));
  for (const [size, factor] of Object.entries(endPair)) {
    expect(factor).toBeCloseTo((pair.factors[size as FitSize] ?? Number.NaN) / 2, 12);
  }
});

test('a width and its mate make up the pair', () => {
  for (const [name, wide, narrow] of [
    ['through', 'socket', 'pin'],
    ['half-blind, together', 'socket', 'tail'],
    ['box', 'slot', 'finger'],
  ] as const) {
    const { widths, pair, tools } = modelOf(jobs[name] ?? readText(''));
    for (const { role } of tools) {
      const sum = (widths[wide]?.factors[role] ?? 0) - (widths[narrow]?.factors[role] ?? 0);
      expect(sum, `${name}: ${role}`).toBeCloseTo(pair.factors[role] ?? Number.NaN, 12);
    }
  }
});
