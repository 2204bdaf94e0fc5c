import type { Table } from './document.js';
import type { SheetInput } from './input.js';

/** Gaps of one pair that are told apart with a feeler gauge, mm; near 0.004, 0.008 and 0.012 in. */
const GAPS_MM = [0.1, 0.2, 0.3];
const GAPS_IN = [0.004, 0.008, 0.012].map((inches) => inches * 25.4);

/**
 * What to move when the trial joint does not fit. With k = tan θ: moving a tapered pin template by Δ changes
 * every inner pin by 2kΔ; cutting a half-blind joint deeper by Δ tightens each pair by 2kΔ; square fingers
 * have nothing to move, so their plate is cut anew. Derivation: DEVELOPERS.md, "Geometry of the joints".
 */
export function correctionTable(input: SheetInput): Table {
  return {
    kind: 'table',
    columns: [
      { title: 'What the trial joint shows', share: 0.36 },
      { title: 'What to change', share: 0.64 },
    ],
    rows: [...fitRows(input), ...commonRows(input)],
  };
}

/** How far a setting moves for a gap in one pair, mm: gap / 2k. */
export function moveFor(gap: number, slope: number): number {
  return gap / (2 * Math.tan(slope));
}

function fitRows({ joint, solved, say, units }: SheetInput): readonly (readonly string[])[] {
  const gaps = units === 'in' ? GAPS_IN : GAPS_MM;
  const slope = solved.slope ?? 0;
  switch (joint.kind) {
    case 'through-dovetail':
      return [
        ...gaps.map((gap) => [
          `loose by ${say.length(gap)} in each pair`,
          `move the pin template back, away from you, by ${say.length(moveFor(gap, slope))}`,
        ]),
        ['too tight by as much', 'move the pin template forward, toward you, by as much as it says above'],
      ];
    case 'half-blind-dovetail':
      return [
        ...gaps.map((gap) => [
          `loose by ${say.length(gap)} in each pair`,
          `set the bit deeper by ${say.length(moveFor(gap, slope))}: deeper is tighter`,
        ]),
        ['too tight by as much', 'set the bit shallower by as much as it says above'],
      ];
    default:
      return [
        [
          'loose or tight in every pair',
          'nothing on the plate moves: measure bit and bushing, put the sizes in the shop file and cut a new plate; an error of either counts double',
        ],
      ];
  }
}

function commonRows({ joint }: SheetInput): readonly (readonly string[])[] {
  const aside = [
    'edges of the two boards out of line',
    'move the stop of one board by the step that you feel',
  ];
  if (joint.kind === 'half-blind-dovetail') {
    return [
      aside,
      [
        'side stands proud of the front, or below',
        'move the plate forward by what is proud, back by what is below',
      ],
    ];
  }
  return [
    aside,
    [
      'ends stand proud, or below the face',
      'cut shallower by what is proud, deeper by what is below; a little proud is trimmed flush',
    ],
  ];
}
