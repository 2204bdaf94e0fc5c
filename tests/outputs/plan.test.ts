import { beforeEach, describe, expect, test, vi } from 'vitest';
import { formats, products } from '../../src/outputs/ask.js';
import { layOut } from '../../src/outputs/lay-out.js';
import { makeFiles } from '../../src/outputs/make.js';
import { canBeMade, plan, prove, renderAll } from '../../src/outputs/plan.js';
import type { DrawingFormat } from '../../src/writers/list.js';
import { goodJob, twoJoints } from '../cli/command.js';
import { readSample, readText } from '../support/jobs.js';

/** How often a plate was compensated, and how often each writer wrote. */
const counted = vi.hoisted(() => ({ compensated: 0, written: new Map<string, number>() }));

vi.mock('../../src/cam/relief.js', async (original) => {
  const real = await original<typeof import('../../src/cam/relief.js')>();
  return {
    ...real,
    relieved: (...all: Parameters<typeof real.relieved>) => {
      counted.compensated += 1;
      return real.relieved(...all);
    },
  };
});

vi.mock('../../src/writers/list.js', async (original) => {
  const real = await original<typeof import('../../src/writers/list.js')>();
  return {
    ...real,
    loadWriter: async (format: DrawingFormat) =>
      new Proxy(await real.loadWriter(format), {
        get: (writer, key) => {
          if (key === 'write') counted.written.set(format, (counted.written.get(format) ?? 0) + 1);
          return Reflect.get(writer, key);
        },
      }),
  };
});

beforeEach(() => {
  counted.compensated = 0;
  counted.written.clear();
});

const machines = {
  nominal: ['', ''],
  laser: [', cut-for: laser', '  laser: { kerf: 0.008, speed: 24, power: 300 }\n'],
  cnc: [', cut-for: cnc', ''],
} as const;

const job = (machine: keyof typeof machines) => {
  const [plate, more] = machines[machine];
  const cnc = '  cnc: { cutter: 1/8, relief: corner, rpm: 18000, feed: 60, plunge: 15, pass: 1/8 }\n';
  return readText(
    twoJoints('lid')
      .replace(/least-finger: 3\/16 }/, `least-finger: 3/16, sheet: [60, 40]${plate} }`)
      .replace('joints:', `${more}${cnc}joints:`)
      .replace(/fit: .*/g, '$&\n    marker: { form: hook }'),
  );
};

describe.each(['nominal', 'laser', 'cnc'] as const)('a make of everything, plates %s', (machine) => {
  test('compensates each plate once and draws each artifact once, proof and nest included', async () => {
    const proved = await prove(await plan(job(machine), { only: products, as: formats }));
    expect(proved.diagnostics.filter(({ level }) => level === 'refused')).toEqual([]);
    const files = await renderAll(proved);
    const plates = proved.joints.flatMap(({ made }) => made?.plates ?? []);
    const markers = proved.artifacts.filter(
      ({ product, path }) => product === 'marker' && path.endsWith('.dxf'),
    );
    expect(plates).toHaveLength(4);
    expect(markers).toHaveLength(2);
    // Nominal plates are compensated for their programs alone, which markers have none of. The carriers' files have theirs, and
    // on sheets each piece lies by itself.
    const carriers = proved.artifacts.filter(
      ({ product, path }) => product === 'carrier' && path.endsWith('.ngc'),
    );
    const pieces = proved.joints.flatMap(({ made }) =>
      (made?.templates ?? []).flatMap(({ carrier }) => carrier?.parts.flatMap(({ layers }) => layers) ?? []),
    );
    expect(carriers).toHaveLength(4);
    expect(counted.compensated).toBe(
      plates.length + (machine === 'nominal' ? 0 : markers.length) + carriers.length + pieces.length,
    );
    for (const format of ['svg', 'dxf', 'pdf'] as const) {
      const drawn = proved.artifacts.filter(
        ({ product, path }) =>
          ['finger', 'carrier', 'marker', 'pattern', 'nest'].includes(product) &&
          path.endsWith(`.${format}`) &&
          !path.includes('backplot'),
      );
      expect(drawn.length).toBeGreaterThan(8);
      expect(counted.written.get(format)).toBe(drawn.length);
    }
    expect(new Set(files.map(({ path }) => path)).size).toBe(files.length);
    expect(files.map(({ path }) => path)).toEqual(proved.artifacts.map(({ path }) => path));
    expect(files.every(({ content }) => content.length > 0)).toBe(true);
  }, 120_000);
});

