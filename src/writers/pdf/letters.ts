import { type SetLetter, strokesOfLetter } from '../../drawing/lettering/lettering.js';
import { extents } from '../../geometry/outline.js';
import type { Extents, Path } from '../../geometry/types.js';
import { type FormMark, formContent } from './content.js';
import type { PdfForm } from './file.js';

/**
 * The letters of one PDF: each shape stands in the file once, as a form, and is set as often as it is read. Lines
 * of lettering are most of what there is on a page, so files are a third as large as with every stroke written.
 */
export function letterForms() {
  const made = new Map<string, PdfForm>();
  const formOf = ({ letter, height }: SetLetter, pen: number): PdfForm => {
    const key = `${height} ${pen} ${letter}`;
    const known = made.get(key);
    if (known) return known;
    const lines = strokesOfLetter({ letter, height, angle: 0, at: { x: 0, y: 0 } });
    const form = { name: `L${made.size}`, box: spaceOf(lines, pen), content: formContent(lines) };
    made.set(key, form);
    return form;
  };
  return {
    set: (letter: SetLetter, colour: string, pen: number): FormMark => {
      const { at, angle } = letter;
      return { form: formOf(letter, pen).name, at, angle, colour, pen };
    },
    forms: (): readonly PdfForm[] => [...made.values()],
  };
}

function spaceOf(lines: readonly Path[], pen: number): Extents {
  const { minX, minY, maxX, maxY } = extents(...lines);
  return { minX: minX - pen, minY: minY - pen, maxX: maxX + pen, maxY: maxY + pen };
}
