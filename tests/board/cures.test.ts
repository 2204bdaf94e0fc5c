import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';

import { modelOf } from '../../src/board/model.js';
import { workOn } from '../../src/board/work.js';
import type { Finding } from '../../src/findings/finding.js';
import { editYaml } from '../../src/job/edit-yaml.js';
import { families } from '../../src/joints/list.js';
import { root } from '../support/jobs.js';

const starter = (kind: string) => families.find((family) => family.kind === kind)?.starter ?? '';
const through = starter('through-dovetail');
const halfBlind = starter('half-blind-dovetail');
const box = starter('box');
const sample = (name: string) => readFileSync(join(root, 'samples', name), 'utf8');
const others = { './shop.yaml': sample('shop.yaml'), 'shop.yaml': sample('shop.yaml') };

/** A job with one thing wrong, the code that says so, and how many ways out there are at least. */
interface Trouble {
  readonly code: string;
  readonly text: string;
  readonly ways: number;
}

const layoutThrough = 'layout: { spacing: even, tails: 3 }';
const layoutBox = 'layout: { spacing: even, finger: 3/8 }';
const layoutDrawer = 'layout: { spacing: even }';

const troubles: readonly Trouble[] = [
  { code: 'span-narrow', text: through.replace('tails: 3', 'tails: 6, pin: 1/2, end-pin: 1/4'), ways: 1 },
  { code: 'span-narrow', text: through.replace(layoutThrough, 'layout: { tails: 3, pin: 1/4 }'), ways: 1 },
  {
    code: 'span-narrow',
    text: through.replace(layoutThrough, 'layout: { tails: 3, end-pin: 0.1 }'),
    ways: 1,
  },
  {
    code: 'span-narrow',
    text: through.replace(
      layoutThrough,
      'layout: { spacing: list, spans: [1/4, 3/4, 3/8, 3/4, 3/8, 3/4, 1/4] }',
    ),
    ways: 1,
  },
  {
    code: 'spans-sum',
    text: through.replace(
      layoutThrough,
      'layout: { spacing: list, spans: [3/8, 5/8, 1/2, 3/4, 1/2, 5/8, 3/8] }',
    ),
    ways: 2,
  },
  { code: 'tails-no-room', text: through.replace('tails: 3', 'tails: 3, pin: 2'), ways: 1 },
  { code: 'pin-over-pitch', text: through.replace(layoutThrough, 'layout: { pitch: 1, pin: 7/8 }'), ways: 1 },
  { code: 'span-narrow', text: box.replace(layoutBox, 'layout: { fingers: 15 }'), ways: 1 },
  { code: 'finger-not-as-wanted', text: box.replace('width: 3-3/8', 'width: 3.4'), ways: 1 },
  { code: 'length-unclear', text: through.replace('width: 3-1/2', 'width: 3-1-2'), ways: 1 },
  { code: 'length-unclear', text: through.replace('width: 3-1/2', 'width: 2-12/8'), ways: 1 },
  {
    code: 'tool-unknown',
    text: through.replace('bushing: seven-sixteenths', 'bushing: seven-sixteenth'),
    ways: 1,
  },
  {
    code: 'bit-wrong-kind',
    text: through.replace('tails: half-8, pins', 'tails: straight-38, pins'),
    ways: 1,
  },
  { code: 'key-unknown', text: through.replace('bushing: seven', 'bushng: seven'), ways: 1 },
  { code: 'value-unlisted', text: through.replace('spacing: even', 'spacing: evn'), ways: 1 },
  { code: 'field-of-spacing', text: through.replace('tails: 3', 'tails: 3, ratio: 1.2'), ways: 1 },
  { code: 'slope-twice', text: through.replace('bushing: seven', 'slope: 1:8\n    bushing: seven'), ways: 1 },
  {
    code: 'spacing-even-only',
    text: halfBlind.replace(layoutDrawer, 'layout: { spacing: graduated }'),
    ways: 2,
  },
  {
    code: 'square-tails-together',
    text: halfBlind.replace('method: together', 'method: together\n    tails-inside: square'),
    ways: 2,
  },
  {
    code: 'square-tails-thin-side',
    text: halfBlind
      .replace('method: together', 'method: apart\n    tails-inside: square')
      .replace('tails: { thickness: 1/2 }', 'tails: { thickness: 7/32 }'),
    ways: 1,
  },
  { code: 'lap-thin', text: halfBlind.replace('depth: 3/8', 'depth: 11/16'), ways: 1 },
  {
    code: 'groove-outside-tails',
    text: through.replace('tails: 3', 'tails: 3, groove: { from: 0.2, width: 1/4 }'),
    ways: 1,
  },
  {
    code: 'groove-off-board',
    text: through.replace('tails: 3', 'tails: 3, groove: { from: 4, width: 1/4 }'),
    ways: 1,
  },
  {
    code: 'other-tools-would-do',
    text: sample('small-tray.yaml')
      .replace('spacing: varied, tails: 3, seed: 7, spread: 0.3', 'tails: 5, pin: 1/2')
      .replace('bushing: seven-sixteenths', 'bushing: five-eighths'),
    ways: 1,
  },
  { code: 'every-second-would-do', text: sample('refused-label-holder.yaml'), ways: 1 },
];

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
