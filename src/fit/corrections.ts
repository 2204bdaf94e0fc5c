import type { Diagnostic } from '../diagnostics/diagnostic.js';
import type { SolvedJoint } from '../joints/family.js';
import type { LengthUnit } from '../units/length.js';
import { fitOf, type JointFit } from './joint-fit.js';
import type { Measured } from './measured.js';
import { adviceOf, type RefitStep } from './refit.js';

/** One line of the table beside the router: what a trial joint shows, and what `refit` says of it. */
export interface Correction {
  readonly seen: Seen;
  /** The same as it would be measured. */
  readonly measured: Measured;
  readonly steps: readonly RefitStep[];
  readonly diagnostics: readonly Diagnostic[];
}

/** `by` in mm, above 0, is an example: what is done goes by what is seen. */
export type Seen =
  | { readonly what: 'loose' | 'tight'; readonly by: number }
  | { readonly what: 'proud' | 'below' | 'past'; readonly board: string; readonly by: number };

/** A gap of one pair that a feeler gauge finds, mm. Larger ones ask for more in proportion. */
const GAP: Readonly<Record<LengthUnit, number>> = { mm: 0.1, in: 0.004 * 25.4 };

/** Far enough out of flush not to be sanded away, mm. */
const OUT = 1;

/** What a trial joint may show, and what cures it; nothing of a joint whose fit isn't known. */
export function correctionsOf(solved: SolvedJoint, units: LengthUnit): readonly Correction[] {
  const model = fitOf(solved);
  if (!model.ok) return [];
  return [...fitCorrections(model.value, units), ...edges(model.value), ...faces(model.value)];
}

/** A board that goes without a name, where the same is done to either. */
const ANY = 'any';

/** The board that it meets. */
const OTHER = 'other';

/** What is done is the model's; it is said of any board where `general` is given. */
function correction(model: JointFit, seen: Seen, key: string, value: number, general = model): Correction {
  const measured: Measured = { key, value, text: `${key}=${value} mm` };
  const { steps } = adviceOf(model, [measured]);
  const [way = ''] = key.split('-');
  const said = general.faces[ANY] ? { ...measured, key: `${way}-${ANY}` } : measured;
  const { diagnostics } = adviceOf(general, [said]);
  return { seen, measured, steps, diagnostics };
}

function fitCorrections(model: JointFit, units: LengthUnit): readonly Correction[] {
  if (model.gapTellsNothing) return [];
  const by = GAP[units];
  return [
    correction(model, { what: 'loose', by }, 'gap', model.slack + by),
    correction(model, { what: 'tight', by }, 'gap', model.slack - by),
  ];
}

function edges(model: JointFit): readonly Correction[] {
  return model.boards.map((board, i) => {
    const general: JointFit = { ...model, boards: i === 0 ? [ANY, OTHER] : [OTHER, ANY] };
    return correction(model, { what: 'past', board, by: OUT }, 'mismatch', i === 0 ? OUT : -OUT, general);
  });
}

function faces(model: JointFit): readonly Correction[] {
  return Object.entries(model.faces).flatMap(([board, face]) => {
    const general: JointFit = face.by === 'depth' ? { ...model, faces: { [ANY]: face } } : model;
    return [
      correction(model, { what: 'proud', board, by: OUT }, `proud-${board}`, face.wanted + OUT, general),
      correction(
        model,
        { what: 'below', board, by: OUT },
        `shy-${board}`,
        OUT - face.wanted + (face.ease ?? 0),
        general,
      ),
    ];
  });
}
