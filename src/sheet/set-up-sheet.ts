import { cautions, publishedSources } from '../../shared/cautions.js';
import { sentence } from '../diagnostics/catalogue.js';
import { boardOf, wordsOf } from '../joints/boards.js';
import type { JointBoard } from '../joints/contract.js';
import { bitExtension } from '../joints/tools.js';
import { benchOf } from './bench.js';
import { boardFigures, standTable } from './board-blocks.js';
import { cornerFigure, cornerTable } from './corners.js';
import { correctionTable } from './corrections.js';
import { type CutPart, cutListOf } from './cut-list.js';
import type { Block, Figure, SheetDocument, Table } from './document.js';
import type { SheetInput } from './input.js';
import { closedFigure, openedFigure } from './joint-figures.js';
import { capital, wordsText } from './names.js';
import { planFigure } from './plan-figure.js';
import { sectionFigure } from './section-figure.js';
import { sideOf } from './sides.js';
import { standsOf } from './stands.js';
import { grooveCodes, stepsOf } from './steps.js';

/** Everything that a person wants to know beside the router, for one joint. */
export function setUpSheet(input: SheetInput): SheetDocument {
  const { joint, jobTitle, fmt, solved } = input;
  return {
    title: `${jobTitle}: ${joint.name}`,
    subtitle: `Set-up sheet: ${solved.words}, ${fmt.length(solved.width)} along the joint`,
    blocks: [
      ...(solved.cuts.length > 0 ? [settings(input)] : []),
      ...figureBlocks(input),
      ...placeBlocks(input),
      { kind: 'heading', text: 'Steps, in the order of work' },
      { kind: 'steps', steps: stepsOf(input) },
      ...(solved.cuts.length > 0
        ? ([
            { kind: 'heading', text: `If the trial joint does not fit: ${fitWords(input)}` },
            correctionTable(input),
          ] as const)
        : []),
      ...measureBlocks(input),
      ...cutListBlocks(input),
      { kind: 'words', paragraphs: remarks(input) },
    ],
  };
}

/** How each board is held; boards without an end in a corner that are sawn by hand are held as one likes. */
function placeBlocks(input: SheetInput): readonly Block[] {
  const heading: Block = { kind: 'heading', text: 'Which face and which edge go where' };
  const { setUp, cuts } = input.solved;
  if (setUp.at === 'corners') return [heading, cornerTable(input)];
  return cuts.length > 0 ? [heading, standTable(input, setUp)] : [];
}

function settings({ solved, shop, fmt, templates }: SheetInput): Table {
  return {
    kind: 'table',
    columns: [
      { title: 'Cut', share: 0.1 },
      { title: 'Bit', share: 0.31 },
      { title: 'Bushing, outside', share: 0.28 },
      { title: 'Bit extension', share: 0.155 },
      { title: 'Cut depth', share: 0.155 },
    ],
    rows: solved.cuts.map((cut) => {
      const angle = cut.bit.kind === 'dovetail' ? `, ${fmt.angle(cut.bit.angle)}` : '';
      const turned = sideOf(templates, cut)?.side.turned ? ', plate turned' : '';
      return [
        `${wordsOf(solved, cut.board).name}${turned}`,
        `${cut.bit.name}: ${cut.bit.kind} ${fmt.length(cut.bit.diameter)}${angle}`,
        `${cut.bushing.name}: ${fmt.length(cut.bushing.outside)}`,
        fmt.length(bitExtension(shop, cut.depth)),
        fmt.length(cut.depth),
      ];
    }),
  };
}

/** The whole clearance of a mating pair, and who says so. */
function fitWords({ joint: { slack, slackFrom }, fmt }: SheetInput): string {
  return `slack ${fmt.length(slack)}, ${slackFrom === 'default' ? 'the default' : 'as the job asks'}`;
}

/** Height on paper of a row of figures, mm; a sheet that is too long lets them shrink. */
const SPACE = { plan: 62, section: 62, joint: 56, corners: 52 } as const;

/** The diagram of corners keeps this height, so its neighbours may, too, mm. */
const CORNERS_HEIGHT = 38;

function figureBlocks(input: SheetInput): readonly Block[] {
  const { solved, templates, shop, fmt, pieces } = input;
  const facts = {
    shop,
    say: fmt.length,
    thickness: (board: string) => boardOf(solved, board)?.material.thickness ?? shop.plate.thickness,
    words: (board: string) => wordsOf(solved, board).name,
  };
  const stands = solved.cuts.flatMap((cut) => sideOf(templates, cut) ?? []);
  const kind = pieces[0]?.piece.kind ?? 'box';
  const plans = stands.map(({ plate, side }): readonly Figure[] => [
    { ...planFigure(plate, side, benchOf(side), solved, fmt.length), share: 1, room: SPACE.plan },
  ]);
  const sections = stands.map(
    ({ side }): Figure => ({
      ...sectionFigure(side, benchOf(side), facts),
      share: stands.length > 1 ? 0.5 : 0.6,
      room: SPACE.section,
    }),
  );
  if (solved.setUp.at === 'boards') {
    const drawn = boardFigures(solved).map((one): Figure => ({ ...one, share: 0.5, room: SPACE.joint }));
    return figureRows([...plans, sections, drawn]);
  }
  const corners: Figure = {
    ...cornerFigure(
      kind,
      standsOf(input),
      input.pieces.flatMap(({ letters }) => letters),
    ),
    share: stands.length === 1 ? 0.4 : 0.36,
    room: SPACE.corners,
  };
  const joints = (share: number): readonly Figure[] => [
    { ...closedFigure(solved), share, room: SPACE.joint, least: CORNERS_HEIGHT },
    { ...openedFigure(solved), share, room: SPACE.joint, least: CORNERS_HEIGHT },
  ];
  const rows: readonly (readonly Figure[])[] =
    stands.length > 1
      ? [...plans, sections, [...joints(0.32), corners]]
      : stands.length === 1
        ? [...plans, [...sections, corners], joints(0.5)]
        : [[...joints(0.32), corners]];
  return figureRows(rows);
}

