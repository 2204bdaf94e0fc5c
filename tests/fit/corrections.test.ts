import { describe, expect, test } from 'vitest';
import { sentence } from '../../src/diagnostics/catalogue.js';
import { formatterFor } from '../../src/diagnostics/formatter.js';
import { type Correction, correctionsOf } from '../../src/fit/corrections.js';
import type { Job } from '../../src/input/types.js';
import { families } from '../../src/joints/list.js';
import { solveJob } from '../../src/outputs/joint.js';
import { readSample, readText } from '../support/jobs.js';
import { type Off, playOf, trialPiece } from './on-paper.js';

/**
 * Every line of the table beside the router, tried: a trial joint that shows what the line names is cut from the
 * written templates, what the line says is done to it, and the joint is cut and closed again.
 */

/** Second-order terms and the chords of the test cut, mm. */
const CLOSE = 0.006;

const starter = (families.find(({ kind }) => kind === 'half-blind-dovetail')?.starter ?? '') as string;
const apart = starter
  .replace('method: together', 'method: apart')
  .replace('bushing: half\n', 'bushing: seven-sixteenths\n');

const jobs: Readonly<Record<string, Job>> = {
  through: readSample('case-corner.yaml'),
  together: readText(starter),
  apart: readText(apart),
  box: readSample('slide-box.yaml'),
};

function rowsOf(job: Job): readonly Correction[] {
  const [outcome] = solveJob(job);
  if (!outcome?.made) throw new Error('the job is refused');
  return correctionsOf(outcome.made.solved, job.units);
}

/** The boards, in the order of the model, as the templates have them: `both` is one plate for two boards. */
const isSunk = (job: Job) => job.joints[0]?.kind === 'half-blind-dovetail';

/** A setting of the bench that makes the trial joint show what a line names. */
function offThatShows(job: Job, { seen }: Correction): Off {
  const slope = Math.tan(solveJob(job)[0]?.made?.solved.slope ?? 0);
  switch (seen.what) {
    case 'loose':
    case 'tight': {
      const by = seen.what === 'loose' ? seen.by : -seen.by;
      if (isSunk(job)) return { depth: -by / (2 * slope) };
      return { back: { pins: -by / (2 * slope) } };
    }
    case 'past':
      // A board held off its stop has its joint nearer to its reference edge, so the other one stands past it.
      return { along: { [otherOf(job, seen.board)]: seen.by } };
    default: {
      const out = seen.what === 'proud' ? seen.by : -seen.by;
      if (!isSunk(job)) return { depth: { [seen.board]: out } };
      return job === jobs.together ? { back: { tails: out / 2, pins: out / 2 } } : { back: { pins: out } };
    }
  }
}

function otherOf(job: Job, board: string): string {
  const boards = job.joints[0]?.kind === 'box' ? ['one', 'two'] : ['tails', 'pins'];
  return boards.find((one) => one !== board) ?? '';
}

/** The same bench after the steps of a line. The sign of each step is what its sentence says in words. */
function afterSteps(off: Off, { steps }: Correction): Off {
  let now = off;
  for (const step of steps) {
    if (step.do === 'depth') now = { ...now, depth: add(now.depth, step.by) };
    if (step.do === 'board-depth') now = { ...now, depth: plus(now.depth, step.board, step.by) };
    if (step.do === 'shift') now = { ...now, back: plus(now.back, 'pins', step.by) };
    if (step.do === 'shim') now = { ...now, along: plus(now.along, step.board, step.by) };
    // The template moved away from the operator is the fence, or the board, nearer to the operator.
    if (step.do === 'template' && step.alone) now = { ...now, back: plus(now.back, 'pins', -step.by) };
    if (step.do === 'template' && !step.alone)
      now = { ...now, back: plus(plus(now.back, 'pins', -step.by), 'tails', -step.by) };
  }
  return now;
}

type PerBoard = Readonly<Record<string, number>>;

const add = (one: Off['depth'], by: number): number => (typeof one === 'number' ? one : 0) + by;

function plus(all: Off['depth'] | PerBoard, board: string, by: number): PerBoard {
  const known = typeof all === 'object' ? all : {};
  return { ...known, [board]: (known[board] ?? 0) + by };
}

/** What a trial joint shows: its plays, how far ends stand out, and where it does not go together. */
async function seenOn(job: Job, off: Off) {
  const cut = await trialPiece(job, off);
  const plays = playOf(cut);
  return { plays, proud: Object.values(cut.proud), overlap: cut.worstOverlap };
}

const apartOf = (one: readonly number[], other: readonly number[]): number =>
  Math.max(0, ...one.map((value, i) => Math.abs(value - (other[i] ?? Number.NaN))));

describe.each(Object.entries(jobs))('the table of a %s joint', (_, job) => {
  const rows = rowsOf(job);
  const cured = rows.filter(({ steps }) => steps.some((step) => step.do !== 'size'));

  test('has a line for a loose and a tight fit, for each board past the other, and for faces', () => {
    const whats = rows.map(({ seen }) => seen.what);
    expect(new Set(whats)).toEqual(new Set(['loose', 'tight', 'past', 'proud', 'below']));
    const without = rows.filter((row) => !cured.includes(row));
    for (const { diagnostics } of without)
      expect(diagnostics.map(({ code }) => code)).toContain('refit-no-setting');
    expect(without.length > 0).toBe(job === jobs.box);
  });

  test.each(cured.map((row) => [JSON.stringify(row.seen), row] as const))(
    'closes as asked once it is done: %s',
    async (_seen, row) => {
      const wanted = await seenOn(job, {});
      const off = offThatShows(job, row);
      const trial = await seenOn(job, off);
      const shown = Math.max(
        apartOf(trial.plays, wanted.plays),
        apartOf(trial.proud, wanted.proud),
        trial.overlap - wanted.overlap,
      );
      expect(shown).toBeGreaterThan(row.seen.by * 0.9);
      const again = await seenOn(job, afterSteps(off, row));
      expect(apartOf(again.plays, wanted.plays)).toBeLessThan(CLOSE);
      expect(apartOf(again.proud, wanted.proud)).toBeLessThan(CLOSE);
      expect(again.overlap).toBeLessThan(CLOSE);
    },
  );

  test('says the way that each step goes', () => {
    for (const { steps, diagnostics } of cured) {
      const said = diagnostics.map((one) => sentence(one, formatterFor('mm'))).join('; ');
      for (const step of steps) {
        if (step.do === 'shift' || step.do === 'template')
          expect(said).toContain(step.by > 0 ? 'away from you' : 'toward you');
        if (step.do === 'depth' || step.do === 'board-depth')
          expect(said).toContain(step.by > 0 ? 'deeper' : 'shallower');
      }
    }
  });
});
