import { afterAll, describe, expect, test } from 'vitest';
import { withGroupOf } from '../support/svg-faults.js';
import {
  circleOn,
  type Files,
  type Format,
  filesOf,
  formats,
  jobOf,
  type Kind,
  moved,
  only,
  refusalsOf,
  withEntities,
} from './planted.js';

/**
 * Faults planted into the templates of a folder, each refused with the right file and the right reason: plates that
 * fit each other and aren't this job's, plates of other jobs, files that only one format has wrong.
 */

interface Fault {
  readonly name: string;
  readonly kind: Kind;
  readonly as: readonly Format[];
  readonly change: (files: Files) => Files | Promise<Files>;
  /** Files that are accused, without their extension; nothing else may be. */
  readonly accused: readonly string[];
  readonly codes: readonly string[];
}

const plates: Readonly<Record<Kind, readonly string[]>> = {
  box: ['one', 'two'],
  through: ['tails', 'pins', 'pins-mirrored'],
  together: ['both'],
  apart: ['tails', 'sockets', 'tails-mirrored', 'sockets-mirrored'],
  square: ['tails', 'sockets', 'tails-mirrored', 'sockets-mirrored'],
  edge: ['one', 'two'],
};
/** The plates that have walls across the joint; slots that run out at both faces have none. */
const ending: Partial<Record<Kind, readonly string[]>> = {
  box: [],
  through: ['pins', 'pins-mirrored'],
  square: ['sockets', 'sockets-mirrored'],
};
const template = (board: string) => `finger-template-${board}`;
const kinds: readonly Kind[] = ['box', 'through', 'together', 'apart', 'square', 'edge'];

const every = (move: (v: { x: number; y: number }) => { x: number; y: number }) => (files: Files) =>
  files.map((file) => moved(file, 'CUT', move));
const of = (kind: Kind) => plates[kind].map(template);

/** Faults of every kind of joint in each format. */
const general: readonly Fault[] = kinds.flatMap((kind) =>
  formats.flatMap((format): readonly Fault[] => {
    const [first = '', second = first] = of(kind);
    const about = { kind, as: [format], codes: ['wall-off'] };
    return [
      {
        ...about,
        name: 'all plates moved 4 mm',
        change: every(({ x, y }) => ({ x: x + 4, y })),
        accused: of(kind),
      },
      {
        ...about,
        name: 'all plates stretched by 2 %',
        change: every(({ x, y }) => ({ x: x * 1.02, y })),
        accused: of(kind),
      },
      {
        ...about,
        name: 'all plates 0.2 mm farther from the operator',
        change: every(({ x, y }) => ({ x, y: y + 0.2 })),
        accused: (ending[kind] ?? plates[kind]).map(template),
      },
      {
        ...about,
        name: 'one plate moved 0.1 mm',
        change: only(second, (file) => moved(file, 'CUT', ({ x, y }) => ({ x: x + 0.1, y }))),
        accused: [second],
      },
      {
        ...about,
        name: 'the boards’ ends moved 3 mm with nothing else',
        change: only(first, (file) => moved(file, 'STOCK', ({ x, y }) => ({ x: x + 3, y }))),
        accused: [first],
        codes: ['wall-off'],
      },
      {
        ...about,
        name: 'the outline drawn twice',
        change: only(first, (file) => twice(file)),
        accused: [first],
        codes: ['contour-twice'],
      },
    ];
  }),
);

/** Every contour on CUT once more. */
function twice(file: Files[number]): Files[number] {
  if (file.name.endsWith('.svg')) {
    const text = file.text.replace(/(<g id="CUT">)([\s\S]*?)(<\/g>)/, '$1$2$2$3');
    return { ...file, text };
  }
  const [head = '', body = ''] = file.text.split(/(?<=\n\s*2\r?\nENTITIES\r?\n)/);
  const entities = body.split(/(?=^\s*0\r?\nLWPOLYLINE\r?$)/m);
  const onCut = entities.filter((one) => /^\s*8\r?\nCUT\r?$/m.test(one) && !/ENDSEC/.test(one));
  return { ...file, text: head + onCut.join('') + body };
}

/** Files that another job of the same joint would leave. */
const stale = (
  name: string,
  kind: Kind,
  change: Readonly<Record<string, unknown>>,
  accused: readonly string[] = of(kind),
  codes: readonly string[] = ['wall-off', 'stock-differs'],
): readonly Fault[] =>
  formats.map((format) => ({
    name,
    kind,
    as: [format],
    change: () => filesOf(jobOf(kind, change), [format]),
    accused,
    codes,
  }));

const lopsided = [9, 20, 14, 26, 13, 14, 8];
const line = (d: string) => ({ line: { d, unit: 'mm' } });

