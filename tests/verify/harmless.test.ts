import { describe, expect, test } from 'vitest';
import { withGroupOf } from '../support/svg-faults.js';
import {
  circleOn,
  type Files,
  type Format,
  filesOf,
  jobOf,
  type Kind,
  moved,
  refusalsOf,
  withEntities,
} from './planted.js';

/** Changes of files that change nothing of the plate: each is accepted. */

type Change = readonly [name: string, format: Format, change: (text: string) => string];

const svg = (name: string, change: (text: string) => string): Change => [name, 'svg', change];
const dxf = (name: string, change: (text: string) => string): Change => [name, 'dxf', change];
const onCut = (attributes: string) => (text: string) =>
  text.replace('<g id="CUT">', `<g id="CUT" ${attributes}>`);
/** The group's own markup inside of other groups. */
const inside = (open: string, close: string) => (text: string) =>
  withGroupOf(text, 'CUT', (group) => `${open}${group}${close}`);
const around = (open: string, close: string) => (text: string) =>
  text.replace(
    /(<svg[^>]*>)([\s\S]*)(<\/svg>)/,
    (_, head, body, end) => `${head}${open}${body}${close}${end}`,
  );

/** The entities of model space in a block that is inserted once. */
const asBlock =
  (insert: readonly (readonly [number, string | number])[], base: readonly [number, number] = [0, 0]) =>
  (text: string): string => {
    const [, head = '', body = '', tail = ''] =
      /^([\s\S]*?\n\s*2\r?\nENTITIES\r?\n)([\s\S]*?)(\s*0\r?\nENDSEC[\s\S]*)$/.exec(text) ?? [];
    const groups = (all: readonly (readonly [number, string | number])[]) =>
      all.map(([code, value]) => `${code}\n${value}\n`).join('');
    const block =
      groups([
        [0, 'BLOCK'],
        [8, '0'],
        [2, 'plate'],
        [70, 0],
        [10, base[0]],
        [20, base[1]],
        [30, 0],
        [3, 'plate'],
      ]) +
      `${body.replace(/\s*$/, '\n')}${groups([
        [0, 'ENDBLK'],
        [8, '0'],
      ])}`;
    const place = groups([[0, 'INSERT'], [8, '0'], [2, 'plate'], ...insert]);
    const withBlock = head.replace(/(\n\s*2\r?\nBLOCKS\r?\n)/, (found) => found + block);
    return withBlock + place + tail.replace(/^\s*0/, '0');
  };

/** The file in inches. */
const inInches = (text: string): string => {
  const layers = ['CUT', 'STOCK', 'SCORE'];
  const small = layers.reduce(
    (file, layer) => moved(file, layer, ({ x, y }) => ({ x: x / 25.4, y: y / 25.4 })),
    { name: 'a.dxf', text },
  ).text;
  return small.replace(/(\$INSUNITS\r?\n\s*70\r?\n)\s*4/, '$11');
};

const changes: readonly Change[] = [
  svg('a transform that changes nothing', onCut('transform="translate(0 0)"')),
  svg('an identity matrix', onCut('transform="matrix(1 0 0 1 0 0)"')),
  svg(
    'two transforms that undo each other',
    inside('<g transform="translate(7 -3)"><g transform="translate(-7 3)">', '</g></g>'),
  ),
  svg('a turn and back', onCut('transform="rotate(30 5 6) rotate(-30 5 6)"')),
  svg(
    'a turn by matrix and back',
    inside('<g transform="matrix(0 1 -1 0 0 0)"><g transform="rotate(-90)">', '</g></g>'),
  ),
  svg('twice as large and half', inside('<g transform="scale(2)"><g transform="scale(0.5)">', '</g></g>')),
  svg('turned over and back', onCut('transform="scale(-1 1) scale(-1 1)"')),
  svg('a slant and back', onCut('transform="skewX(10) skewX(-10)"')),
  svg('a group in the layer', inside('<g id="g1234">', '</g>')),
  svg('three groups in the layer', inside('<g id="a"><g class="b"><g>', '</g></g></g>')),
  svg('a group around everything', around('<g id="layer1">', '</g>')),
  svg('a layer by its label', (text) =>
    text.replace('<g id="CUT">', '<g id="layer3" inkscape:label="CUT" inkscape:groupmode="layer">'),
  ),
  svg('a layer in small letters', (text) => text.replace('<g id="CUT">', '<g id="cut">')),
  svg('a prefix', (text) =>
    text.replace('xmlns=', 'xmlns:svg=').replace(/<(\/?)(svg|g|path|title|desc)\b/g, '<$1svg:$2'),
  ),
  svg('another attribute', onCut('fill="none" stroke-linejoin="round"')),
  svg('a style without a transform', onCut('style="fill:none;stroke:#f00"')),
  svg('definitions', (text) =>
    text.replace('<g id="CUT">', '<defs><rect width="3" height="3"/></defs><g id="CUT">'),
  ),
  svg('metadata', (text) => text.replace('<g id="CUT">', '<metadata><rdf:RDF/></metadata><g id="CUT">')),
  svg('a view of the editor', (text) =>
    text.replace('<g id="CUT">', '<sodipodi:namedview id="base"/><g id="CUT">'),
  ),
  svg('a remark', (text) => text.replace('<g id="CUT">', '<!-- <rect/> --><g id="CUT">')),
  svg('words to read', (text) =>
    text.replace('</svg>', '<g id="REF"><text x="1" y="1">old</text></g></svg>'),
  ),
  svg('a shape to read', (text) => text.replace('</svg>', '<g id="REF"><circle r="4"/></g></svg>')),
  svg('words on no layer', (text) => text.replace('</svg>', '<text x="1" y="1">old</text></svg>')),
  svg('a hidden drawing elsewhere', (text) => text.replace('</svg>', '<g display="none"><rect/></g></svg>')),
  svg('lines that end in CR LF', (text) => text.replace(/\n/g, '\r\n')),
  svg('a size in inches', (text) =>
    text.replace(/(width|height)="([\d.]+)mm"/g, (_, key, size) => `${key}="${Number(size) / 25.4}in"`),
  ),
  dxf('lines that end in CR LF', (text) => text.replace(/\r?\n/g, '\r\n')),
  dxf('a remark', (text) => `999\nsaved again\n${text}`),
  dxf('words on ENGRAVE', withEntities(['TEXT', [8, 'ENGRAVE'], [10, 0], [20, 0], [40, 3], [1, 'old']])),
  dxf('a circle to read', withEntities(circleOn('REF'))),
  dxf('words on layer 0', withEntities(['MTEXT', [8, '0'], [10, 0], [20, 0], [40, 3], [1, 'old']])),
  dxf('a point that CAD keeps', withEntities(['POINT', [8, 'DEFPOINTS'], [10, 0], [20, 0]])),
  dxf('a spline on paper', withEntities(['SPLINE', [67, 1], [8, 'CUT'], [70, 8], [71, 3]])),
  dxf('a frame on paper', withEntities(['LINE', [67, 1], [8, 'CUT'], [10, 0], [20, 0], [11, 9], [21, 9]])),
  dxf('seen from above', (text) =>
    text.replace(/(\n8\r?\nCUT\r?\n)/, (group) => `${group}210\n0\n220\n0\n230\n1\n`),
  ),
  dxf(
    'a block that is inserted once',
    asBlock([
      [10, 0],
      [20, 0],
    ]),
  ),
  dxf(
    'a block with a base point',
    asBlock(
      [
        [10, 12],
        [20, -7],
      ],
      [12, -7],
    ),
  ),
  dxf('a block that is never inserted', (text) =>
    text.replace(
      /(\n\s*2\r?\nBLOCKS\r?\n)/,
      '$10\nBLOCK\n8\n0\n2\nspare\n70\n0\n10\n0\n20\n0\n0\nSPLINE\n8\nCUT\n0\nENDBLK\n8\n0\n',
    ),
  ),
  dxf('inches', inInches),
];

