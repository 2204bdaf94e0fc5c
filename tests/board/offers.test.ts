import { describe, expect, test } from 'vitest';

import { modelOf } from '../../src/board/model.js';
import { isRefused } from '../../src/findings/finding.js';
import { editYaml } from '../../src/job/edit-yaml.js';
import { readJob } from '../../src/job/read-job.js';
import { families } from '../../src/joints/list.js';
import { solveJob } from '../../src/pipeline.js';

/** What a refusal over a layout offers is typed as it stands, and then the joint can be made. */

const shop = `units: in
shop:
  bits:
    half-14: { kind: dovetail, diameter: 1/2, angle: 14, height: 1/2, shank: 1/4 }
    quarter-8: { kind: dovetail, diameter: 1/4, angle: 8, height: 1/2, shank: 1/4 }
    straight-38: { kind: straight, diameter: 3/8, height: 1, shank: 1/4 }
    straight-14: { kind: straight, diameter: 1/4, height: 1, shank: 1/4 }
  bushings:
    five-sixteenths: { outside: 5/16, bore: 17/64, barrel: 5/32 }
    half: { outside: 1/2, bore: 13/32, barrel: 5/32 }
    five-eighths: { outside: 5/8, bore: 17/32, barrel: 5/32 }
    one: { outside: 1, bore: 25/32, barrel: 3/4 }
  plate: { material: mdf, thickness: 1/2, least-finger: 3/16 }
joints:
  joint:
    fit: { slack: 0.004 }
`;
const drawer = (more: string, side = '1/2', front = '3/4', cutter = 'half-14', bushing = 'five-eighths') =>
  `${shop}    kind: half-blind-dovetail
    boards: { tails: { thickness: ${side} }, pins: { thickness: ${front} } }
    cutter: ${cutter}
    bushing: ${bushing}
    ${more}
`;
const through = (more: string, bushing = 'half') => `${shop}    kind: through-dovetail
    boards: { tails: { thickness: 3/8 }, pins: { thickness: 3/8 } }
    cutters: { tails: half-14, pins: straight-38 }
    bushing: ${bushing}
    ${more}
`;
const box = (more: string) => `${shop}    kind: box
    boards: { one: { thickness: 3/8 }, two: { thickness: 3/8 } }
    cutter: straight-38
    bushing: five-eighths
    ${more}
`;

/** Under a thin plate a dovetail bit runs in the barrel where it is still wide. */
const inBore = drawer('width: 5', '1/2', '3/8', 'half-14', 'half')
  .replace('bore: 13/32', 'bore: 9/32')
  .replace('thickness: 1/2, least', 'thickness: 1/4, least');

/** Refused jobs with the codes that they are expected to be answered by. */
const jobs: readonly (readonly [text: string, codes: readonly string[]])[] = [
  [drawer('width: 5\n    layout: { tails: 9 }'), ['tails-over-bushing', 'blank-would-do']],
  [drawer('width: 24\n    layout: { pitch: 3 }'), ['apart-would-do', 'blank-would-do']],
  [drawer('width: 5\n    layout: { pitch: 1/2 }'), ['pitch-under-bit', 'blank-would-do']],
  [drawer('width: 5', '3/16'), ['pitch-none-for-side', 'apart-would-do']],
  [drawer('width: 0.5'), ['pitch-none-for-board']],
  [inBore, ['cutter-in-bore']],
  [drawer('width: 5', '1/2', '3/4', 'half-14', 'one'), ['barrel-long']],
  [
    drawer('width: 5\n    method: apart', '1/2', '3/4', 'half-14', 'one').replace(
      'barrel: 3/4',
      'barrel: 1/4',
    ),
    ['bushing-over-tail', 'square-would-do'],
  ],
  [drawer('width: 5\n    depth: 11/16'), ['blank-would-do']],
  [drawer('width: 5\n    layout: { tails: 3, end-pin: 2 }'), ['blank-would-do']],
  [through('width: 3\n    layout: { tails: 6 }'), ['tails-no-room', 'blank-would-do']],
  [through('width: 5\n    layout: { tails: 3, pin: 1/4 }'), ['span-narrow', 'blank-would-do']],
  [through('width: 0.7'), ['tails-no-room']],
  [box('width: 3\n    layout: { fingers: 7 }'), ['span-narrow', 'every-second-would-do']],
  [box('width: 3\n    layout: { finger: 1/4 }'), ['span-narrow', 'blank-would-do']],
  [box('width: 0.7'), ['span-narrow']],
];

/** Codes that carry no cure of the layout: what other fields ask. */
const ELSEWHERE: ReadonlySet<string> = new Set(['lap-thin']);

function findingsOf(text: string) {
  const { result } = readJob({ name: 'job.yaml', text }, families, () => undefined);
  return result.ok ? solveJob(result.value).flatMap(({ findings }) => findings) : result.findings;
}

describe.each(jobs)('%#', (text, codes) => {
  test(`${codes.join(', ')}: each cure that is offered makes the joint`, () => {
    const findings = findingsOf(text);
    expect(isRefused(findings)).toBe(true);
    for (const code of codes) expect(findings.map((one) => one.code)).toContain(code);
    const model = modelOf({ name: 'job.yaml', text, others: {} }, undefined);
    let cures = 0;
    for (const one of findings.filter(({ code }) => !ELSEWHERE.has(code))) {
      for (const { label, edits } of model.fixes(one)) {
        const after = findingsOf(editYaml(text, edits)).filter(({ level }) => level === 'refused');
        expect(after, `${one.code}: ${label}`).toEqual([]);
        cures += 1;
      }
    }
    expect(cures).toBeGreaterThan(0);
  });
});

test('a job that names no pitch is not told to leave one out', () => {
  const text = drawer('width: 3', '3/8', '1/2', 'quarter-8', 'five-sixteenths');
  expect(findingsOf(text).filter(({ level }) => level !== 'ok')).toEqual([]);
});

test('a thicker plate keeps a tall dovetail bit out of the bore', () => {
  const bore = findingsOf(inBore).find(({ code }) => code === 'cutter-in-bore');
  const model = modelOf({ name: 'job.yaml', text: inBore, others: {} }, undefined);
  const plate = bore && model.fixes(bore).find(({ label }) => label.startsWith('a plate'));
  expect(plate).toBeDefined();
  expect(isRefused(findingsOf(editYaml(inBore, plate?.edits ?? [])))).toBe(false);
});