test('a plan renders nothing', async () => {
  await plan(job('cnc'), { only: products, as: formats });
  expect([...counted.written]).toEqual([]);
}, 60_000);

test('a file that is asked for twice is drawn once', async () => {
  const { artifacts } = await plan(readText(goodJob), { only: ['finger'], as: ['svg'] });
  const [first] = artifacts;
  expect(await first?.render()).toBe(await first?.render());
  expect(counted.written.get('svg')).toBe(1);
});

describe('a name that there is not', () => {
  test.each([
    [{ only: ['lid'] }, { key: 'only', read: 'lid', works: products }],
    [{ as: ['png'] }, { key: 'as', read: 'png', works: formats }],
    [{ joint: 'lid' }, { key: 'joint', read: 'lid', works: ['tray-corner'] }],
  ])('%j is a diagnostic, and nothing is made', async (ask, data) => {
    // As a program without types may ask.
    const read = readText(goodJob);
    const planned = await plan(read, ask as Parameters<typeof plan>[1]);
    expect(planned.artifacts).toEqual([]);
    expect(planned.diagnostics).toMatchObject([{ code: 'ask-unknown', level: 'refused', data }]);
    expect(await makeFiles(read, ask as Parameters<typeof makeFiles>[1])).toMatchObject({ ok: false });
  });
});

describe('files for a program', () => {
  test('are proved unless it says otherwise', async () => {
    const proved = await makeFiles(readText(goodJob), { only: ['finger'], as: ['dxf'] });
    const plain = await makeFiles(readText(goodJob), { only: ['finger'], as: ['dxf'], proof: false });
    const codes = (one: typeof proved) => one.diagnostics.map(({ code }) => code);
    expect(codes(proved)).toContain('joint-closes');
    expect(codes(plain)).not.toContain('joint-closes');
    const report = proved.ok ? proved.value.find(({ path }) => path.endsWith('report.json')) : undefined;
    expect(JSON.parse(`${report?.content}`).testcut.levels).toHaveLength(9);
  });

  test('are none where a joint is refused, and its reasons are there', async () => {
    const made = await makeFiles(readSample('refused-label-holder.yaml'));
    expect(made.ok).toBe(false);
    expect(made.diagnostics.some(({ level }) => level === 'refused')).toBe(true);
  });

  test('a joint that does not close is lost with its files, and the others keep theirs', async () => {
    const planned = await plan(job('laser'), { only: ['finger', 'sheet', 'nest'], as: ['svg'] });
    const { withCuts } = await import('../../src/outputs/plan.js');
    const { diagnostic } = await import('../../src/diagnostics/diagnostic.js');
    const wrong = diagnostic('testcut-kind', 'refused', 'joints.lid', { kind: 'through-dovetail' });
    const left = await withCuts(planned, [{ joint: 'lid', diagnostics: [wrong] }]);
    expect(canBeMade(left)).toBe(false);
    expect(left.artifacts.filter(({ joint }) => joint === 'lid')).toEqual([]);
    const nest = left.artifacts.find(({ path }) => path === 'nest.json');
    expect(`${await nest?.render()}`).not.toContain('"lid"');
    expect(left.artifacts.some(({ path }) => path === 'tray-corner/set-up.html')).toBe(true);
  });
});

describe('a joint alone, from plain data', () => {
  const boards = { tails: { thickness: 12 }, pins: { thickness: 12 } };

  test('has its spans, which fill the board', () => {
    const solved = layOut({ kind: 'through-dovetail', width: 100, slope: '1:8', boards });
    if (!solved.ok) throw new Error(JSON.stringify(solved.diagnostics));
    const { spans } = solved.value.layout;
    expect(spans[0]?.from).toBeCloseTo(0, 9);
    expect(spans.at(-1)?.to).toBeCloseTo(100, 9);
    expect(solved.value.cuts).toEqual([]);
  });

  test('says what is wrong by its keys', () => {
    const solved = layOut({ kind: 'through-dovetail', width: -1, slope: '1:8', boards });
    expect(solved.ok).toBe(false);
    expect(solved.diagnostics[0]?.at).toBe('joints.joint.width');
  });
});
