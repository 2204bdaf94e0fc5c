import type { Cutting } from '../cam/compensated.js';
import { beamSettings, millSettings } from '../cam/settings.js';
import { err, ok, type Result } from '../diagnostics/diagnostic.js';
import { formatterFor } from '../diagnostics/formatter.js';
import type { Job, Joint, Shop } from '../input/types.js';
import { writtenAs } from '../template/finger-template.js';
import { once } from './artifact.js';
import { type JointOutcome, templatesFor } from './joint.js';
import { type PreparedPlate, preparePlates } from './plates.js';

/** A joint that can be made, as every product takes it. */
export interface MadeContext {
  readonly job: Job;
  readonly joint: Joint;
  readonly made: NonNullable<JointOutcome['made']>;
  /** Its plates as programs cut them, or what the machine lacks for it; the same as its files where they hold that path. */
  readonly programmed: () => Result<readonly PreparedPlate[]>;
}

export function contextsOf(job: Job, outcomes: readonly JointOutcome[]): readonly MadeContext[] {
  return outcomes.flatMap(({ joint, made }) =>
    made ? [{ job, joint, made, programmed: once(() => programmedPlates(job, joint, made)) }] : [],
  );
}

function programmedPlates(
  job: Job,
  joint: Joint,
  { solved, plates }: MadeContext['made'],
): Result<readonly PreparedPlate[]> {
  const cutting = programCutting(job.shop);
  if (!cutting.ok) return cutting;
  if (job.shop.plate.cutFor !== undefined) return ok(plates);
  const templates = templatesFor(cutting.value, solved, joint, job);
  if (!templates.ok) return templates;
  const all = templates.value.flatMap(writtenAs);
  const { plates: prepared, diagnostics } = preparePlates(all, cutting.value, formatterFor(job.units));
  return prepared.length === all.length ? ok(prepared, diagnostics) : err(diagnostics);
}

/** What cuts plates by a program: a laser if the shop cuts its plates for one, else a router table. */
export function programCutting(shop: Shop): Result<Cutting> {
  if (shop.plate.cutFor === 'laser') {
    const settings = beamSettings(shop.laser);
    return settings.ok ? ok({ for: 'laser', kerf: settings.value.kerf }) : settings;
  }
  const settings = millSettings(shop.cnc, shop.plate);
  return settings.ok ? ok({ for: 'cnc', ...settings.value }) : settings;
}
