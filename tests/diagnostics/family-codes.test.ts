import { describe, expect, test } from 'vitest';
import { fixesOf, sentence } from '../../src/diagnostics/catalogue.js';
import type { Diagnostic } from '../../src/diagnostics/diagnostic.js';
import { type Catalogue, raiser } from '../../src/diagnostics/family-codes.js';
import { fixable } from '../../src/diagnostics/fix.js';
import { formatDiagnostic } from '../../src/diagnostics/format.js';
import { type Formatter, formatterFor } from '../../src/diagnostics/formatter.js';
import { reportedDiagnostics } from '../../src/diagnostics/reported.js';
import { editYaml } from '../../src/input/yaml/edit-yaml.js';
import { families } from '../../src/joints/list.js';
import { fixesFor } from '../../src/joints/search/fixes.js';

/** Codes that a joint family from outside brings. */
const words = {
  'too-thin': fixable(
    (d: { thickness: number; least: number }, fmt: Formatter) =>
      `${fmt.length(d.thickness)} is under ${fmt.length(d.least)}`,
    (d, { key, length }) => [
      { label: 'thicker', edits: [{ set: key('boards.shelf.thickness'), to: length(d.least, 'up') }] },
    ],
  ),
  plain: () => 'nothing to add',
};
const lap = { kind: 'lap', diagnostics: words satisfies Catalogue };
const raise = raiser('lap', words);
const thin = raise('too-thin', 'refused', 'joints.a.b.boards.shelf', { thickness: 3, least: 5 });
const text = 'joints:\n  a.b:   # dots\n    kind: lap\n    boards: { shelf: { thickness: 3 } } # thin\n';

describe("a family's own codes", () => {
  test('stand behind its kind as plain data and are spoken in its words', () => {
    expect(structuredClone(thin)).toEqual({
      code: 'lap/too-thin',
      level: 'refused',
      at: 'joints.a.b.boards.shelf',
      data: { thickness: 3, least: 5 },
    });
    const fmt = formatterFor('mm');
    const own = words['too-thin'].text(thin.data as { thickness: number; least: number }, fmt);
    expect(sentence(thin, fmt, [lap])).toBe(own);
    expect(reportedDiagnostics([thin], fmt, [lap])[0]?.text).toBe(own);
    expect(formatDiagnostic(thin, () => undefined, fmt, [lap])).toBe(`joints.a.b.boards.shelf: ${own}`);
    expect(sentence(raise('plain', 'ok', '', {}), fmt, [lap])).toBe(words.plain());
  });

  test('are answered by its fixes, as edits of the job', () => {
    const known = [...families, { ...families[0], ...lap } as (typeof families)[number]];
    const [fix] = fixesFor({ text, units: 'mm', known })(thin);
    expect(editYaml(text, fix?.edits ?? [])).toBe(text.replace('thickness: 3', 'thickness: 5'));
  });

  test('are told by code and data to whoever does not know the family', () => {
    expect(sentence(thin, formatterFor('mm'))).toContain('lap/too-thin');
    const context = { fmt: formatterFor('mm'), at: [], key: () => [], length: String, word: String };
    expect(fixesOf(thin, { ...context, bitKey: () => undefined })).toEqual([]);
  });

  test("leave halfpin's own codes told apart", () => {
    const found: readonly Diagnostic[] = [thin, { code: 'job-is-shop', level: 'refused', at: '', data: {} }];
    expect(found.filter((one) => one.code === 'job-is-shop')).toHaveLength(1);
  });
});
