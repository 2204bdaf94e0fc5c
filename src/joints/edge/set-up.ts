import type { BoardStand, HandStep, Hold, JointBoard, OnBoards, Placed, Words } from '../contract.js';
import type { EdgeJoint } from './fields.js';
import { type Side, sides } from './side.js';

/**
 * How the two boards of a drawn line are held, and how they come together. Each lies flat under a template of its own, straight
 * edge toward the operator, on a board that may be cut into. Board two is turned over about the joint: its reference
 * edge then goes against the same stop, and a bit that does not stand quite square slants both edges the same way, so
 * that they still close. `meeting` is what the two y come to, added, at the line, mm.
 */
const holdOf = (side: Side): Hold => ({
  posture: 'flat',
  face: 'outside',
  shows: side === 'one' ? 'up' : 'down',
});

export function edgeBoards({ boards }: EdgeJoint): readonly JointBoard[] {
  return sides.map((side) => ({ board: side, material: boards[side], hold: holdOf(side) }));
}

export function edgeAssembly({ boards: { one, two }, width }: EdgeJoint, meeting: number): Placed {
  return {
    way: 'placed',
    boards: ['one', 'two'],
    // Turned over again, until the upper faces are level.
    second: { turned: true, angle: 0, x: 0, y: meeting, u: two.thickness },
    room: { x: [0, width], y: [0, meeting], u: [0, Math.min(one.thickness, two.thickness)] },
    glued: 'walls',
  };
}

/** Waste left standing beside the line before the router comes, mm. Common practice, no source. */
const SAWN_TO = 3;

/** The same where a rasp follows, mm. Common practice, no source. */
const SAWN_BY_HAND = 1;

const OVER: Words = [
  ', turned over about the straight edge like the page of a book, so that the same stop serves',
];

const BY_HAND: readonly HandStep[] = [
  {
    words: [
      'Print the patterns at 100 %, measure their scale bars, and glue them over the straight edges, each face as its pattern says, reference edge on reference edge.',
    ],
  },
  {
    words: [
      'Saw board one on the waste side, which is crossed out, ',
      SAWN_BY_HAND,
      ' outside the line. Work down to the line with rasp and file, square to the face.',
    ],
    careful: true,
  },
  {
    words: [
      'Lay board one on board two, reference edges in line, and mark board two from it if the pattern differs.',
    ],
  },
  {
    words: [
      'Saw board two and work it to the line. Try the joint against a light and file where no light comes through.',
    ],
  },
  {
    words: [
      'Glue up flat, reference edges in line. Plane both faces, then cut the panel to its finished size.',
    ],
  },
];

/** What to change when the trial joint does not fit. */
const CORRECTIONS: readonly (readonly [string, string])[] = [
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

export function edgeSetUp({ boards, width }: EdgeJoint, meeting: number): OnBoards {
  const sizes = sides.flatMap((side, i): readonly (string | number)[] => [
    `${i > 0 ? '; board' : 'Board'} ${side} `,
    boards[side].thickness,
    ' thick, ',
    width,
    ' along the joint',
  ]);
  return {
    at: 'boards',
    stands: sides.map(
      (side): BoardStand => ({
        board: side,
        ...holdOf(side),
        toward: 'straight edge',
        against: 'reference edge',
        stop: 'left',
        ...(side === 'two' && { lay: OVER }),
        trial: [
          'saw ',
          SAWN_TO,
          ' outside the line, then rout from left to right, the bushing against the plate',
        ],
      }),
    ),
    prepare: [
      'Cut the blanks, with one spare of each kind: one edge straight and square to the reference edge, and together ',
      meeting,
      ' wider across the joint than the finished panel. On each outside face write ONE or TWO and an arrow to the straight edge, and mark the reference edge with a V; it lies left on board one with the arrow toward you, left on board two with the arrow away from you.',
    ],
    close: [
      'Turn board two over again, so that both outside faces are up, and push the trial joint together on a flat bench, reference edges in line. Hold it against a light: it must close all along the line.',
    ],
    work: [
      'Cut all boards two while this set-up stands, outside face down; then lay finger-template-one on and cut all boards one, outside face up.',
    ],
    glue: [
      'Glue up flat, reference edges in line, and clamp across the joint until it closes. Plane both faces, then cut the panel to its finished size.',
    ],
    byHand: BY_HAND,
    corrections: CORRECTIONS,
    sizesTitle: 'Blanks',
    sizes: [
      ...sizes,
      '. Across the joint both blanks together: the finished panel and ',
      meeting,
      ' more, which the line takes and is cut off. One spare of each kind.',
    ],
  };
}
