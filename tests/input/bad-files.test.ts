import { describe, expect, it } from 'vitest';
import { sentence } from '../../src/diagnostics/catalogue.js';
import { formatDiagnostic } from '../../src/diagnostics/format.js';
import { formatterFor } from '../../src/diagnostics/formatter.js';
import { readJob } from '../../src/input/read-job.js';
import { boxFields } from '../../src/joints/box/fields.js';
import { throughDovetailFields } from '../../src/joints/through-dovetail/fields.js';
import { type BadFile, badFiles, soundJob } from './bad-files.js';

const kinds = [
  { kind: 'through-dovetail', fields: throughDovetailFields },
  { kind: 'box', fields: boxFields },
];

const JOB = 'cabinet/tray.yaml';

function read({ text, shop }: Pick<BadFile, 'text' | 'shop'>) {
  return readJob({ name: JOB, text }, kinds, (path) => (path === shop?.path ? shop.text : undefined));
}

describe('a bad job file', () => {
  it('is one of many', () => {
    expect(badFiles.length).toBeGreaterThanOrEqual(60);
    expect(new Set(badFiles.map(({ name }) => name)).size).toBe(badFiles.length);
    expect(read({ text: soundJob }).result).toMatchObject({ ok: true, diagnostics: [] });
  });

  it.each(badFiles)('$name is refused in its place, with what would do', (bad) => {
    const { result, locate, units } = read(bad);
    const fmt = formatterFor(units);
    const lines = result.diagnostics.map((one) => formatDiagnostic(one, locate, fmt)).join('\n');
    expect(result.ok).toBe(false);
    const found = result.diagnostics.find(
      (one) => one.code === bad.code && one.at.replace(/@\d+:\d+$/, '') === bad.at && one.level === 'refused',
    );
    expect(found, lines).toBeDefined();
    if (found === undefined) return;
    const place = locate(found.at);
    const file = place?.file === JOB ? '' : `${place?.file}:`;
    expect(`${file}${place?.line}:${place?.column}`, lines).toBe(bad.place);
    const text = sentence(found, fmt);
    for (const words of bad.says) expect(text).toContain(words);
    expect(text).not.toMatch(/undefined|\[object|NaN mm/);
  });
});
