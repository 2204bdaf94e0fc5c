import { diagnostic, err, ok, type Result } from '../diagnostics/diagnostic.js';
import { type CornerStop, cornerStops } from '../joints/corner-stops.js';
import type { SolvedJoint } from '../joints/family.js';
import type { FitModel } from '../joints/fit-model.js';

/** The fit model of a joint, and whose it is. */
export interface JointFit extends FitModel {
  readonly joint: string;
  /** Which stop each board of a corner is held against, by the corner's number; empty where the joint makes no corner. */
  readonly corners: Readonly<Record<number, readonly CornerStop[]>>;
}

/** How the bench stands beside the sheet after earlier advice, mm: deeper, and the fence set back. */
export interface Settings {
  readonly depth?: number;
  readonly fence?: number;
}

/** What is known of the bench and of the machine that cuts the plates. */
export interface BenchState {
  readonly settings?: Settings;
  /** The kerf that the plates' files allow for already, mm; 0 when left out. */
  readonly kerf?: number;
}

/** Why there is no model: the joint is cut by hand, or its family gives none. */
export function fitOf(solved: SolvedJoint): Result<JointFit> {
  const { name, kind, cuts, fit } = solved;
  const at = `joints.${name}`;
  if (fit) {
    const corners = [1, 2, 3, 4].map((corner) => [corner, cornerStops(solved, corner)] as const);
    return ok({
      ...fit,
      joint: name,
      corners: Object.fromEntries(corners.filter(([, stops]) => stops.length > 0)),
    });
  }
  return err([
    cuts.length === 0
      ? diagnostic('refit-by-hand', 'refused', at, { joint: name })
      : diagnostic('refit-kind', 'refused', `${at}.kind`, { kind }),
  ]);
}
