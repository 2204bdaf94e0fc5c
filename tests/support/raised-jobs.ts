import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { familyOf } from '../../src/joints/list.js';
import { type Bump, bumpyLine } from './edge-lines.js';
import { root } from './jobs.js';
import { box, longJob, through } from './long-plates.js';
import { madeOn, routerTable } from './machines.js';
import { drawer } from './troubled-jobs.js';

/** Jobs in files of their own, each with the code that it raises; by its code a row says what it is there for. */
export interface RaisedJob {
  readonly code: string;
  readonly text: string;
  /** Files that the job names. */
  readonly files?: Readonly<Record<string, string>>;
}

const starter = familyOf('through-dovetail')?.starter ?? '';
const boxStarter = familyOf('box')?.starter ?? '';
const starterWith = (layout: string) => starter.replace(/layout: {.*}/, layout);
const withTemplate = (template: string) =>
  starter.replace('tails: 3 }', `tails: 3 }\n    template: ${template}`);
const edge = readFileSync(join(root, 'samples/edge-drawer-edging.yaml'), 'utf8');
const shop = { 'shop.yaml': readFileSync(join(root, 'samples/shop.yaml'), 'utf8') };

const line = (text: string, bushing = 'seven-sixteenths') =>
  edge
    .replace(/line: .*\n.*repeat.*/, `line: ${text}`)
    .replace('bushing: seven-sixteenths', `bushing: ${bushing}`);
const drawn = (code: string, d: string, bushing?: string): RaisedJob => ({
  code,
  text: line(`{ d: "${d}", unit: mm }`, bushing),
  files: shop,
});

/** A peg or a hole like an omega, its neck so wide, mm: circles that go over into one another. */
function omega(neck: number): string {
  const [shoulder, bulb, x] = [10, 15, 100];
  const aside = shoulder + neck / 2;
  const part = shoulder / (shoulder + bulb);
  const meet = { x: aside * (1 - part), y: shoulder + part * Math.sqrt((shoulder + bulb) ** 2 - aside ** 2) };
  return [
    `M 0 0 H ${x - aside}`,
    `A ${shoulder} ${shoulder} 0 0 1 ${x - meet.x} ${meet.y}`,
    `A ${bulb} ${bulb} 0 1 0 ${x + meet.x} ${meet.y}`,
    `A ${shoulder} ${shoulder} 0 0 1 ${x + aside} 0 H 420`,
  ].join(' ');
}

const bump = (ground: number): Bump => ({
  slope: 0.2,
  up: true,
  ground,
  flank: 4,
  top: 100,
  rounds: ['arc', 'arc', 'arc', 'arc'],
});
const bumps = (radius: number) => `${bumpyLine([bump(100)], radius, false).d} H 420`;

/** A drawing with this in it, and the job that takes its line from it. */
const svg = (
  code: string,
  content: string,
  id?: string,
  size = 'width="420mm" height="20mm"',
): RaisedJob => ({
  code,
  text: line(`{ svg: line.svg${id === undefined ? '' : `, id: ${id}`} }`),
  files: {
    ...shop,
    'line.svg': `<svg xmlns="http://www.w3.org/2000/svg" ${size} viewBox="0 0 420 20">${content}</svg>`,
  },
});
const wave = (more = '') => `<path ${more} d="M 0 10 H 420"/>`;

/** Drawers one over the other, each lined up with the one that is named. */
const drawers = (...aligned: readonly (readonly [width: string, align?: string])[]) => `
units: in
shop: ./shop.yaml
joints:
${aligned
  .map(
    ([width, align], i) => `  drawer-${i + 1}:
    kind: half-blind-dovetail
    width: ${width}
    boards: { tails: { thickness: 1/2 }, pins: { thickness: 3/4 } }
    method: apart
    ${align === undefined ? 'layout: { pitch: 1, pin: 5/8, end-pin: 7/16 }' : `align: ${align}`}
    depth: 1/2
    cutter: half-8
    bushing: seven-sixteenths
`,
  )
  .join('')}`;
const boxes = `
units: mm
shop: ./shop.yaml
joints:
  one: { kind: box, width: 90, boards: { one: { thickness: 12 }, two: { thickness: 12 } }, cutter: straight-12, bushing: five-eighths }
  two: { kind: box, width: 90, boards: { one: { thickness: 12 }, two: { thickness: 12 } }, cutter: straight-12, bushing: five-eighths, align: one }
`;
const inShop = (code: string, text: string): RaisedJob => ({ code, text, files: shop });
const plain = (code: string, text: string): RaisedJob => ({ code, text });

