import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import {
  builtCommand,
  contents,
  goodJob,
  jobToBeRefused,
  twoJoints,
  workFolder,
  writeJob,
} from './command.js';

const { run } = builtCommand();
const work = workFolder();
const job = writeJob(work, 'tray.yaml', goodJob);
const refused = writeJob(work, 'refused.yaml', jobToBeRefused);
const two = writeJob(work, 'two.yaml', twoJoints('other'));

/** A box joint whose shop stands in a file of its own, with remarks and an odd layout. */
const shopText = `units: in   # as on the rule

bits:   { straight-38: { kind: straight,  diameter: 3/8, height: 3/4, shank: 1/4 } }   # sharp
bushings:
  half:
    outside:   1/2     # nominal
    bore: 13/32
plate: { material: plywood, thickness: 1/2, least-finger: 3/16 }
`;
writeJob(work, 'shop.yaml', shopText);
const box = writeJob(
  work,
  'box.yaml',
  `units: in
shop: ./shop.yaml
joints:
  corner:
    kind: box
    width: 3-3/8
    boards: { one: { thickness: 3/8 }, two: { thickness: 3/8 } }
    layout: { finger: 3/8 }
    cutter: straight-38
    bushing: half
    fit: { slack: 0.1 mm }
`,
);
const shopFile = join(work, 'shop.yaml');

