import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { root } from '../support/jobs.js';
import { problemWithJoint } from './joint.js';
import { type Mutant, mutantBench } from './mutants.js';
import { type PathMutant, problemWithPath } from './paths.js';

/** What `npm run soak` found once stays mended. */

const folder = join(root, 'tests/soak/found');
const found = existsSync(folder) ? readdirSync(folder) : [];
const read = (name: string) => readFileSync(join(folder, name), 'utf8');

describe('what the soak found', () => {
  const joints = found.filter((name) => name.endsWith('.yaml'));
  test.runIf(joints.length > 0).each(joints)(
    '%s is cut and closes, or is refused with a reason',
    async (name) => {
      expect(await problemWithJoint(read(name))).toBeUndefined();
    },
  );

  const paths = found.filter((name) => name.endsWith('.path.json'));
  test.runIf(paths.length > 0).each(paths)('%s is read or refused', (name) => {
    expect(problemWithPath(JSON.parse(read(name)) as PathMutant)).toBeUndefined();
  });

  const mutants = found.filter((name) => name.endsWith('.mutant.json'));
  test.runIf(mutants.length > 0).each(mutants)('%s is refused as it should be', async (name) => {
    const bench = mutantBench(join(root, 'samples'));
    const { text, ...mutant } = JSON.parse(read(name)) as Mutant;
    expect(await bench.troubleWith({ ...mutant, text })).toBeUndefined();
    bench.end();
  });

  test('is kept in files of known kinds', () => {
    expect(found.filter((name) => !/\.(yaml|path\.json|mutant\.json)$/.test(name))).toEqual([]);
  });
});

describe('the judges of the soak', () => {
  test('see a path that comes apart, and a job whose joint is wrong', async () => {
    expect(problemWithPath({ d: 'M 0 0 L 5 5', placed: [1, 0, 0, 1, Number.NaN, 0] })).toMatch(/number/);
    await expect(problemWithJoint('title: nothing')).rejects.toThrow();
  });
});
