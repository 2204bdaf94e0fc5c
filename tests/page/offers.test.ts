import { describe, expect, test } from 'vitest';
import { hasErrors } from '../../src/diagnostics/diagnostic.js';
import { readJob } from '../../src/input/read-job.js';
import { editYaml } from '../../src/input/yaml/edit-yaml.js';
import { families } from '../../src/joints/list.js';
import { solveJob } from '../../src/outputs/joint.js';
import { modelOf } from '../../src/page/model.js';
import { drawer, inBore, refusedLayouts } from '../support/troubled-jobs.js';

/** What a refusal over a layout offers is typed as it stands, and then the joint can be made. */

/** Codes that carry no cure of the layout: what other fields ask. */
const ELSEWHERE: ReadonlySet<string> = new Set(['lap-thin']);

function diagnosticsOf(text: string) {
  const { result } = readJob({ name: 'job.yaml', text }, families, () => undefined);
  return result.ok ? solveJob(result.value).flatMap(({ diagnostics }) => diagnostics) : result.diagnostics;
}

describe.each(refusedLayouts)('%#', (text, codes) => {
  test(`${codes.join(', ')}: each cure that is offered makes the joint`, () => {
    const diagnostics = diagnosticsOf(text);
    expect(hasErrors(diagnostics)).toBe(true);
    for (const code of codes) expect(diagnostics.map((one) => one.code)).toContain(code);
    const model = modelOf({ name: 'job.yaml', text, others: {} }, undefined);
    let cures = 0;
    for (const one of diagnostics.filter(({ code }) => !ELSEWHERE.has(code))) {
      for (const { label, edits } of model.fixes(one)) {
        const after = diagnosticsOf(editYaml(text, edits)).filter(({ level }) => level === 'refused');
        expect(after, `${one.code}: ${label}`).toEqual([]);
        cures += 1;
      }
    }
    expect(cures).toBeGreaterThan(0);
  });
});

test('a job that names no pitch is not told to leave one out', () => {
  const text = drawer('width: 3', '3/8', '1/2', 'quarter-8', 'five-sixteenths');
  expect(diagnosticsOf(text).filter(({ level }) => level !== 'ok')).toEqual([]);
});

test('a thicker plate keeps a tall dovetail bit out of the bore', () => {
  const bore = diagnosticsOf(inBore).find(({ code }) => code === 'cutter-in-bore');
  const model = modelOf({ name: 'job.yaml', text: inBore, others: {} }, undefined);
  const plate = bore && model.fixes(bore).find(({ label }) => label.startsWith('a plate'));
  expect(plate).toBeDefined();
  expect(hasErrors(diagnosticsOf(editYaml(inBore, plate?.edits ?? [])))).toBe(false);
});
