import { describe, expect, test } from 'vitest';
import { fixesOf, sentence } from '../../src/findings/catalogue.js';
import { type Catalogue, raiser } from '../../src/findings/family-codes.js';
import type { Finding } from '../../src/findings/finding.js';
import { fixable } from '../../src/findings/fix.js';
import { formatFinding } from '../../src/findings/format.js';
import { reportedFindings } from '../../src/findings/reported.js';
import { type Say, sayIn } from '../../src/findings/say.js';
import { editYaml } from '../../src/job/edit-yaml.js';
import { fixesFor } from '../../src/joints/fixes.js';
import { families } from '../../src/joints/list.js';

/** Codes that a joint family from outside brings. */
const words = {
  'too-thin': fixable(
    (d: { thickness: number; least: number }, say: Say) =>
      `${say.length(d.thickness)} is under ${say.length(d.least)}`,
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
    const say = sayIn('mm');
    const own = words['too-thin'].text(thin.data as { thickness: number; least: number }, say);
    expect(sentence(thin, say, [lap])).toBe(own);
    expect(reportedFindings([thin], say, [lap])[0]?.text).toBe(own);
    expect(formatFinding(thin, () => undefined, say, [lap])).toBe(`joints.a.b.boards.shelf: ${own}`);
    expect(sentence(raise('plain', 'ok', '', {}), say, [lap])).toBe(words.plain());
  });

  test('are answered by its fixes, as edits of the job', () => {
    const known = [...families, { ...families[0], ...lap } as (typeof families)[number]];
    const [fix] = fixesFor({ text, units: 'mm', known })(thin);
    expect(editYaml(text, fix?.edits ?? [])).toBe(text.replace('thickness: 3', 'thickness: 5'));
  });

  test('are told by code and data to whoever does not know the family', () => {
    expect(sentence(thin, sayIn('mm'))).toContain('lap/too-thin');
    const context = { say: sayIn('mm'), at: [], key: () => [], length: String, word: String };
    expect(fixesOf(thin, { ...context, bitKey: () => undefined })).toEqual([]);
  });

  test("leave halfpin's own codes told apart", () => {
    const found: readonly Finding[] = [thin, { code: 'job-is-shop', level: 'refused', at: '', data: {} }];
    expect(found.filter((one) => one.code === 'job-is-shop')).toHaveLength(1);
  });
});
