import { fitOf } from '../../src/fit/joint-fit.js';
import { type Advice, refit } from '../../src/fit/refit.js';
import type { Step } from '../../src/fit/steps.js';
import type { Job } from '../../src/input/types.js';
import type { FitModel } from '../../src/joints/fit-model.js';
import { families } from '../../src/joints/list.js';
import { solveJob } from '../../src/outputs/joint.js';
import { type Bench, benchOf, type Errors, type PerBoard, type Trial } from './workshop.js';

/** A person between workshop and refit: writes down what a trial joint shows, and does what is said. */

/** A feeler gauge and a caliper show hundredths. */
const hundredths = (mm: number): number => Math.round(mm * 100) / 100;

export const felt = ({ gap }: Trial): readonly string[] => [
  gap >= 0 ? `gap=${hundredths(gap)} mm` : `overlap=${hundredths(-gap)} mm`,
];

export const facesOf = ({ faces }: Trial): readonly string[] =>
  Object.entries(faces).map(([board, by]) =>
    by >= 0 ? `proud-${board}=${hundredths(by)} mm` : `shy-${board}=${hundredths(-by)} mm`,
  );

/** Widths, and what they hang on besides: how deep the bit cuts, how thick the pin board is. */
export function calipered(job: Job, { widths, depth }: Trial, errors: Errors): readonly string[] {
  const checks = modelOf(job).checks ?? [];
  return [
    ...Object.entries(widths)
      .filter(([key]) => /-[12]$/.test(key))
      .map(([key, mm]) => `${key}=${hundredths(mm)} mm`),
    ...checks.map(({ role, size }) => {
      if (role === 'angle') return `angle=${((size + (errors.angle ?? 0)) * 180) / Math.PI}`;
      return role === 'depth'
        ? `depth=${hundredths(depth)} mm`
        : `thickness=${hundredths(size + (errors.stock?.pins ?? 0))} mm`;
    }),
  ];
}

/** Every bit and the bushing by caliper. */
export const tooled = (job: Job, errors: Errors): readonly string[] =>
  modelOf(job).tools.map(({ key, role, size }) => `${key}=${hundredths(size + (errors[role] ?? 0))} mm`);

export function modelOf(job: Job): FitModel {
  const solved = solveJob(job)[0]?.made?.solved;
  const model = solved && fitOf(solved);
  if (!model?.ok) throw new Error('the job has no fit model');
  return model.value;
}

export function advise(job: Job, words: readonly string[], state = {}): Advice {
  const solved = solveJob(job)[0]?.made?.solved;
  if (!solved) throw new Error('the job is refused');
  const advice = refit(solved, words, 'mm', state);
  if (!advice.ok) throw new Error(JSON.stringify(advice.diagnostics));
  return advice.value;
}

const plus = (all: PerBoard = {}, boards: readonly string[], by: number): PerBoard => ({
  ...all,
  ...Object.fromEntries(boards.map((board) => [board, (all[board] ?? 0) + by])),
});

/** The workshop once the steps are done, and the job with its new sizes: then new plates have to be cut. */
export function afterSteps(
  job: Job,
  errors: Errors,
  steps: readonly Step[],
): { readonly job: Job; readonly errors: Errors; readonly newPlates: boolean } {
  const both = ['tails', 'pins'];
  let [now, then, newPlates] = [errors, job, false];
  for (const step of steps) {
    switch (step.do) {
      case 'depth':
        now = { ...now, depth: plus(now.depth, both, step.by) };
        break;
      case 'board-depth':
        now = { ...now, depth: plus(now.depth, [step.board], step.by) };
        break;
      case 'shift':
        now = { ...now, fence: plus(now.fence, ['pins'], step.by) };
        break;
      case 'template':
        now = { ...now, fence: plus(now.fence, step.alone ? ['pins'] : both, -step.by) };
        break;
      case 'shim':
        now = { ...now, stop: plus(now.stop, [`${step.board} ${step.side}`], step.by) };
        break;
      case 'openings':
        now = { ...now, kerf: (now.kerf ?? 0) - step.by };
        newPlates = true;
        break;
      case 'scale':
        now = { ...now, scale: (1 + (now.scale ?? 0)) * step.by - 1 };
        newPlates = true;
        break;
      case 'size': {
        const { path, from, to } = step.size;
        const tool = modelOf(then).tools.find((one) => one.path.join() === path.join());
        if (!tool) throw new Error(`no tool ${path.join('.')}`);
        // What is in the router stays: seen from the new size it is off by less.
        now = { ...now, [tool.role]: (now[tool.role] ?? 0) - (to - from) };
        then = withSize(then, path, to);
        newPlates = true;
      }
    }
  }
  return { job: then, errors: now, newPlates };
}

/** The job with another size of one of its tools, in every joint. */
function withSize(job: Job, [kind, name]: readonly [string, string, string], size: number): Job {
  const joints = job.joints.map((joint) => {
    const slots = families.find((family) => family.kind === joint.kind)?.bitSlots?.(joint) ?? [];
    const { bushing } = joint;
    if (kind === 'bushings' && bushing?.name === name)
      return { ...joint, bushing: { ...bushing, outside: size } };
    return slots.reduce(
      (changed, { bit, put }) =>
        kind === 'bits' && bit.name === name ? put(changed, { ...bit, diameter: size }) : changed,
      joint,
    );
  });
  return { ...job, joints };
}

/** The bench of the job as it is after the steps: the same plates, or new ones. */
export const benchAfter = (before: Bench, job: Job, newPlates: boolean): Promise<Bench> =>
  newPlates ? benchOf(job) : Promise.resolve(before);
