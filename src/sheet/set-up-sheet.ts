import { cautions, publishedSources } from '../../shared/cautions.js';
import { boardOf, wordsOf } from '../joints/boards.js';
import type { JointBoard } from '../joints/contract.js';
import { fitToSet } from '../units/to-set.js';
import { benchOf } from './bench.js';
import { boardFigures } from './board-blocks.js';
import { benchPage } from './cards.js';
import { cornerFigure } from './corners.js';
import { correctionTable } from './corrections.js';
import { cutListOf, stockTotals } from './cut-list.js';
import { cutTables } from './cut-tables.js';
import type { Block, Figure, SheetDocument } from './document.js';
import { handBlocks } from './hand.js';
import type { SheetInput } from './input.js';
import { joineryFigures } from './joinery-figures.js';
import { closedFigure, openedFigure } from './joint-figures.js';
import { capital, wordsText } from './names.js';
import { sectionFigure } from './section-figure.js';
import { sideOf } from './sides.js';
import { standsOf } from './stands.js';
import { stepGroups } from './steps.js';

/** Everything that a person wants to know beside the router, for one joint. */
export function setUpSheet(input: SheetInput): SheetDocument {
  const { joint, jobTitle, fmt, solved } = input;
  return {
    title: `${jobTitle}: ${joint.name}`,
    subtitle: `Set-up sheet: ${solved.words}, ${fmt.length(solved.width)} along the joint`,
    blocks: [
      ...(solved.cuts.length > 0 ? [benchPage(input)] : []),
      ...figureBlocks(input),
      ...(solved.cuts.length === 0 ? handBlocks(input) : []),
      ...stepBlocks(input),
      ...(solved.cuts.length > 0
        ? ([
            { kind: 'heading', text: `If the trial joint does not fit: ${fitWords(input)}` },
            correctionTable(input),
          ] as const)
        : []),
      ...measureBlocks(input),
      ...cutListBlocks(input),
      { kind: 'words', paragraphs: [`${cautions.first.text} Sources: ${publishedSources().join('; ')}.`] },
    ],
  };
}

/** Groups of steps, numbered on from one to the next. */
function stepBlocks(input: SheetInput): readonly Block[] {
  let from = 1;
  return stepGroups(input).flatMap(({ title, steps }): readonly Block[] => {
    const first = from;
    from += steps.length;
    return [
      { kind: 'heading', text: title },
      { kind: 'steps', steps, from: first },
    ];
  });
}

/** The whole clearance of a mating pair, and who says so. */
function fitWords({ joint: { slack, slackFrom }, units }: SheetInput): string {
  return `slack ${fitToSet(slack, units)}, ${slackFrom === 'default' ? 'the default' : 'as the job asks'}`;
}

/** Height on paper of a row of figures, mm; a sheet that is too long lets them shrink. */
const SPACE = { section: 58, joint: 56, corners: 52, joinery: 34 } as const;

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
  const places = solved.cuts.flatMap((cut) => sideOf(templates, cut) ?? []);
  const sections = places.map(
    ({ side }): Unplaced => ({ ...sectionFigure(side, benchOf(side), facts), room: SPACE.section }),
  );
  if (solved.setUp.at === 'boards') {
    const drawn = boardFigures(solved).map((one): Unplaced => ({ ...one, room: SPACE.joint }));
    return figureRows([...pairs(sections), ...pairs(drawn)]);
  }
  const kind = pieces[0]?.piece.kind ?? 'box';
  const corners: Unplaced = {
    ...cornerFigure(
      kind,
      standsOf(input),
      input.pieces.flatMap(({ letters }) => letters),
    ),
    room: SPACE.corners,
  };
  const joints: readonly Unplaced[] = [
    { ...closedFigure(solved), room: SPACE.joint, least: CORNERS_HEIGHT },
    { ...openedFigure(solved), room: SPACE.joint, least: CORNERS_HEIGHT },
  ];
  const joinery = joineryFigures(input).map((one): Unplaced => ({ ...one, room: SPACE.joinery, least: 24 }));
  return figureRows([inRow([corners, ...joints]), ...pairs([...sections, ...joinery])]);
}

type Unplaced = Omit<Figure, 'share'>;

/** No more than two in a row: their words need the width. */
const pairs = (figures: readonly Unplaced[]): readonly (readonly Figure[])[] =>
  Array.from({ length: Math.ceil(figures.length / 2) }, (_, i) =>
    figures.slice(2 * i, 2 * i + 2).map((one): Figure => ({ ...one, share: 0.5 })),
  );

/** Figures that share a row alike. */
const inRow = (figures: readonly Unplaced[]): readonly Figure[] =>
  figures.map((one) => ({ ...one, share: 1 / figures.length }));

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
  if (parts.length > 0) {
    const sanding = input.pieces.map(({ piece }) => piece.sanding ?? 0);
    const units = { fmt: input.fmt.length, units: input.units };
    return [heading, ...cutTables(parts, stockTotals(parts), sanding, units)];
  }
  return [heading, { kind: 'words', paragraphs: lengthRules(input) }];
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
