import { type Diagnostic, diagnostic } from '../diagnostics/diagnostic.js';
import type { Factors } from '../joints/fit-model.js';
import type { JointFit } from './joint-fit.js';
import type { NewSize, Step } from './steps.js';
import type { Told } from './told.js';

/** What to change for the next plate: sizes in the shop file, the kerf, the scale. */

/** A size that differs by less is the same size, mm. */
const SAME_SIZE = 0.005;

/** A scale that differs by less moves no wall by a hundredth, as a share. */
const SAME_SCALE = 5e-4;

export type PlateStep = Extract<Step, { do: 'size' | 'openings' | 'scale' }>;

/** What was measured, with each explanation of the rest: any one of these makes the next plate fit. */
export function plateChoices(model: JointFit, told: Told): readonly (readonly PlateStep[])[] {
  const measured = measuredSteps(model, told);
  return told.explanations.map((errors) => [...measured, ...explainedSteps(model, errors)]);
}

export function measuredSteps(model: JointFit, { known, measuredTools }: Told): readonly PlateStep[] {
  const sizes = [...measuredTools].flatMap(([tool, to]): readonly PlateStep[] => {
    if (Math.abs(to - tool.size) < SAME_SIZE) return [];
    return [{ do: 'size', size: { tool: tool.name, path: tool.path, from: tool.size, to, measured: true } }];
  });
  const { kerf = 0, scale = 0 } = known;
  const inOrder = model.tools.flatMap(({ path }) =>
    sizes.filter((step) => step.do === 'size' && step.size.path === path),
  );
  return [
    ...inOrder,
    ...(Math.abs(kerf) < SAME_SIZE ? [] : ([{ do: 'openings', by: kerf, measured: true }] as const)),
    ...(Math.abs(scale) < SAME_SCALE ? [] : ([{ do: 'scale', by: 1 / (1 + scale) }] as const)),
  ];
}

/** Sizes of tools that weren't measured: what they cut like, to a thousandth. */
function explainedSteps({ tools }: JointFit, errors: Factors): readonly PlateStep[] {
  const sizes = tools.flatMap(({ role, name, path, size }): readonly PlateStep[] => {
    const error = errors[role] ?? 0;
    if (Math.abs(error) < SAME_SIZE) return [];
    const to = Math.round((size + error) * 1000) / 1000;
    return [{ do: 'size', size: { tool: name, path, from: size, to, measured: false } }];
  });
  const { kerf = 0 } = errors;
  return Math.abs(kerf) < SAME_SIZE ? sizes : [...sizes, { do: 'openings', by: kerf, measured: false }];
}

/** How a sentence says a step for the next plate. */
export interface PlateChange {
  readonly what: 'size' | 'openings' | 'scale';
  readonly tool: string;
  readonly key: string;
  readonly from: number;
  readonly to: number;
  readonly measured: boolean;
}

export function changeOf(step: PlateStep, kerf: number): PlateChange {
  if (step.do === 'size') {
    const { tool, path, from, to, measured } = step.size;
    return { what: 'size', tool, key: path[2], from, to, measured };
  }
  if (step.do === 'openings') {
    return {
      what: 'openings',
      tool: '',
      key: 'kerf',
      from: kerf,
      to: kerf + step.by,
      measured: step.measured,
    };
  }
  return { what: 'scale', tool: '', key: 'scale', from: 1, to: step.by, measured: true };
}

/** `instead`: in place of a setting that was advised first. */
export function plateDiagnostics(
  model: JointFit,
  choices: readonly (readonly PlateStep[])[],
  { instead, kerf }: { readonly instead: boolean; readonly kerf: number },
): readonly Diagnostic[] {
  const said = choices
    .filter((steps) => steps.length > 0)
    .map((steps) => steps.map((step) => changeOf(step, kerf)));
  const [first] = choices;
  const [one] = first ?? [];
  if (said.length === 0 || !one) return [];
  const at = one.do === 'size' ? `shop.${one.size.path.join('.')}` : `joints.${model.joint}`;
  return [
    diagnostic('refit-size', 'ok', at, { choices: said, instead }),
    ...(instead ? [] : [diagnostic('refit-new-plate', 'ok', `joints.${model.joint}`, {})]),
  ];
}

/** Sizes among steps. */
export function sizesIn(steps: readonly Step[]): readonly NewSize[] {
  return steps.flatMap((step) => (step.do === 'size' ? [step.size] : []));
}
