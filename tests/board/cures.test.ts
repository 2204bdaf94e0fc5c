import { describe, expect, test } from 'vitest';

import { modelOf } from '../../src/board/model.js';
import { workOn } from '../../src/board/work.js';
import type { Finding } from '../../src/findings/finding.js';
import { editYaml } from '../../src/job/edit-yaml.js';
import { others, troubles } from '../support/troubled-jobs.js';

const said = async (text: string): Promise<readonly Finding[]> => {
  const model = modelOf({ name: 'job.yaml', text, others }, undefined);
  const name = model.joint?.name ?? '';
  const worked = model.job ? await workOn({ name: 'job.yaml', text, others }, name) : undefined;
  return [...model.reading.result.findings, ...(worked?.findings ?? model.findings)];
};

describe.each(troubles)('$code', ({ code, text, ways }) => {
  test(`each of its ways out answers it: ${text.length} characters, ${ways} or more`, async () => {
    const findings = await said(text);
    const one = findings.find((finding) => finding.code === code);
    if (ways > 0) expect(findings.map((finding) => finding.code)).toContain(code);
    if (!one) return;
    const cures = modelOf({ name: 'job.yaml', text, others }, undefined).fixes(one);
    expect(cures.length).toBeGreaterThanOrEqual(ways);
    for (const { label, edits } of cures) {
      const after = await said(editYaml(text, edits));
      expect(
        after.filter((finding) => finding.code === code && finding.at === one.at),
        label,
      ).toEqual([]);
    }
  });
});
