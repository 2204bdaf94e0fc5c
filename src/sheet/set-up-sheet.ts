import { cautions, publishedSources } from '../../shared/cautions.js';
import { boardName } from '../findings/board-names.js';
import { sentence } from '../findings/catalogue.js';
import { bitExtension } from '../joints/tools.js';
import { benchOf } from './bench.js';
import { cornerFigure, cornerTable } from './corners.js';
import { correctionTable } from './corrections.js';
import { boardsOf, type CutPart, cutListOf, lapOf, lipOf, proudOf } from './cut-list.js';
import type { Block, Figure, SheetDocument, Table } from './document.js';
import { blankRules, isAlongLine, lieTable, lineFigures } from './edge-blocks.js';
import type { SheetInput } from './input.js';
import { closedFigure, openedFigure } from './joint-figures.js';
import { capital } from './names.js';
import { planFigure } from './plan-figure.js';
import { sectionFigure } from './section-figure.js';
import { sideOf } from './sides.js';
import { standsOf } from './stands.js';
import { grooveCodes, stepsOf } from './steps.js';

/** Everything that a person wants to know beside the router, for one joint. */
export function setUpSheet(input: SheetInput): SheetDocument {
  const { joint, jobTitle, say, solved } = input;
  return {
    title: `${jobTitle}: ${joint.name}`,
    subtitle: `Set-up sheet: ${kindWords(joint.kind)}, ${say.length(solved.width)} along the joint`,
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

/** `through dovetail`, `half-blind dovetail`, `box joint`. */
function kindWords(kind: string): string {
  const words = kind.replace('-dovetail', ' dovetail').replaceAll('-', kind.startsWith('half-') ? '-' : ' ');
  return words.endsWith('dovetail') ? words : `${words} joint`;
}

/** How each board is held; boards that are sawn to a line by hand are held as one likes. */
function placeBlocks(input: SheetInput): readonly Block[] {
  const heading: Block = { kind: 'heading', text: 'Which face and which edge go where' };
  if (!isAlongLine(input.solved)) return [heading, cornerTable(input)];
  return input.solved.cuts.length > 0 ? [heading, lieTable(input)] : [];
}

function settings({ solved, shop, say, templates }: SheetInput): Table {
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
      const angle = cut.bit.kind === 'dovetail' ? `, ${say.angle(cut.bit.angle)}` : '';
      const turned = sideOf(templates, cut)?.side.turned ? ', plate turned' : '';
      return [
        `${boardName(cut.board)}${turned}`,
        `${cut.bit.name}: ${cut.bit.kind} ${say.length(cut.bit.diameter)}${angle}`,
        `${cut.bushing.name}: ${say.length(cut.bushing.outside)}`,
        say.length(bitExtension(shop, cut.depth)),
        say.length(cut.depth),
      ];
    }),
  };
}

/** The whole clearance of a mating pair, and who says so. */
function fitWords({ joint: { slack, slackFrom }, say }: SheetInput): string {
  return `slack ${say.length(slack)}, ${slackFrom === 'default' ? 'the default' : 'as the job asks'}`;
}

/** Height on paper of a row of figures, mm; a sheet that is too long lets them shrink. */
const ROOM = { plan: 62, section: 62, joint: 56, corners: 52 } as const;

/** The diagram of corners keeps this height, so its neighbours may, too, mm. */
const CORNERS_HEIGHT = 38;

function figureBlocks(input: SheetInput): readonly Block[] {
  const { solved, templates, shop, say, joint, pieces } = input;
  const facts = {
    shop,
    say: say.length,
    thickness: (board: string) =>
      solved.markings.find((one) => one.board === board)?.material.thickness ?? shop.plate.thickness,
  };
  const stands = solved.cuts.flatMap((cut) => sideOf(templates, cut) ?? []);
  const kind = pieces[0]?.piece.kind ?? (joint.kind === 'half-blind-dovetail' ? 'drawer' : 'box');
  const plans = stands.map(({ plate, side }): readonly Figure[] => [
    { ...planFigure(plate, side, benchOf(side), joint.kind, say.length), share: 1, room: ROOM.plan },
  ]);
  const sections = stands.map(
    ({ side }): Figure => ({
      ...sectionFigure(side, benchOf(side), facts),
      share: stands.length > 1 ? 0.5 : 0.6,
      room: ROOM.section,
    }),
  );
  if (isAlongLine(solved)) {
    const line = lineFigures(solved).map((one): Figure => ({ ...one, share: 0.5, room: ROOM.joint }));
    return figureRows([...plans, sections, line]);
  }
  const corners: Figure = {
    ...cornerFigure(kind, standsOf(input)),
    share: stands.length === 1 ? 0.4 : 0.36,
    room: ROOM.corners,
  };
  const joints = (share: number): readonly Figure[] => [
    { ...closedFigure(solved), share, room: ROOM.joint, least: CORNERS_HEIGHT },
    { ...openedFigure(solved), share, room: ROOM.joint, least: CORNERS_HEIGHT },
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
  const parts = input.pieces.flatMap((piece) => cutListOf(piece));
  if (isAlongLine(input.solved)) {
    return [
      { kind: 'heading', text: 'Blanks' },
      { kind: 'words', paragraphs: blankRules(input) },
    ];
  }
  const heading: Block = { kind: 'heading', text: 'Cut list, from the finished outside size' };
  if (parts.length > 0) return [heading, cutTable(parts, input.say.length)];
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
      `${part.piece}: ${part.part} ${part.letters}${part.material ? `, ${part.material}` : ''}`,
      part.spare > 0 ? `${part.count} + ${part.spare} spare` : `${part.count}`,
      say(part.thickness),
      say(part.width),
      `${say(part.length)}: ${part.because}`,
    ]),
  };
}

/** How to come from an outside size to lengths where the job gives no piece. */
function lengthRules(input: SheetInput): readonly string[] {
  const { say, joint, solved } = input;
  const lap = lapOf(input);
  const lip = lipOf(input);
  const more = 2 * proudOf(input) + 2 * (lip?.end ?? 0);
  const boards = solved.markings.map(({ board, material, width }) => {
    const wide = width + (board === 'pins' ? (lip?.lower ?? 0) + (lip?.upper ?? 0) : 0);
    return `${boardName(board)} ${say.length(material.thickness)} thick, ${say.length(wide)} wide`;
  });
  const [first, second] = boardsOf(input).map(({ board }) => boardName(board));
  const whole = 'the outside size in full';
  const plus = more > 0 ? `the outside size and ${say.length(more)} more` : whole;
  const lengths =
    lap > 0
      ? `${first}: the outside size less ${say.length(lap)} for each lap; ${second}: ${plus}`
      : more > 0
        ? `${first}: ${whole}; ${second}: ${plus}`
        : `both: ${whole}`;
  return [
    `${capital(boards.join('; '))}. Lengths: ${lengths}. For a cut list, name ${joint.name} as the corners of a piece under pieces.`,
  ];
}

function remarks(input: SheetInput): readonly string[] {
  const careful = input.findings.filter(
    ({ level, code }) => level === 'caution' && !grooveCodes.includes(code) && !code.startsWith('second-end'),
  );
  return [
    ...careful.map((one) => `Take care: ${sentence(one, input.say)}.`),
    `${cautions.first.text} Sources: ${publishedSources().join('; ')}.`,
  ];
}
