import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { withVertices } from '../support/dxf-faults.js';
import { builtCommand, goodJob, jobToBeRefused, listing, root, workFolder, writeJob } from './command.js';

const { run } = builtCommand();
const work = workFolder();
const job = writeJob(work, 'tray.yaml', goodJob);
const made = join(work, 'made');

interface Data {
  readonly status: number;
  readonly joints: readonly { readonly testcut?: object }[];
  readonly testcuts: readonly {
    readonly tried: boolean;
    readonly worstGap: number;
    readonly levels: readonly object[];
  }[];
}

describe('testcut', () => {
  test('says in both units how the joint closes, level by level', async () => {
    const { status, out } = await run(['testcut', job, '--levels', '3']);
    expect(status).toBe(0);
    expect(out).toMatch(/tray-corner {2}closes/);
    expect(out).toMatch(/worst gap +0\.002 in = 0\.051 mm/); // half of the slack of 0.004 in on each glue line
    expect(out.match(/^ {2}\S.* in = \S+ mm +0\.002 in = 0\.051 mm +0 in = 0 mm$/gm)).toHaveLength(3);
  });

  test('reads the written files back, DXF first, else SVG, and the report of make has the same numbers', async () => {
    expect(await run(['make', job, '-o', made, '--only', 'finger', '--as', 'dxf'])).toMatchObject({
      status: 0,
    });
    const svg = join(work, 'svg');
    expect(await run(['make', job, '-o', svg, '--only', 'finger', '--as', 'svg'])).toMatchObject({
      status: 0,
    });
    const report = JSON.parse(
      readFileSync(join(made, 'tray-corner/report.json'), 'utf8'),
    ) as Data['joints'][0];
    for (const folder of [made, svg]) {
      const ended = await run(['testcut', job, '--from', folder, '--json']);
      const data = JSON.parse(ended.out) as Data;
      expect(data).toMatchObject({ status: 0, testcuts: [{ tried: true }] });
      expect(data.testcuts[0]?.levels).toHaveLength(9);
      if (folder === made) expect(data.joints[0]?.testcut).toEqual(report.testcut);
      else expect(data.testcuts[0]?.worstGap).toBeCloseTo(0.0508, 3);
    }
  });

  test('ends with 1 and names the place when a written template is wrong', async () => {
    const file = join(made, 'tray-corner/finger-template-pins.dxf');
    const sound = readFileSync(file, 'utf8');
    writeFileSync(
      file,
      withVertices(sound, 'CUT', ({ x, y }) => ({ x: x + 0.2, y })),
    );
    const ended = await run(['testcut', job, '--from', made]);
    expect(ended.status).toBe(1);
    expect(ended.out).toMatch(/tray-corner {2}does not close|tray-corner.*cannot/);
    expect(ended.err).toContain(' finger-template-pins.dxf: ');
    expect(ended.err).not.toContain(' finger-template-tails.dxf: ');
    writeFileSync(file, sound);
  });

  test('joins the parts of a plate longer than the bed, and catches one that lies off by 0.3 mm', async () => {
    const shelf = join(root, 'samples/shelf-case.yaml');
    const parts = join(work, 'parts');
    const ended = await run(['make', shelf, '-o', parts, '--only', 'finger,nest', '--as', 'dxf']);
    expect(ended.status).toBe(0);
    expect(ended.out).toMatch(/nest-1: 5 plates on .*, \d+ % of it in use/);
    expect(listing(join(parts, 'shelf-case'))).toContain('finger-template-pins-part-2.dxf');
    const sound = await run(['testcut', shelf, '--from', parts]);
    expect(sound).toMatchObject({ status: 0 });
    expect(sound.out).toMatch(/shelf-case {2}closes/);
    const file = join(parts, 'shelf-case/finger-template-pins-part-2.dxf');
    const text = readFileSync(file, 'utf8');
    writeFileSync(
      file,
      withVertices(text, 'CUT', ({ x, y }) => ({ x, y: y + 0.3 })),
    );
    const off = await run(['testcut', shelf, '--from', parts]);
    expect(off.status).toBe(1);
    expect(off.err).toMatch(/finger-template-pins-part-1.* and .*pins-part-2.* want .* of the same room/);
  });

  test('cuts half-blind joints like the others, and says lap, corners and seat', async () => {
    const path = join(work, 'drawer.yaml');
    expect(await run(['new', 'half-blind-dovetail', '-o', path])).toMatchObject({ status: 0 });
    const { status, out } = await run(['testcut', path, '--levels', '3']);
    expect(status).toBe(0);
    expect(out).toMatch(/front {2}closes/);
    expect(out).toMatch(/play +0\.004 in = 0\.102 mm +of the tightest pair/);
    expect(out).toMatch(/corners, pins +\S+ in² = \S+ mm² +left standing where the bit is round/);
    expect(out).toMatch(/lap +3\/8 in = 9\.525 mm +of the front left over the sockets/);
    expect(out).toMatch(/sockets +0 in = 0 mm +free under the tails/);
    const ended = await run(['make', path, '-o', join(work, 'drawer'), '--only', 'finger', '--as', 'dxf']);
    expect(ended.status).toBe(0);
    expect(ended.err).not.toMatch(/not cut on paper/);
    const { testcut } = JSON.parse(readFileSync(join(work, 'drawer/front/report.json'), 'utf8'));
    expect(testcut).toMatchObject({
      shoulderArea: expect.any(Number),
      underTails: 0,
      unreached: { pins: { radius: 6.35 } },
      strength: { finger: { width: expect.any(Number) }, wood: { board: expect.any(String) } },
      breakthrough: { lap: 9.525, intoPlate: {} },
    });
  });

  test('draws a picture of each joint, and not over another', async () => {
    const pictures = join(work, 'pictures');
    expect(await run(['testcut', job, '-o', pictures])).toMatchObject({ status: 0 });
    expect(listing(pictures)).toEqual(['tray-corner/testcut.svg']);
    expect(readFileSync(join(pictures, 'tray-corner/testcut.svg'), 'utf8')).toMatch(/^<\?xml .*<svg .*1:1/s);
    const again = await run(['testcut', job, '-o', pictures]);
    expect(again).toMatchObject({ status: 1 });
    expect(again.err).toMatch(/exists already/);
  });

  test('builds the joint in solid wood: volumes beside those of the slices, and files closed and apart', async () => {
    const folder = join(work, 'solids');
    const ended = await run(['testcut', job, '--solid', '-o', folder, '--json']);
    expect(ended.status).toBe(0);
    const { solids } = JSON.parse(ended.out) as {
      solids: {
        joint: string;
        room: number;
        overlap: number;
        voids: number;
        boards: { board: string; volume: number }[];
        slices: { boards: { volume: number }[] };
      }[];
    };
    const [solid] = solids;
    expect(solids).toHaveLength(1);
    expect(solid?.room).toBeCloseTo(114.3 * 12.7 * 12.7, 2); // 4-1/2 by 1/2 by 1/2 in
    expect(solid?.overlap).toBe(0);
    expect(solid?.voids).toBeGreaterThan(1);
    for (const [i, { volume }] of (solid?.boards ?? []).entries()) {
      expect(Math.abs(volume / (solid?.slices.boards[i]?.volume ?? 0) - 1)).toBeLessThan(0.005);
    }
    expect(listing(folder)).toEqual([
      'tray-corner/solid-apart.3mf',
      'tray-corner/solid-apart.glb',
      'tray-corner/solid-closed.3mf',
      'tray-corner/solid-closed.glb',
      'tray-corner/testcut.svg',
    ]);
    expect(readFileSync(join(folder, 'tray-corner/solid-closed.glb')).subarray(0, 4).toString()).toBe('glTF');
    const said = await run(['testcut', job, '--solid']);
    expect(said.out).toMatch(/tray-corner {2}in solid wood/);
    expect(said.out).toMatch(/tails in it +\S+ in³ = \S+ cm³ +\S+ in³ = \S+ cm³/);
  });

  test('plates that hold a kerf or the path of a cutter are proved as they come off the machine', async () => {
    for (const [name, more] of [
      ['laser', 'cut-for: laser }\n  laser: { kerf: 0.2 mm }'],
      ['cnc', 'cut-for: cnc }\n  cnc: { cutter: 1/8 }'],
    ] as const) {
      const held = writeJob(
        work,
        `${name}.yaml`,
        goodJob.replace('least-finger: 3/16 }', `least-finger: 3/16, ${more}`),
      );
      expect(await run(['testcut', held])).toMatchObject({ status: 0 });
      // The same files taken for nominal ones do not fit.
      const folder = join(work, name);
      expect(await run(['make', held, '-o', folder, '--only', 'finger', '--as', 'dxf'])).toMatchObject({
        status: 0,
      });
      expect(await run(['testcut', job, '--from', folder])).toMatchObject({ status: 1 });
    }
  });

  test('names what is missing, refuses odd levels, and says what it did not try', async () => {
    const missing = await run(['testcut', job, '--from', join(work, 'nowhere')]);
    expect(missing.status).toBe(1);
    expect(missing.err).toMatch(/there is no finger-template-pins\.dxf and no finger-template-pins\.svg/);
    expect(await run(['testcut', job, '--levels', '1'])).toMatchObject({ status: 2, out: '' });
    const refused = await run(['testcut', writeJob(work, 'refused.yaml', jobToBeRefused)]);
    expect(refused.status).toBe(1);
    expect(refused.out).toMatch(/tray-corner {2}cannot be made as asked/);
  });
});
