import { describe, expect, test } from 'vitest';
import { fitOf } from '../../src/fit/joint-fit.js';
import { type Tolerances, toleranceStudy } from '../../src/fit/tolerance.js';
import type { Job } from '../../src/input/types.js';
import { playOf } from '../../src/joints/fit-model.js';
import { families } from '../../src/joints/list.js';
import { solveJob } from '../../src/outputs/joint.js';
import { readSample, readText } from '../support/jobs.js';
import { howMany, wholeNight } from '../support/long.js';
import { benchOf, type Errors, tryJoint } from './workshop.js';

/** The study of tolerances beside joints that are really cut, with errors anywhere within the tolerances alike. */

const given: Required<Tolerances> = {
  bit: 0.05,
  bushing: 0.05,
  kerf: 0.05,
  thickness: 0.1,
  depth: 0.1,
  angle: (0.5 * Math.PI) / 180,
};

const starter = families.find(({ kind }) => kind === 'half-blind-dovetail')?.starter ?? '';
const jobs: Readonly<Record<string, Job>> = {
  through: readSample('case-corner.yaml'),
  box: readSample('slide-box.yaml'),
  together: readText(starter),
};

/** Mulberry32, as published by its author; any generator would do. */
function random(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
}

function errorsFrom(roll: () => number): Errors {
  const off = (most: number) => most * (2 * roll() - 1);
  const [depth, thickness] = [off(given.depth), off(given.thickness)];
  return {
    dovetail: off(given.bit),
    straight: off(given.bit),
    bushing: off(given.bushing),
    kerf: off(given.kerf),
    angle: off(given.angle),
    depth: { tails: depth, pins: depth, one: depth, two: depth },
    stock: { pins: thickness, two: thickness },
  };
}

const COUNT = wholeNight ? 2000 : howMany(40, 12);

describe.each(Object.entries(jobs))('joints that are cut: %s', (_name, job) => {
  test('have the play that the model gives, one by one, and spread as the study says', async () => {
    const solved = solveJob(job)[0]?.made?.solved;
    const model = solved && fitOf(solved);
    if (!solved || !model?.ok) throw new Error('no fit model');
    const bench = await benchOf(job);
    const roll = random(20261201);
    const plays: number[] = [];
    for (let i = 0; i < COUNT; i++) {
      const errors = errorsFrom(roll);
      const { enters, gap } = tryJoint(bench, errors);
      if (!enters) continue;
      const { dovetail = 0, straight = 0, bushing = 0, kerf = 0, angle = 0, depth, stock } = errors;
      const off = {
        dovetail,
        straight,
        bushing,
        kerf,
        angle,
        depth: depth?.tails ?? 0,
        thickness: stock?.pins ?? 0,
      };
      expect(Math.abs(gap - playOf(model.value, off))).toBeLessThan(0.005);
      plays.push(gap);
    }
    const study = toleranceStudy(solved, given);
    if (!study.ok) throw new Error('no study');
    const { sampled, limits, play } = study.value;
    // Shares of a few joints tell nothing.
    if (!wholeNight) return;
    const share = (is: (one: number) => boolean) => plays.filter(is).length / COUNT;
    expect(Math.abs(share((one) => one < limits.tight) - sampled.tight)).toBeLessThan(0.03);
    expect(Math.abs(share((one) => one > limits.loose) - sampled.loose)).toBeLessThan(0.03);
    expect(Math.abs(1 - plays.length / COUNT - sampled.uncut)).toBeLessThan(0.03);
    // Each decile of the study has as many of the cut joints under it, within three points.
    for (let tenth = 1; tenth < 10; tenth++) {
      const quantile = play[Math.floor((play.length * tenth) / 10)] ?? 0;
      const under = plays.filter((one) => one < quantile).length / plays.length;
      expect(Math.abs(under - tenth / 10)).toBeLessThan(0.03);
    }
  });
});
