import { diagnostic, err, ok, type Result } from '../diagnostics/diagnostic.js';
import type { SolvedJoint } from '../joints/family.js';
import type { FitModel } from '../joints/fit-model.js';

/** The fit model of a joint, and whose it is. */
export interface JointFit extends FitModel {
  readonly joint: string;
}

/** Why there is no model: the joint is cut by hand, or its family gives none. */
export function fitOf({ name, kind, cuts, fit }: SolvedJoint): Result<JointFit> {
  const at = `joints.${name}`;
  if (fit) return ok({ ...fit, joint: name });
  return err([
    cuts.length === 0
      ? diagnostic('refit-by-hand', 'refused', at, { joint: name })
      : diagnostic('refit-kind', 'refused', `${at}.kind`, { kind }),
  ]);
}
