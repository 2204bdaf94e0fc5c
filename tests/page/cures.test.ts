import { describe, expect, test } from 'vitest';
import type { Diagnostic } from '../../src/diagnostics/diagnostic.js';
import { editYaml } from '../../src/input/yaml/edit-yaml.js';
import { modelOf } from '../../src/page/model.js';
import { workOn } from '../../src/page/work.js';
import { others, problems } from '../support/troubled-jobs.js';

const said = async (text: string): Promise<readonly Diagnostic[]> => {
  const model = modelOf({ name: 'job.yaml', text, others }, undefined);
  const name = model.joint?.name ?? '';
  const worked = model.job ? await workOn({ name: 'job.yaml', text, others }, name) : undefined;
  return [...model.reading.result.diagnostics, ...(worked?.diagnostics ?? model.diagnostics)];
};

describe.each(problems)('$code', ({ code, text, ways }) => {
  test(`each of its ways out answers it: ${text.length} characters, ${ways} or more`, async () => {
    const diagnostics = await said(text);
    const one = diagnostics.find((diagnostic) => diagnostic.code === code);
    if (ways > 0) expect(diagnostics.map((diagnostic) => diagnostic.code)).toContain(code);
    if (!one) return;
    const cures = modelOf({ name: 'job.yaml', text, others }, undefined).fixes(one);
    expect(cures.length).toBeGreaterThanOrEqual(ways);
    for (const { label, edits } of cures) {
      const after = await said(editYaml(text, edits));
      expect(
        after.filter((diagnostic) => diagnostic.code === code && diagnostic.at === one.at),
        label,
      ).toEqual([]);
    }
  });
});
