import { describe, expect, test } from 'vitest';
import { builtCommand, goodJob, jobToBeRefused, listing, workFolder, writeJob } from './command.js';

const { run } = builtCommand();
const work = workFolder();
const job = writeJob(work, 'tray.yaml', goodJob);
const refused = writeJob(work, 'refused.yaml', jobToBeRefused);
const unread = writeJob(work, 'unread.yaml', goodJob.replace('width: 4-1/2', 'width: wide'));

describe('halfpin kit', () => {
  test('lists the tools that do, best first, and writes nothing', async () => {
    const before = listing(work);
    const { status, out, err } = await run(['kit', job]);
    expect(err).toBe('');
    expect(status).toBe(0);
    expect(out).toMatch(/tray-corner\n.*tails +pins +bushing +finger/);
    expect(out).toMatch(/1 +half-8 +straight-38 +seven-sixteenths .*as the job has it/);
    expect(listing(work)).toEqual(before);
  });

  test('gives programs the same, with codes and mm', async () => {
    const { status, out } = await run(['kit', job, '--json', '--common']);
    expect(status).toBe(0);
    const data = JSON.parse(out);
    expect(data.joints).toHaveLength(1);
    const [first] = data.joints[0].choices;
    expect(Object.keys(first.bits)).toEqual(['cutters.tails', 'cutters.pins']);
    expect(first.finger).toBeGreaterThan(4.7625);
    for (const one of data.joints[0].refused) expect(one.reasons.length).toBeGreaterThan(0);
    expect(data.joints[0].choices.some(({ lacking }: { lacking: number }) => lacking > 0)).toBe(true);
  });

  test('ends with 1 when no tool of the shop will do, and says what to try', async () => {
    const { status, err, out } = await run(['kit', refused]);
    expect(status).toBe(1);
    expect(err).toMatch(/joints\.tray-corner: no bit and bushing of your shop.*--common/);
    expect(out).toMatch(/will not do\n {2}half-8 \+ straight-38 \+ seven-sixteenths: /);
  });

  test('ends with 2 when the job cannot be read, at the place', async () => {
    const { status, err, out } = await run(['kit', unread]);
    expect(status).toBe(2);
    expect(err).toMatch(/unread\.yaml:\d+:\d+: joints\.tray-corner\.width/);
    expect(out).toBe('');
    expect((await run(['kit', job, '--joint', 'tray-coner'])).err).toMatch(/did you mean tray-corner\?/);
  });

  test('the same job gives the same bytes', async () => {
    const [one, two] = [
      await run(['kit', job, '--common', '--all']),
      await run(['kit', job, '--common', '--all']),
    ];
    expect(one).toEqual(two);
  });
});