const others: readonly Fault[] = [
  ...stale('another list of fingers', 'box', {
    layout: { spacing: 'list', spans: [12, 14, 12, 13, 16, 12, 16] },
  }),
  ...stale('a thinner board', 'box', { boards: { one: { thickness: 9.5 }, two: { thickness: 12 } } }, [
    template('one'),
  ]),
  ...stale('the other board starts', 'box', { start: 'two' }),
  ...stale('tails 1 mm along', 'through', {
    layout: { spacing: 'list', spans: [10, 18, 15, 24, 16, 13, 8] },
  }),
  ...stale('thinner pins', 'through', { boards: { tails: { thickness: 12 }, pins: { thickness: 9.8 } } }, [
    template('pins'),
    template('pins-mirrored'),
  ]),
  ...stale('the row from the other edge', 'apart', {
    layout: { spacing: 'list', spans: [...lopsided].reverse() },
  }),
  ...stale('another number of tails', 'together', { layout: { tails: 3 } }),
  ...stale('a thicker side', 'square', { boards: { tails: { thickness: 12.5 }, pins: { thickness: 18 } } }),
  ...stale('a line of another height', 'edge', line('M 0 0 C 20 0 25 -8 40 -8 S 70 7 90 7 S 110 0 125 0')),
  ...stale('a lead of 2 mm', 'edge', {
    line: { ...line('M 0 0 C 20 0 25 -8 40 -8 S 70 6 90 6 S 110 0 125 0').line, lead: 2 },
  }),
  ...formats.flatMap((format): readonly Fault[] =>
    (['box', 'edge'] as const).map((kind) => ({
      name: 'the two boards’ plates exchanged',
      kind,
      as: [format],
      change: (files) => exchanged(files, template('one'), template('two')),
      accused: of(kind),
      codes: ['wall-off', 'stock-differs'],
    })),
  ),
  ...formats.flatMap((format): readonly Fault[] =>
    (['through', 'apart', 'square'] as const).flatMap((kind): readonly Fault[] => {
      const mirrored =
        of(kind)
          .filter((name) => name.endsWith('-mirrored'))
          .at(-1) ?? '';
      const about = { kind, as: [format], accused: [mirrored] };
      return [
        {
          ...about,
          name: 'no plate for the second end',
          change: (files) => files.filter(({ name }) => !name.startsWith(mirrored)),
          codes: ['template-missing'],
        },
        {
          ...about,
          name: 'the plate for the second end isn’t mirrored',
          change: (files) =>
            only(mirrored, (file) => ({ ...file, text: textOf(files, file.name.replace('-mirrored', '')) }))(
              files,
            ),
          codes: ['wall-off'],
        },
        {
          ...about,
          name: 'the plate for the second end moved 0.3 mm',
          change: only(mirrored, (file) => moved(file, 'CUT', ({ x, y }) => ({ x: x + 0.3, y }))),
          codes: ['wall-off'],
        },
      ];
    }),
  ),
  ...kinds.flatMap((kind): readonly Fault[] => {
    const [first = ''] = of(kind);
    const about = { kind, as: ['dxf', 'svg'] as const, accused: [first] };
    const inSvg = (change: (text: string) => string) => (files: Files) =>
      files.map((file) => (file.name === `${first}.svg` ? { ...file, text: change(file.text) } : file));
    return [
      {
        ...about,
        name: 'garbage beside a good DXF',
        change: inSvg(() => 'nonsense'),
        codes: ['drawing-unreadable'],
      },
      {
        ...about,
        name: 'an SVG moved 1 mm beside a good DXF',
        change: (files) =>
          files.map((file) =>
            file.name === `${first}.svg` ? moved(file, 'CUT', ({ x, y }) => ({ x: x + 1, y })) : file,
          ),
        codes: ['wall-off'],
      },
    ];
  }),
];

const spline = (layer: string) => ['SPLINE', [8, layer], [70, 8], [71, 3], [10, 0], [20, 0]] as const;
const ellipse = (layer: string) =>
  ['ELLIPSE', [8, layer], [10, 30], [20, -2], [11, 4], [21, 0], [40, 0.5], [41, 0], [42, 6.283]] as const;