export const raisedJobs: readonly RaisedJob[] = [
  // Lines along a board.
  inShop(
    'line-many',
    line(`{ d: "M 0 0 h 1 ${'l 1 0.2 l 1 -0.2 '.repeat(5)} h 1", unit: mm }\n    repeat: { count: 1000 }`),
  ),
  drawn('line-steep', 'M 0 0 L 10 100 H 420'),
  drawn('bend-nearly-tight', bumps(4.65)),
  drawn('gap-narrow', omega(6)),
  drawn('neck-thin', omega(6), 'five-eighths'),
  drawn('bump-tight', bumps(2), 'five-eighths'),
  drawn('plate-thin', omega(8), 'five-eighths'),
  {
    code: 'board-short',
    text: edge.replace('one: { thickness: 5/8,', 'one: { thickness: 5/8, length: 1/16,'),
    files: {
      ...shop,
      'edge-shell-edging.svg': readFileSync(join(root, 'samples/edge-shell-edging.svg'), 'utf8'),
    },
  },
  svg('svg-no-line', '<rect width="3" height="4"/>'),
  svg('svg-id-twice', `${wave('id="a"')}${wave('id="a"')}`, 'a'),
  svg('svg-id-no-line', `<g id="a">${wave()}</g>`, 'a'),
  svg('svg-transform-unread', wave('transform="matrix(1 2)"')),
  svg('svg-transform-flat', wave('transform="scale(1 0)"')),
  svg('svg-unsized', wave(), undefined, ''),

  // Half-blind joints.
  plain('half-pin-over-half-pitch', drawer('width: 4\n    layout: { tails: 2, pitch: 1.3 }')),
  plain('rabbet-through', drawer('width: 4\n    lip: { end: 3/8, lower: 1/4, upper: 1/4, rabbet: 7/8 }')),
  plain('lip-set-up', drawer('width: 4\n    lip: { end: 3/8, lower: 1/4, upper: 1/4, rabbet: 5/8 }')),

  // Layouts that are worked out.
  plain('tails-held', drawer('width: 2-3/4\n    layout: { spacing: graduated }')),
  plain('layout-fitted', drawer('width: 1-1/2\n    layout: { pin: 1/2 }', '1/2', '3/4', 'half-14', 'half')),

  plain('pitch-under-bit', drawer('width: 5\n    depth: 3/8\n    layout: { pitch: 0.78 }')),
  plain('pitch-leaves-pin', starterWith('layout: { pitch: 1, end-pin: 1/8 }')),
  plain(
    'field-without-effect',
    starterWith('layout: { spacing: list, spans: [1/2, 1, 1/2, 1, 1/2], pin: 1/2 }'),
  ),
  plain(
    'groove-across-fingers',
    boxStarter.replace(
      /layout: .*/,
      'layout: { spacing: even, finger: 3/8, groove: { from: 0.3, width: 1/4 } }',
    ),
  ),
  plain(
    'bit-short',
    starter
      .replace('pins:  { thickness: 1/2 }', 'pins:  { thickness: 5/8 }')
      .replace('tails: half-8', 'tails: half-14'),
  ),
  plain('shank-in-bore', starter.replace('bore: 3/8', 'bore: 15/64')),
  plain('rabbet-shallow', drawer('width: 4\n    lip: { end: 3/8, lower: 1/4, upper: 1/4, rabbet: 1/8 }')),

  // Joints that line up.
  inShop('align-done', drawers(['2-1/4'], ['3-1/4', 'drawer-1'])),
  inShop('align-off', drawers(['2-1/4'], ['3', 'drawer-1'])),
  inShop('align-chain', drawers(['2-1/4'], ['3-1/4', 'drawer-1'], ['3-1/4', 'drawer-2'])),
  inShop('align-kind', boxes),

  plain(
    'piece-size-missing',
    `${starter}\npieces:\n  tray: { kind: box, outside: { width: 5, height: 3-1/2 }, corners: corner }\n`,
  ),

  // Plates.
  plain('plate-in-bed-parts', longJob(box(300, 20), [250, 200])),
  plain('bushing-would-do', starter.replace('tails: 3 }', 'tails: 2 }\n    template: { nose: 1-1/2 }')),
  plain('spine-thin', withTemplate('{ spine: 1/4 }')),
  plain(
    'one-plate-over-sheet',
    withTemplate('{ plate: one }').replace('least-finger: 3/16', 'least-finger: 3/16, sheet: [9, 6]'),
  ),
  plain('one-plate-no-pair', drawer('width: 5\n    template: { plate: one }')),
  plain('every-second-not-here', drawer('width: 5\n    template: { slots: every-second }')),
  plain(
    'every-second-uneven',
    withTemplate('{ slots: every-second }').replace(
      'spacing: even, tails: 3',
      'spacing: varied, seed: 3, tails: 3',
    ),
  ),
  plain('label-no-room', drawer('width: 5\n    template: { spine: 1 }')),
  plain(
    'holes-for-mill',
    madeOn(routerTable(6), longJob(through(100, { spacing: 'even', tails: 3 }), [600, 400])),
  ),
];
