import { describe, expect, test } from 'vitest';
import { hasErrors } from '../../src/diagnostics/diagnostic.js';
import type { MadeFile } from '../../src/outputs/artifact.js';
import { solveJob } from '../../src/outputs/joint.js';
import { testCutJob } from '../../src/outputs/testcut.js';
import { firstAtHand, output, testWith } from '../drawing/at-hand.js';
import { readText } from '../support/jobs.js';
import { makeFiles } from '../support/made.js';

/**
 * What a shop asks of its files under `files:`, from the text of the job to the bytes, read back by programs that
 * aren't ours: ezdxf (Debian: python3-ezdxf), rsvg-convert (librsvg2-bin), pdfinfo (poppler-utils).
 */
const jobWith = (files: string) =>
  readText(`title: Specimen cabinet
units: mm
shop:
  bits: { straight-8: { kind: straight, diameter: 8, height: 25 } }
  bushings: { eleven: { outside: 11, bore: 10 } }
  plate: { material: birch plywood, thickness: 9 }
  printer: { paper: a5 }
  files: ${files}
joints:
  slides:
    kind: box
    width: 500
    boards: { one: { thickness: 12 }, two: { thickness: 12 } }
    layout: { fingers: 21 }
    cutter: straight-8
    bushing: eleven
`);

async function made(files: string, as: 'svg' | 'dxf' | 'pdf'): Promise<readonly MadeFile[]> {
  const job = jobWith(files);
  const all = await makeFiles(job, solveJob(job), { only: ['finger', 'pattern'], as: [as] });
  return all.filter(({ path }) => path.endsWith(`.${as}`));
}

const first = async (files: string, as: 'svg' | 'dxf' | 'pdf') => (await made(files, as))[0]?.content ?? '';

const releases = { r12: 'AC1009', r2000: 'AC1015', r2007: 'AC1021' } as const;
const kindsOf = {
  polylines: { r12: ['POLYLINE'], others: ['LWPOLYLINE'] },
  'lines-and-arcs': { r12: ['ARC', 'LINE'], others: ['ARC', 'LINE'] },
  flattened: { r12: ['POLYLINE'], others: ['LWPOLYLINE'] },
} as const;

describe('dxf: version and entities', () => {
  const python = firstAtHand(['/usr/bin/python3', 'python3'], '-c', 'import ezdxf');
  const script = `
import sys, io, json, ezdxf
doc = ezdxf.read(io.StringIO(sys.stdin.read()))
bulges = any(v for e in doc.modelspace().query('LWPOLYLINE') for *_, v in e.get_points('xyb'))
bulges = bulges or any(v.dxf.get('bulge', 0) for e in doc.modelspace().query('POLYLINE') for v in e.vertices)
print(json.dumps({'release': doc.dxfversion, 'kinds': sorted({e.dxftype() for e in doc.modelspace()}),
  'bulges': bulges, 'errors': [str(e) for e in doc.audit().errors]}))`;
  const every = Object.keys(releases).flatMap((version) =>
    Object.keys(kindsOf).map((entities) => [version, entities] as const),
  ) as readonly (readonly [keyof typeof releases, keyof typeof kindsOf])[];

  test.each(every)(
    '%s, %s: the joint closes under plates read from such files',
    async (version, entities) => {
      const job = jobWith(`{ dxf: { version: ${version}, entities: ${entities} } }`);
      const [cut] = await testCutJob(job, solveJob(job), { levels: 3 });
      expect(cut?.cut?.worstOverlap).toBeLessThan(0.005);
      expect(hasErrors(cut?.diagnostics ?? [])).toBe(false);
    },
  );

  for (const [version, entities] of every) {
    testWith(
      'python3-ezdxf',
      python,
      `${version}, ${entities}: ezdxf finds what was asked for`,
      async (program) => {
        const dxf = await first(`{ dxf: { version: ${version}, entities: ${entities} } }`, 'dxf');
        const read = JSON.parse(output(program, ['-c', script], `${dxf}`).toString());
        const kinds = kindsOf[entities][version === 'r12' ? 'r12' : 'others'];
        expect(read).toEqual({
          release: releases[version],
          kinds,
          bulges: entities === 'polylines',
          errors: [],
        });
      },
    );
  }

  test('polylines of r2000 when nothing is asked for', async () => {
    const plain = await first('{}', 'dxf');
    expect(plain).toBe(await first('{ dxf: { version: r2000, entities: polylines } }', 'dxf'));
    expect(plain).not.toBe(await first('{ dxf: { version: r2007 } }', 'dxf'));
  });
});

describe('svg: arcs and stroke-width', () => {
  const asked = '{ svg: { arcs: beziers, stroke-width: 0.02 } }';
  const dataOf = (svg: string | Uint8Array) => [...`${svg}`.matchAll(/ d="([^"]*)"/g)].map(([, d = '']) => d);

  test('no arc is left, lines are as wide as asked, and nothing else changes', async () => {
    const [plain, other] = [await first('{}', 'svg'), await first(asked, 'svg')];
    expect(dataOf(plain).join('')).toContain('A');
    expect(dataOf(other).join('')).not.toContain('A');
    expect(dataOf(other).join('')).toContain('C');
    expect(new Set(`${other}`.match(/stroke-width="[^"]*"/g))).toEqual(new Set(['stroke-width="0.02"']));
    const rest = (svg: string | Uint8Array) =>
      `${svg}`.replace(/ d="[^"]*"/g, '').replace(/ stroke-width="[^"]*"/g, '');
    expect(rest(other)).toBe(rest(plain));
  });

  const convert = firstAtHand(['rsvg-convert'], '--version');
  testWith('rsvg-convert', convert, 'librsvg draws both alike', async (program) => {
    const args = ['--format', 'png', '--background-color', 'white', '--zoom', '4'];
    const same = '{ svg: { arcs: beziers } }';
    const [plain, other] = [await first('{}', 'svg'), await first(same, 'svg')].map((svg) =>
      output(program, args, `${svg}`),
    );
    expect(plain?.length).toBeGreaterThan(1000);
    // Compressed pictures of the same lines: a béziers' error of 0.0005 mm is far below a pixel.
    expect(Math.abs((plain?.length ?? 0) - (other?.length ?? 0))).toBeLessThan(0.02 * (plain?.length ?? 0));
  });
});

describe('pdf: overlap', () => {
  const pdfinfo = firstAtHand(['pdfinfo'], '-v');
  testWith('pdfinfo', pdfinfo, 'pages that share more are more', async (program) => {
    const pages = async (files: string) => {
      const pattern = (await made(files, 'pdf')).find(({ path }) => path.includes('pattern-'));
      const bytes = Buffer.from(pattern?.content ?? '');
      return Number(/Pages:\s+(\d+)/.exec(output(program, ['-'], bytes).toString())?.[1]);
    };
    const usual = await pages('{}');
    expect(await pages('{ pdf: { overlap: 10 } }')).toBe(usual);
    expect(await pages('{ pdf: { overlap: 30 } }')).toBeGreaterThan(usual);
  });
});
