import { MACHINE_FIRST } from '../cam/cautions.js';
import { plateNote, printNote } from '../cam/plate-note.js';
import { diagnostic } from '../diagnostics/diagnostic.js';
import { formatterFor } from '../diagnostics/formatter.js';
import type { Job } from '../input/types.js';
import { type SolidOptions, solidOf } from '../writers/solids/solid.js';
import { stlWriter } from '../writers/solids/stl.js';
import { threeMfWriter } from '../writers/solids/threemf.js';
import { artifact, type Outputs, type Owner, once, outputs, together } from './artifact.js';
import type { PreparedPlate } from './plates.js';

/** Plates as solids for a 3D printer. */

export type PrintFormat = '3mf' | 'stl';

/**
 * Scores as grooves, mm: one line of a common 0.4 mm nozzle left out, two of its layers deep. A knife or a pencil's point finds that; no
 * finger is weakened by it. Common practice, no source.
 */
export const GROOVES = { width: 0.4, depth: 0.4 } as const;

/** Sheet this thin is grooved to a third, mm. */
const THIN = 3 * GROOVES.depth;

/** Raises plates to their thickness, mm, for all formats; a plate whose arris can't be eased as asked has no solid. */
export function printedOutputs(
  plates: readonly Pick<PreparedPlate, 'name' | 'nominal'>[],
  thickness: number,
  job: Job,
  owner: Owner,
): (format: PrintFormat) => Outputs {
  const { print = {} } = job.shop;
  const grooves = { ...GROOVES, depth: thickness < THIN ? thickness / 3 : GROOVES.depth };
  const options: SolidOptions = { thickness, ...print, grooves };
  const solids = once(() => plates.map((plate) => ({ plate, solid: solidOf(plate.nominal, options) })));
  return (format) =>
    together(
      solids().map(({ plate: { name, nominal }, solid }) => {
        if (!solid) {
          const data = { name, ease: print.ease ?? 0 };
          return outputs([], [diagnostic('ease-too-large', 'refused', 'shop.print.ease', data)]);
        }
        const content = () =>
          // STL has room for no more than a title.
          format === 'stl'
            ? stlWriter.write({ title: `Nominal. ${nominal.title}`, solid })
            : threeMfWriter.write({
                title: nominal.title,
                notes: notesOf(nominal.notes, job),
                objects: [{ solid }],
              });
        return outputs([artifact(owner, `${name}.${format}`, content)]);
      }),
    );
}

function notesOf(notes: readonly string[], { shop: { print = {} }, units }: Job): readonly string[] {
  const fmt = formatterFor(units);
  const nominal = plateNote({ for: 'nominal' }, fmt).note;
  return [printNote(print, fmt, GROOVES), ...notes.filter((note) => note !== nominal), MACHINE_FIRST];
}