describe('halfpin refit', () => {
  test('says what to move, and changes no file', async () => {
    const before = contents(work);
    const { status, out, err } = await run(['refit', job, '--measured', 'gap=0.3mm', 'proud-tails=0.2mm']);
    expect(err).toBe('');
    expect(status).toBe(0);
    expect(out).toMatch(/^tray-corner\n.*looser.*\n {2}move the fence .* away from you/);
    expect(out).toMatch(/set the bit 0\.008 in shallower than it is now for the tail board/);
    expect(out).toMatch(/Unplug the router/);
    expect(contents(work)).toEqual(before);
  });

  test('gives programs the steps in mm', async () => {
    const { out } = await run(['refit', job, '--json', '--measured', 'overlap=0.2mm']);
    const data = JSON.parse(out);
    // 0.2 mm of overlap and 0.004 in of play wanted, at 2 tan 8° for each mm of the fence.
    const by = -(0.2 + 0.1016) / (2 * Math.tan((8 * Math.PI) / 180));
    expect(data).toMatchObject({ status: 0, joint: 'tray-corner', steps: [{ do: 'shift' }] });
    expect(data.steps[0].by).toBeCloseTo(by, 5);
  });

  test('puts measured sizes into the shop file only with --write, and touches nothing else there', async () => {
    const typed = ['refit', box, '--measured', 'gap=0.3mm', 'bushing=12.6mm'];
    const { status, out } = await run(typed);
    expect(status).toBe(0);
    expect(out).toMatch(/outside of half: 0\.4961 in instead of 0\.5 in, as measured/);
    expect(readFileSync(shopFile, 'utf8')).toBe(shopText);
    const written = await run([...typed, '--write']);
    expect(written.status).toBe(0);
    expect(written.err).toMatch(/Wrote .*shop\.yaml:6: bushings\.half\.outside: 12\.6 mm/);
    expect(readFileSync(shopFile, 'utf8')).toBe(shopText.replace('outside:   1/2 ', 'outside:   12.6 mm '));
    writeJob(work, 'shop.yaml', shopText);
  });

  test('writes into the job where the shop stands in it', async () => {
    const own = writeJob(work, 'own.yaml', goodJob);
    const { status, err } = await run(['refit', own, '--write', '--measured', 'bit-tails=12.5mm']);
    expect(err).toMatch(/Wrote .*own\.yaml:5: shop\.bits\.half-8\.diameter: 12\.5 mm|Wrote .*own\.yaml:5: /);
    expect(status).toBe(0);
    expect(readFileSync(own, 'utf8')).toBe(
      goodJob.replace('dovetail, diameter: 1/2,', 'dovetail, diameter: 12.5 mm,'),
    );
  });

  test('says when there is nothing to write', async () => {
    const before = contents(work);
    const { err, status } = await run(['refit', job, '--write', '--measured', 'gap=0.3mm']);
    expect(status).toBe(0);
    expect(err).toMatch(/Nothing to write/);
    expect(contents(work)).toEqual(before);
  });

  test('refuses to change a value that other places share', async () => {
    const shared = writeJob(work, 'shared.yaml', goodJob.replace('diameter: 1/2', 'diameter: &d 1/2'));
    const { err, status } = await run(['refit', shared, '--write', '--measured', 'bit-tails=12.5mm']);
    expect(status).toBe(1);
    expect(err).toMatch(/shared\.yaml:5: .*by hand/);
    expect(readFileSync(shared, 'utf8')).toContain('&d 1/2');
  });

  test('keeps a log that grows, with a date only when one is given', async () => {
    const logged = writeJob(work, 'logged.yaml', goodJob);
    const typed = ['refit', logged, '--log', '--measured', 'gap=0.3mm'];
    expect((await run(typed)).err).toMatch(/Added to .*logged-refit\.log/);
    await run([...typed, '--date', '2024-05-31']);
    const log = readFileSync(join(work, 'logged-refit.log'), 'utf8');
    const [first = '', second = ''] = log.split('\n\n');
    expect(first).toMatch(/^joint: tray-corner\nmeasured: gap=0\.3mm\nadvice: /);
    expect(second).toMatch(/^date: 2024-05-31\njoint: tray-corner\n/);
    // The second trial joint was cut with the fence where the first one's advice put it.
    const back = (entry: string) => Number(/settings: fence ([\d.]+) mm back/.exec(entry)?.[1]);
    expect(back(first)).toBeGreaterThan(0.5);
    expect(back(second)).toBeCloseTo(2 * back(first), 4);
    expect(second).toMatch(/advice: by the log the fence is .* back by now/);
    expect(readFileSync(logged, 'utf8')).toBe(goodJob);
  });

  test('names the other joints that a new size changes, before it is written', async () => {
    const shared = writeJob(work, 'both.yaml', twoJoints('other'));
    const typed = ['refit', shared, '--joint', 'other', '--measured', 'bit-tails=12.5mm'];
    const { out } = await run(typed);
    expect(out).toMatch(/caution: half-8 also cuts tray-corner/);
    const { findings, either } = JSON.parse((await run([...typed, '--json'])).out);
    expect(findings.map(({ code }: { code: string }) => code)).toContain('refit-others');
    expect(either[0]).toMatchObject([{ do: 'size', path: 'shop.bits.half-8.diameter' }]);
  });

  const misuse: readonly (readonly [typed: readonly string[], status: number, says: RegExp])[] = [
    [['refit', job], 2, /--measured is missing/],
    [['refit', job, '--measured', 'gap=wide'], 2, /--measured gap=wide: .*"wide".*19\.05 mm/],
    [['refit', job, '--measured', 'gaap=1mm'], 2, /--measured gaap=1mm: .*did you mean gap\?/],
    [['refit', two, '--measured', 'gap=1mm'], 2, /say which joint with --joint: tray-corner, other/],
    [['refit', job, '--joint', 'tray-coner', '--measured', 'gap=1mm'], 2, /did you mean tray-corner\?/],
    [['refit', refused, '--measured', 'gap=1mm'], 1, /refused\.yaml:\d+:\d+: joints\.tray-corner/],
    [['refit', '-', '--write', '--measured', 'gap=1mm'], 2, /need a job file/],
    [['refit', job, '--measured', 'mismatch=0.5mm'], 2, /which corner.*mismatch-1=/],
    [['refit', job, '--log', '--date', 'May', '--measured', 'gap=1mm'], 2, /year-month-day/],
  ];
  test.each(misuse)('halfpin %j gives %i', async (typed, status, says) => {
    const ended = await run(typed);
    expect(ended.err).toMatch(says);
    expect(ended.status).toBe(status);
  });
});
