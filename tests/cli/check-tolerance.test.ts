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
const hand = writeJob(
  work,
  'hand.yaml',
  goodJob.replace(/ {4}cutters:.*\n {4}bushing:.*\n/, '    slope: 1:8\n'),
);
const exact = ['bit=0', 'thickness=0', 'depth=0', 'kerf=0', 'angle=0'];

describe('halfpin check --tolerance', () => {
  test('says the shares twice, which error matters most, and writes nothing', async () => {
    const before = contents(work);
    const { status, out, err } = await run(['check', job, '--tolerance']);
    expect(status).toBe(0);
    expect(err).toBe(
      'joints.tray-corner: caution: kerf and angle: no standard says how far they may be off, so they count as exact; measure, and give kerf=… and angle=…\n',
    );
    expect(out).toMatch(/run of 4096( +[\d.]+ %){3}/);
    expect(out).toMatch(/linear theory( +[\d.]+ %){3}/);
    expect(out).toMatch(/bushing .*ISO 2768-1 +-2\.01 +66\.\d %/);
    expect(out).toMatch(/note: the bushing matters most: 66\.\d %/);
    expect(contents(work)).toEqual(before);
    expect(await run(['check', job, '--tolerance'])).toEqual({ status, out, err });
  });

  test('gives programs numbers in mm that can be worked out by hand', async () => {
    const typed = ['check', job, '--json', '--tolerance', 'bushing=0.05mm', ...exact];
    const { status, out } = await run([...typed, 'tight=0', 'loose=0.2032mm']);
    expect(status).toBe(0);
    const [one] = JSON.parse(out).tolerance;
    // The bushing alone, anywhere within ±0.05: the play lies alike within 0.1016 ± 0.05 (1 + 1/cos 8°).
    const reach = 0.05 * (1 + 1 / Math.cos((8 * Math.PI) / 180));
    expect(one).toMatchObject({ joint: 'tray-corner', slack: 0.1016, limits: { tight: 0, loose: 0.2032 } });
    expect(one.errors[0]).toMatchObject({ source: 'bushing', plusMinus: 0.05, from: 'given', share: 1 });
    // Standard deviation of a rectangular distribution, a/√3: JCGM 100:2008 (GUM), 4.3.7.
    expect(Math.abs(one.linear.deviation - reach / Math.sqrt(3))).toBeLessThan(1e-5);
    expect(Math.abs(one.sampled.deviation - reach / Math.sqrt(3))).toBeLessThan(1e-3);
    expect(one.sampled).toMatchObject({ points: 4096, tight: 0, good: 1, loose: 0 });
    const narrow = JSON.parse((await run([...typed, 'tight=0.1016mm'])).out).tolerance[0];
    expect(Math.abs(narrow.sampled.tight - 0.5)).toBeLessThan(0.002);
    expect(narrow.linear.tight).toBeCloseTo(0.5, 6);
  });

  test('says what an angle costs in mm a degree', async () => {
    const { out } = await run(['check', job, '--json', '--tolerance', 'angle=0.5', 'kerf=0']);
    const angle = JSON.parse(out).tolerance[0].errors.find(
      (one: { source: string }) => one.source === 'angle',
    );
    // In the middle of the glue line: t_P / cos² θ a radian, 12.7 mm and 8°.
    const byHand = (-12.7 / Math.cos((8 * Math.PI) / 180) ** 2) * (Math.PI / 180);
    expect(angle.plusMinus).toBe(0.5);
    expect(Math.abs(angle.partial - byHand)).toBeLessThan(1e-3);
  });

  test('draws the histogram into a file, which is replaced only with --force', async () => {
    const picture = join(work, 'play.svg');
    const typed = ['check', job, '--tolerance', 'kerf=0.05mm', 'angle=0.1', '--histogram', picture];
    expect(await run(typed)).toMatchObject({ status: 0, err: '' });
    const svg = readFileSync(picture, 'utf8');
    expect(svg).toMatch(/^<\?xml[\s\S]*<title>Specimen cabinet, tray: tray-corner<\/title>/);
    const again = await run(typed);
    expect(again.status).toBe(1);
    expect(again.err).toMatch(/play\.svg exists already; use --force/);
    expect((await run([...typed, '--force'])).status).toBe(0);
    const piped = await run([...typed.slice(0, -1), '-']);
    expect(piped).toEqual({ status: 0, out: svg, err: '' });
  });

  const misuse: readonly (readonly [typed: readonly string[], status: number, says: RegExp])[] = [
    [['check', job, '--tolerance', 'bits=1'], 2, /--tolerance bits=1: .*did you mean bit\?/],
    [['check', job, '--tolerance', 'bit=wide'], 2, /--tolerance bit=wide: .*"wide".*19\.05 mm/],
    [['check', job, '--tolerance', 'bit=0.1mm', 'bit=0.2mm'], 2, /bit is given twice/],
    [['check', job, '--tolerance', 'loose=9mm'], 2, /no limit for the play/],
    [['check', job, '--tolerance', 'tight=0.3mm'], 1, /joints\.tray-corner: .*other way round/],
    [['check', hand, '--tolerance'], 1, /joints\.tray-corner: .*cut by hand/],
    [['check', refused, '--tolerance'], 1, /refused\.yaml:\d+:\d+: joints\.tray-corner/],
    [['check', job, '--histogram', '-'], 2, /--histogram shows what --tolerance works out/],
    [['check', job, '--json', '--tolerance', '--histogram', '-'], 2, /both want standard output/],
    [['check', two, '--tolerance', '--histogram', '-'], 2, /say which with --joint: tray-corner, other/],
    [['check', job, '--force'], 2, /--force is for the file of --histogram/],
  ];
  test.each(misuse)('halfpin %j gives %i', async (typed, status, says) => {
    const ended = await run(typed);
    expect(ended.err).toMatch(says);
    expect(ended.status).toBe(status);
    expect(ended.err).not.toMatch(/\n\s+at .*:\d+:\d+/);
  });
});