/** What a machine would cut and the reader doesn't understand, or finds where nothing is meant to be. */
const inDxf: readonly (readonly [name: string, change: (dxf: string) => string])[] = [
  ['a spline on CUT', withEntities(spline('CUT'))],
  ['a spline on SCORE', withEntities(spline('SCORE'))],
  ['a spline on a layer of its own', withEntities(spline('CUT2'))],
  ['an ellipse on CUT', withEntities(ellipse('CUT'))],
  ['an ellipse on layer 0', withEntities(ellipse('0'))],
  ['a hatch on CUT', withEntities(['HATCH', [8, 'CUT'], [2, 'SOLID'], [70, 1]])],
  [
    'a filled triangle on CUT',
    withEntities(['SOLID', [8, 'CUT'], [10, 0], [20, 0], [11, 5], [21, 0], [12, 5], [22, 5]]),
  ],
  ['words on CUT', withEntities(['TEXT', [8, 'CUT'], [10, 0], [20, 0], [40, 3], [1, 'tails']])],
  ['a circle on layer 0', withEntities(circleOn('0'))],
  ['a circle on a layer of its own', withEntities(circleOn('HOLES'))],
  ['a block that isn’t there', withEntities(['INSERT', [8, 'CUT'], [2, 'plate'], [10, 0], [20, 0]])],
  [
    'contours that are seen from below',
    (dxf) => dxf.replace(/(\n8\r?\nCUT\r?\n)/, (group) => `${group}230\n-1\n`),
  ],
  ['no units', (dxf) => dxf.replace('$INSUNITS', '$INSUNITZ')],
];
const inCut = (markup: string) => (svg: string) => withGroupOf(svg, 'CUT', (group) => `${group}${markup}`);
const inSvg: readonly (readonly [name: string, change: (svg: string) => string])[] = [
  ['a rectangle', inCut('<rect x="20" y="0" width="9" height="9"/>')],
  ['a circle', inCut('<circle cx="20" cy="0" r="9"/>')],
  ['an ellipse', inCut('<ellipse cx="20" cy="0" rx="9" ry="5"/>')],
  ['a polygon', inCut('<polygon points="0,0 9,0 9,9"/>')],
  ['a polyline', inCut('<polyline points="0,0 9,0 9,9"/>')],
  ['a line', inCut('<line x1="0" y1="0" x2="9" y2="9"/>')],
  ['a copy', inCut('<use href="#hole"/>')],
  ['words', inCut('<text x="0" y="0">tails</text>')],
  ['a picture', inCut('<image href="plate.png"/>')],
  ['a path of no layer', (svg) => svg.replace('</svg>', '<path d="M0 0L9 0L9 9Z"/></svg>')],
  [
    'a path on another layer',
    (svg) => svg.replace('</svg>', '<g id="HOLES"><path d="M0 0L9 0L9 9Z"/></g></svg>'),
  ],
  ['a hidden path', inCut('<path style="display:none" d="M0 0L9 0L9 9Z"/>')],
  [
    'a transform in style',
    (svg) => svg.replace('<g id="CUT">', '<g id="CUT" style="transform: translate(4px, 0)">'),
  ],
  ['a transform that moves', (svg) => svg.replace('<g id="CUT">', '<g id="CUT" transform="translate(4 0)">')],
  [
    'a transform that turns over',
    (svg) => svg.replace('<g id="CUT">', '<g id="CUT" transform="scale(-1 1)">'),
  ],
  [
    'a transform that can’t be read',
    (svg) => svg.replace('<g id="CUT">', '<g id="CUT" transform="turn(4)">'),
  ],
  ['no size', (svg) => svg.replace(/ width="[^"]*mm"/, '')],
];
const unread: readonly Fault[] = [
  ...inDxf.map((row) => [...row, 'dxf'] as const),
  ...inSvg.map((row) => [...row, 'svg'] as const),
].flatMap(([name, change, format], i): readonly Fault[] => {
  const kind = kinds[i % kinds.length] ?? 'box';
  const accused = of(kind).at(-1) ?? '';
  return [
    {
      name,
      kind,
      as: [format],
      change: only(accused, (file) => ({ ...file, text: change(file.text) })),
      accused: [accused],
      codes: ['drawing-unread', 'drawing-units', 'wall-off'],
    },
  ];
});

function exchanged(files: Files, one: string, two: string): Files {
  const other = (name: string) => (name.startsWith(one) ? name.replace(one, two) : name.replace(two, one));
  return files.map((file) => ({ ...file, text: textOf(files, other(file.name)) }));
}

const textOf = (files: Files, name: string): string => files.find((file) => file.name === name)?.text ?? '';

const faults: readonly Fault[] = [...general, ...others, ...unread].filter(
  ({ accused }) => accused.length > 0,
);

describe('a planted fault', () => {
  const rows: string[] = [];
  afterAll(() => console.log(`${faults.length} planted faults\n${rows.join('\n')}`));

  test.each(faults)('$name ($kind, $as) is refused, with the right file', async (fault) => {
    const { name, kind, as, change, accused, codes } = fault;
    const job = jobOf(kind);
    const sound = await filesOf(job, as);
    const planted = await change(sound);
    expect(planted).not.toEqual(sound);
    const refusals = await refusalsOf(job, planted);
    rows.push(`${name} | ${kind} ${as} | ${refusals.map(({ code, at }) => `${code} ${at}`).join(', ')}`);
    const named = refusals.map(({ at, code, data }) =>
      code === 'template-missing' && 'template' in data ? data.template : at.replace(/\.\w+$/, ''),
    );
    expect([...new Set(named)].sort()).toEqual([...accused].sort());
    for (const { code } of refusals) expect(codes).toContain(code);
  });

  test('isn’t there in any folder as it is written', async () => {
    for (const kind of kinds) {
      const job = jobOf(kind);
      expect(await refusalsOf(job, await filesOf(job, formats)), kind).toEqual([]);
    }
  });

  test('comes in eighty kinds and more', () => {
    expect(faults.length).toBeGreaterThanOrEqual(80);
  });
});
