import type { Document } from 'yaml';
import { fixesOf } from '../../diagnostics/catalogue.js';
import type { Diagnostic } from '../../diagnostics/diagnostic.js';
import type { Fix, FixContext } from '../../diagnostics/fix.js';
import { formatterFor } from '../../diagnostics/formatter.js';
import type { Job, Joint } from '../../input/types.js';
import { canEdit, keysOf, parseYaml, quotedValue } from '../../input/yaml/edit-yaml.js';
import type { LengthUnit } from '../../units/length.js';
import { writeLength } from '../../units/write-length.js';
import type { JointFamily } from '../family.js';

/** A job's text, and what was read from it. */
export interface FixedText {
  readonly text: string;
  readonly units: LengthUnit;
  /** Absent where the text could not be read as a job. */
  readonly job?: Job;
  /** The text as YAML, where the caller has it. */
  readonly document?: Document;
  readonly known: readonly JointFamily[];
}

/**
 * The fixes of diagnostics, as edits of one job's text: those alone that change it. What stands in a file that the job
 * names, such as its shop file, is not the job's own text, so nothing is offered for it.
 */
export function fixesFor(source: FixedText): (one: Diagnostic) => readonly Fix[] {
  const { text, known, document = parseYaml(text) } = source;
  return (one) =>
    fixesOf(one, contextOf(one, document, source), known).flatMap((fix) => {
      const edits = fix.edits.filter((edit) => canEdit(document, text, edit));
      // Without all that it sets a fix is half of one; what it only clears away may be missing.
      const whole = fix.edits.every((edit) => !('set' in edit) || edits.includes(edit));
      return whole && edits.length > 0 ? [{ ...fix, edits }] : [];
    });
}

function contextOf(one: Diagnostic, document: Document, { units, job, known }: FixedText): FixContext {
  const at = keysOf(one.at, document);
  const name = at[0] === 'joints' ? (at[1] ?? '') : '';
  const joint = job?.joints.find((other) => other.name === name);
  // Of a diagnostic that concerns no joint there is no such key, so no fix.
  const key = (dotted: string) => (name === '' ? [] : ['joints', name, ...dotted.split('.')]);
  return {
    fmt: formatterFor(units),
    at,
    key,
    length: (mm, toward) => writeLength(mm, units, toward),
    word: quotedValue,
    ...(joint && { width: joint.width }),
    ...(joint?.layout.spacing === 'list' && joint.layout.spans && { spans: joint.layout.spans }),
    bitKey: (bit) => {
      const slot = joint && slotOf(bit, joint, job, known);
      return slot === undefined ? undefined : key(slot);
    },
  };
}

/** A bit goes where a bit of its kind is used. */
function slotOf(
  name: string,
  joint: Joint,
  job: Job | undefined,
  known: readonly JointFamily[],
): string | undefined {
  const bit = job?.shop.bits[name];
  const slots = known.find(({ kind }) => kind === joint.kind)?.bitSlots?.(joint) ?? [];
  return slots.find((slot) => slot.kind === bit?.kind && slot.bit.name !== name)?.key;
}
