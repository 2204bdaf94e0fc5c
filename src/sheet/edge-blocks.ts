import type { Item } from '../drawing/model.js';
import { boardName } from '../findings/board-names.js';
import { difference } from '../geometry/boolean.js';
import { rectangle } from '../geometry/outline.js';
import { mirrorY, scale as scaled, translate } from '../geometry/transform.js';
import type { Outline, Region } from '../geometry/types.js';
import type { BoardMarking, SolvedJoint } from '../joints/family.js';
import type { Figure, Table } from './document.js';
import { hatch } from './hatch.js';
import type { SheetInput } from './input.js';
import { lettering } from './items.js';
import { capital } from './names.js';
import { sideOf } from './sides.js';
import { lieWords } from './stands.js';

/** What a set-up sheet says and shows of two boards that meet edge to edge along a line. */

/** Two boards that meet along a line, and not at a corner. */
export function isAlongLine({ meeting }: SolvedJoint): boolean {
  return meeting !== undefined;
}

/** How each board lies. */
export function lieTable({ joint, solved, templates }: SheetInput): Table {
  return {
    kind: 'table',
    columns: [
      { title: 'Board', share: 0.16 },
      { title: 'Face', share: 0.2 },
      { title: 'Straight edge', share: 0.2 },
      { title: 'Reference edge', share: 0.2 },
      { title: 'Template', share: 0.24 },
    ],
    rows: solved.markings.map(({ board }) => {
      const cut = solved.cuts.find((one) => one.board === board);
      const name = cut ? sideOf(templates, cut)?.plate.name : undefined;
      return [
        boardName(board),
        lieWords(joint.kind, board),
        'toward you',
        'left stop',
        name?.replace('finger-template-', '') ?? 'marked from the pattern',
      ];
    }),
  };
}

/** Board shown beyond the line, as a share of the joint's width; room between the boards when apart, mm on paper. */
const SHOWN = 0.12;
const APART = 6;
const LETTERS = 2.4;

/** Both boards as they meet, and drawn apart with the waste hatched: outside faces up, reference edges left. */
export function lineFigures(solved: SolvedJoint): readonly Omit<Figure, 'share' | 'room'>[] {
  return [
    {
      title: 'The closed joint, outside faces up',
      words: 'Board one above the line and board two below it, reference edges at the left.',
      scaled: true,
      draw: (scale) => lineViews(solved, scale, 0),
    },
    {
      title: 'Drawn apart, the waste hatched',
      words: 'The two blanks with their straight edges to one another; what is cut away is hatched.',
      scaled: true,
      draw: (scale) => lineViews(solved, scale, (solved.meeting ?? 0) + APART / scale),
    },
  ];
}

/** Both boards at a scale, board one moved away by `apart` mm before scaling, and then its waste and the other's shown. */
export function lineViews(
  { markings, meeting = 0, width }: SolvedJoint,
  scale: number,
  apart: number,
): readonly Item[] {
  return markings.flatMap((marking, i) => {
    // Board two's own y runs from its straight edge away from board one.
    const place = (shape: Outline): Outline =>
      scaled(i === 0 ? translate(shape, 0, apart) : translate(mirrorY(shape), 0, meeting), scale);
    const reach = marking.depth + SHOWN * width;
    const middle = marking.depth + (SHOWN * width) / 2;
    const y = (i === 0 ? apart + middle : meeting - middle) * scale - LETTERS / 2;
    return [
      ...woodOf(marking, reach).map((one): Item => ({ kind: 'closed', layer: 'STOCK', outline: place(one) })),
      ...(apart > 0 ? wasteItems(marking.outsideFace.waste.map(place)) : []),
      lettering(
        `${capital(boardName(marking.board))}, outside face`,
        { x: (width / 2) * scale, y },
        LETTERS,
        'middle',
      ),
    ];
  });
}

function woodOf({ width, outsideFace }: BoardMarking, reach: number): Region {
  return difference([rectangle(0, 0, width, reach)], outsideFace.waste);
}

function wasteItems(waste: Region): readonly Item[] {
  return waste.flatMap((outline): readonly Item[] => [
    { kind: 'closed', layer: 'CUT', outline },
    ...hatch(outline, 'ENGRAVE', 1.6),
  ]);
}

/** What to change when the trial joint does not fit. */
export const lineCorrections: readonly (readonly string[])[] = [
  [
    'too loose: crests touch and flanks gape; too tight: flanks bind and crests stay open',
    'no setting changes the fit of this joint: measure bit and bushing, put both into the shop file and make new plates',
  ],
  [
    'a gap or a ragged place on one board only',
    'move that plate 1 mm away from you along the stop and cut that board again: the line only moves into the board',
  ],
  [
    'closes on one face and gapes on the other',
    'the bit is not square to its base, and both boards were cut the same side up: turn board two face down',
  ],
];

/** The sizes of the blanks. */
export function blankRules({ solved, say }: SheetInput): readonly string[] {
  const boards = solved.markings.map(
    ({ board, material, width }) =>
      `${boardName(board)} ${say.length(material.thickness)} thick, ${say.length(width)} along the joint`,
  );
  return [
    `${boards.join('; ')}. Across the joint both blanks together: the finished panel and ${say.length(solved.meeting ?? 0)} more, which the line takes and is cut off. One spare of each kind.`,
  ];
}
