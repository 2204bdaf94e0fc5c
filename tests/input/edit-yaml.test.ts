import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { editYaml, parseYaml, quotedValue, writtenAt } from '../../src/input/yaml/edit-yaml.js';

const job = `# The tray.
title: Tray          # for seeds
units: in
shop: ./shop.yaml
joints:
  tray:              # the corner
    kind: box
    width:   3-1/2   # across
    boards: { one: { thickness: 1/2 }, two: { thickness: 1/2 } }
    layout:
      spacing: even  # all alike
      finger: 1/2    # about
    cutter: straight-38

# That is all.
`;

const layout = (key: string) => ['joints', 'tray', 'layout', key];

describe('an edit of a job', () => {
  test('changes the value and nothing else, remarks and alignment stay', () => {
    const edited = editYaml(job, [{ set: ['joints', 'tray', 'width'], to: '90 mm' }]);
    expect(edited).toBe(job.replace('3-1/2', '90 mm'));
  });

  test('adds a key after its neighbours, in their style', () => {
    const block = editYaml(job, [{ set: layout('groove'), to: '{ from: 1, width: 1/4 }' }]);
    expect(block).toBe(job.replace('# about\n', '# about\n      groove: { from: 1, width: 1/4 }\n'));
    const flow = editYaml(job, [{ set: ['joints', 'tray', 'boards', 'one', 'material'], to: 'maple' }]);
    expect(flow).toBe(job.replace('{ thickness: 1/2 }, two', '{ thickness: 1/2, material: maple }, two'));
  });

  test('makes the maps that are not there yet', () => {
    const edited = editYaml(job, [{ set: ['joints', 'tray', 'template', 'slots'], to: 'every-second' }]);
    expect(parse(edited).joints.tray.template).toEqual({ slots: 'every-second' });
    expect(edited.replace(/\n.*every-second.*/, '')).toBe(job);
  });

  test('takes a key out with its line, or out of a map on one line', () => {
    expect(editYaml(job, [{ remove: layout('finger') }])).toBe(
      job.replace('      finger: 1/2    # about\n', ''),
    );
    const first = editYaml(job, [{ remove: ['joints', 'tray', 'boards', 'one'] }]);
    expect(first).toBe(job.replace('one: { thickness: 1/2 }, ', ''));
    const last = editYaml(job, [{ remove: ['joints', 'tray', 'boards', 'two'] }]);
    expect(last).toBe(job.replace(', two: { thickness: 1/2 }', ''));
  });

  test('takes the map out with its last key', () => {
    const edited = editYaml(job, [{ remove: layout('finger') }, { remove: layout('spacing') }]);
    expect(parse(edited).joints.tray).not.toHaveProperty('layout');
    expect(edited).toContain('# That is all.');
  });

  test('renames a key where it stands', () => {
    const edited = editYaml(job.replace('cutter:', 'cuter:'), [
      { rename: ['joints', 'tray', 'cuter'], to: 'cutter' },
    ]);
    expect(edited).toBe(job);
  });

  test('leaves a text that is no YAML as it is', () => {
    expect(editYaml('a: [1', [{ set: ['a'], to: '2' }])).toBe('a: [1');
  });

  test('fills in a key without a value, and replaces a list over several lines', () => {
    expect(parse(editYaml('a:\nb: 1\n', [{ set: ['a'], to: '2' }]))).toEqual({ a: 2, b: 1 });
    const list = 'a:\n  - 1\n  - 2   # two\nb: 1\n';
    expect(parse(editYaml(list, [{ set: ['a'], to: '[3, 4]' }]))).toEqual({ a: [3, 4], b: 1 });
  });

  test('whatever is typed into a field reads back as it was typed', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme-ascii', maxLength: 12 }), fc.boolean(), (typed, flow) => {
        const path = flow ? ['joints', 'tray', 'boards', 'one', 'thickness'] : ['joints', 'tray', 'width'];
        const edited = editYaml(job, [{ set: path, to: quotedValue(typed) }]);
        expect(writtenAt(parseYaml(edited), edited, path)).toBe(typed);
        for (const remark of ['# The tray.', '# across', '# all alike', '# That is all.'])
          expect(edited).toContain(remark);
      }),
      { numRuns: 300 },
    );
  });
});
