import { given, type Result, refused } from '../findings/finding.js';
import { sayIn } from '../findings/say.js';
import type { Job, Joint, Shop } from '../job/types.js';
import type { Cutting } from '../plate-cut/compensated.js';
import { beamSettings, millSettings } from '../plate-cut/settings.js';
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
  if (job.shop.plate.cutFor !== undefined) return given(plates);
  const templates = templatesFor(cutting.value, solved, joint, job);
  if (!templates.ok) return templates;
  const all = templates.value.flatMap(writtenAs);
  const { plates: prepared, findings } = preparePlates(all, cutting.value, sayIn(job.units));
  return prepared.length === all.length ? given(prepared, findings) : refused(findings);
}

/** What cuts plates by a program: a laser if the shop cuts its plates for one, else a router table. */
export function programCutting(shop: Shop): Result<Cutting> {
  if (shop.plate.cutFor === 'laser') {
    const settings = beamSettings(shop.laser);
    return settings.ok ? given({ for: 'laser', kerf: settings.value.kerf }) : settings;
  }
  const settings = millSettings(shop.cnc, shop.plate);
  return settings.ok ? given({ for: 'cnc', ...settings.value }) : settings;
}