function figureRows(rows: readonly (readonly Figure[])[]): readonly Block[] {
  return rows
    .filter((figures) => figures.length > 0)
    .map((figures) => ({ kind: 'figures', figures: figures.map(drawnOnce) }));
}

/** A sheet is set several times until it fits: each figure is drawn once at each scale. */
function drawnOnce(figure: Figure): Figure {
  const drawn = new Map<number, ReturnType<Figure['draw']>>();
  return {
    ...figure,
    draw: (scale) => {
      const items = drawn.get(scale) ?? figure.draw(scale);
      drawn.set(scale, items);
      return items;
    },
  };
}

function measureBlocks({ measures, joint }: SheetInput): readonly Block[] {
  if (measures.length === 0) return [];
  const told = measures.includes('gap') ? 'gap' : measures.at(-1);
  return [
    { kind: 'heading', text: 'Measured on the trial joint' },
    {
      kind: 'form',
      fields: measures.map((key) => ({ label: `${key} =` })),
    },
    {
      kind: 'words',
      paragraphs: [`halfpin refit JOB --joint ${joint.name} --measured ${told}=... says what to change.`],
    },
  ];
}

function cutListBlocks(input: SheetInput): readonly Block[] {
  const { setUp } = input.solved;
  if (setUp.at === 'boards') {
    return [
      { kind: 'heading', text: setUp.sizesTitle ?? 'Sizes of the boards' },
      { kind: 'words', paragraphs: [wordsText(setUp.sizes, input.fmt)] },
    ];
  }
  const parts = input.pieces.flatMap((piece) => cutListOf(piece));
  const heading: Block = { kind: 'heading', text: 'Cut list, from the finished outside size' };
  if (parts.length > 0) return [heading, cutTable(parts, input.fmt.length)];
  return [heading, { kind: 'words', paragraphs: lengthRules(input) }];
}

export function cutTable(parts: readonly CutPart[], say: (mm: number) => string): Table {
  return {
    kind: 'table',
    columns: [
      { title: 'Part, letters', share: 0.24 },
      { title: 'Make', share: 0.11 },
      { title: 'Thick', share: 0.15 },
      { title: 'Wide', share: 0.17 },
      { title: 'Long', share: 0.33 },
    ],
    rows: parts.map((part) => [
      `${[`${part.piece}: ${part.part}`, part.letters].filter(Boolean).join(' ')}${part.material ? `, ${part.material}` : ''}`,
      part.spare > 0 ? `${part.count} + ${part.spare} spare` : `${part.count}`,
      say(part.thickness),
      say(part.width),
      `${say(part.length)}: ${part.because}`,
    ]),
  };
}

/** How to come from an outside size to lengths where the job gives no piece. */
function lengthRules(input: SheetInput): readonly string[] {
  const { fmt, joint, solved } = input;
  const boards = solved.boards.map(({ board, material, lip }) => {
    const wide = solved.width + (lip ? lip.lower + lip.upper : 0);
    return `${wordsOf(solved, board).name} ${fmt.length(material.thickness)} thick, ${fmt.length(wide)} wide`;
  });
  const lengths = solved.boards.some(({ reach }) => reach)
    ? solved.boards.map((one) => `${wordsOf(solved, one.board).name}: ${lengthRule(one, fmt)}`).join('; ')
    : 'both: the outside size in full';
  return [
    `${capital(boards.join('; '))}. Lengths: ${lengths}. For a cut list, name ${joint.name} as the corners of a piece under pieces.`,
  ];
}

/** A lap counts at each end, for the other one may meet another board; what stands past the outside does so at both. */
function lengthRule({ reach }: JointBoard, say: SheetInput['fmt']): string {
  if (!reach) return 'the outside size in full';
  return reach.by < 0
    ? `the outside size less ${say.length(-reach.by)} for each lap`
    : `the outside size and ${say.length(2 * reach.by)} more`;
}

function remarks(input: SheetInput): readonly string[] {
  const careful = input.diagnostics.filter(
    ({ level, code }) => level === 'caution' && !grooveCodes.includes(code) && !code.startsWith('second-end'),
  );
  return [
    ...careful.map((one) => `Take care: ${sentence(one, input.fmt)}.`),
    `${cautions.first.text} Sources: ${publishedSources().join('; ')}.`,
  ];
}