const kinds: readonly Kind[] = ['box', 'through', 'apart', 'edge', 'together', 'square'];

describe('a harmless change is accepted', () => {
  test.each(
    changes.map(([name, format, change], i) => ({
      name,
      format,
      change,
      kind: kinds[i % kinds.length] ?? 'box',
    })),
  )('$name ($format, $kind)', async ({ format, change, kind }) => {
    const job = jobOf(kind);
    const sound = await filesOf(job, [format]);
    const files = sound.map((file) => ({ ...file, text: change(file.text) }));
    for (const [i, { text }] of files.entries()) expect(text).not.toBe(sound[i]?.text);
    expect(await refusalsOf(job, files)).toEqual([]);
  });

  /** The whole drawing moved, and turned about a point, degrees. */
  const laid = (degrees: number, dx: number, dy: number) => (file: Files[number]) => {
    const [cos, sin] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
    return ['CUT', 'STOCK', 'SCORE'].reduce(
      (one, layer) =>
        moved(one, layer, ({ x, y }) => ({ x: dx + cos * x - sin * y, y: dy + sin * x + cos * y })),
      file,
    );
  };
  test.each(
    kinds.flatMap((kind) =>
      [
        [0, 4, 0],
        [0, 250, 130],
        [90, 10, 10],
        [180, 0, 0],
        [31, -40, 7],
      ].map(
        ([degrees = 0, dx = 0, dy = 0], i) =>
          ({ kind, degrees, dx, dy, format: i % 2 === 0 ? 'dxf' : 'svg' }) as const,
      ),
    ),
  )('a plate moved by $dx, $dy and turned by $degrees° on its sheet ($kind, $format)', async (row) => {
    const job = jobOf(row.kind);
    const files = (await filesOf(job, [row.format])).map(laid(row.degrees, row.dx, row.dy));
    expect(await refusalsOf(job, files)).toEqual([]);
  });

  const folders: readonly (readonly [string, (files: Files) => Files])[] = [
    [
      'one template as SVG and the others as DXF',
      (files) =>
        files.filter(
          ({ name }) => name.endsWith('-one.svg') || (name.endsWith('.dxf') && !name.includes('-one')),
        ),
    ],
    ['files of no template beside them', (files) => [...files, { name: 'marker.svg', text: 'words' }]],
    ['files in another order', (files) => [...files].reverse()],
  ];
  test.each(folders)('%s', async (_, change) => {
    const job = jobOf('box');
    expect(await refusalsOf(job, change(await filesOf(job, ['dxf', 'svg'])))).toEqual([]);
  });

  test.each([
    { dxf: { version: 'r12' } },
    { dxf: { version: 'r2007' } },
    { dxf: { entities: 'lines-and-arcs' } },
    { dxf: { version: 'r12', entities: 'flattened' } },
    { svg: { arcs: 'beziers' } },
  ])('files written as the shop asks: %j', async (files) => {
    const job = jobOf('apart', {}, { files });
    expect(await refusalsOf(job, await filesOf(job, ['dxf', 'svg']))).toEqual([]);
  });

  test('comes in thirty kinds and more', () => {
    expect(changes.length).toBeGreaterThanOrEqual(30);
  });
});
