import { boardName } from '../diagnostics/board-names.js';
import type { Formatter } from '../diagnostics/formatter.js';
import type { Drawing } from '../drawing/model.js';
import { escaped } from '../drawing/xml.js';
import type { Job } from '../input/types.js';
import type { Cut } from '../joints/family.js';
import { passDepths } from '../joints/measure.js';
import { bitExtension } from '../joints/tools.js';
import { numbersOf } from './cards.js';
import { type CutPart, cutListOf, stockTotals } from './cut-list.js';
import { cutTables } from './cut-tables.js';
import type { Setting, SheetDocument } from './document.js';
import { htmlPage, inlined, type PictureOf, tableHtml } from './html.js';
import type { MadeJoint, PieceJoints } from './input.js';
import { closedFigure } from './joint-figures.js';
import { fittedFigure } from './page-pieces.js';
import { toolOrder } from './tool-order.js';

/** What the bench card of a whole job is made from. */
export interface JobInput {
  readonly job: Job;
  readonly joints: readonly MadeJoint[];
  readonly pieces: readonly PieceJoints[];
  readonly fmt: Formatter;
}

/** What the page of a whole job is made from. */
export interface IndexInput extends JobInput {
  /** Files of each joint by its name, as paths below the output folder. */
  readonly files: Readonly<Record<string, readonly string[]>>;
}

/** One page for a job of several joints: a picture of each with its files, one cut list, one order of tools. */
export function indexPage(input: IndexInput, pictureOf: PictureOf): string {
  const { job, joints } = input;
  return htmlPage(job.title, [
    `<h1>${escaped(job.title)}</h1>`,
    `<p class="sub">${joints.length} joints. The maker's manual of each machine and local rules come first.</p>`,
    '<h2>Joints</h2>',
    '<div class="row">',
    ...joints.map((one) => jointCard(one, input, pictureOf)),
    '</div>',
    ...cutList(input),
    ...tools(input),
  ]);
}

/** Size of a joint's picture, mm. */
const PICTURE = { width: 84, height: 60 } as const;

function jointCard({ joint, solved }: MadeJoint, { fmt, files }: IndexInput, pictureOf: PictureOf): string {
  const figure = { ...closedFigure(solved), share: 1, room: PICTURE.height };
  const { items } = fittedFigure(figure, PICTURE.width, PICTURE.height);
  const drawing: Drawing = { title: joint.name, notes: [figure.words], items };
  const [first, ...rest] = [...(files[joint.name] ?? [])].toSorted(
    (a, b) => Number(!a.endsWith('set-up.html')) - Number(!b.endsWith('set-up.html')),
  );
  const link = (path: string) =>
    `<a href="${escaped(addressOf(path))}">${escaped(path.split('/').at(-1) ?? path)}</a>`;
  const lined = joint.align === undefined ? '' : `, lined up with ${joint.align}`;
  return [
    `<figure id="${escaped(joint.name)}">`,
    `<figcaption>${escaped(joint.name)}: ${escaped(`${joint.kind.replaceAll('-', ' ')}, ${fmt.length(solved.width)} wide${lined}`)}</figcaption>`,
    inlined(pictureOf(drawing), `${joint.name}: ${figure.words}`),
    `<p>${[...(first === undefined ? [] : [`<strong>${link(first)}</strong>`]), ...rest.map(link)].join(', ')}</p>`,
    '</figure>',
  ].join('\n');
}

/** A path as an address: letters of any script and spaces are written as percent signs. */
function addressOf(path: string): string {
  return path.split('/').map(encodeURIComponent).join('/');
}

function cutList({ pieces, fmt }: IndexInput): readonly string[] {
  const parts = partsByStock(pieces);
  if (parts.length === 0) return [];
  const rows = parts.map((part) =>
    [
      part.material ?? '',
      fmt.length(part.thickness),
      fmt.length(part.width),
      fmt.length(part.length),
      part.spare > 0 ? `${part.count} and ${part.spare} spare` : `${part.count}`,
      `${part.piece}: ${part.part} ${part.letters}`.trim(),
      part.because,
    ].map(escaped),
  );
  return [
    '<h2>Cut list, by wood and thickness</h2>',
    tableHtml(['Wood', 'Thick', 'Wide', 'Long', 'Make', 'Part and letters', 'Length is'], rows),
  ];
}

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

function tools(input: IndexInput): readonly string[] {
  const settings = toolSettings(input);
  const [first] = settings;
  if (!first) return [];
  const rows = settings.map(({ numbers, cuts }, i) => [
    `${i + 1}`,
    ...numbers.map(({ value, detail = '' }) => `${escaped(value)}<br><small>${escaped(detail)}</small>`),
    escaped(cuts.join(', ')),
  ]);
  return [
    '<h2>Tools, in the order that changes bit and bushing least</h2>',
    tableHtml(['', 'Bit', 'Bushing', 'Bit below base', 'Depth', 'Passes', 'Cuts'], rows),
  ];
}

/** Every setting of the router for a whole job, in the order that changes bit and bushing least. */
function toolSettings({
  joints,
  job,
  fmt,
}: JobInput): readonly (Setting & Required<Pick<Setting, 'cuts'>>)[] {
  return toolOrder(joints, job.shop).flatMap(({ cuts }) => {
    const [first] = cuts;
    const made = joints.find(({ joint }) => joint.name === first?.joint);
    const cut = made?.solved.cuts.find(({ board }) => board === first?.board);
    if (!cut) return [];
    const words = cuts.map(({ joint, board }) => `${joint} (${boardName(board)})`);
    return [{ numbers: numbersOf(settingOf(job, cut), fmt, job.units), cards: [], cuts: words }];
  });
}

/** What is set for a cut. */
const settingOf = ({ shop }: Job, cut: Cut) => ({
  ...cut,
  extension: bitExtension(shop, cut.depth),
  passes: passDepths(cut),
});

/** The same on paper: a page for the bench with tools, extensions and order, and the cut list with the stock that it takes. */
export function indexDocument(input: JobInput): SheetDocument {
  const { job, joints, pieces, fmt } = input;
  const parts = partsByStock(pieces);
  const settings = toolSettings(input);
  const sanding = pieces.map(({ piece }) => piece.sanding ?? 0);
  return {
    title: job.title,
    subtitle: `Bench card for ${joints.length} joints, in the order that changes bit and bushing least`,
    blocks: [
      ...(settings.length > 0 ? [{ kind: 'bench', settings, trial: [] } as const] : []),
      ...(parts.length > 0
        ? [
            { kind: 'heading', text: 'Cut list, by wood and thickness' } as const,
            ...cutTables(parts, stockTotals(parts), sanding, { fmt: fmt.length, units: job.units }),
          ]
        : []),
    ],
  };
}

const partsByStock = (pieces: readonly PieceJoints[]): readonly CutPart[] =>
  pieces
    .flatMap((piece) => cutListOf(piece))
    .toSorted(
      (a, b) => compare(a.material ?? '', b.material ?? '') || b.thickness - a.thickness || b.width - a.width,
    );
