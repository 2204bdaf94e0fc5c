import type { Table } from './document.js';
import { isAlongLine, lineCorrections } from './edge-blocks.js';
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
      { title: isAlongLine(input.solved) ? 'The trial joint' : 'Each pair of the trial joint', share: 0.34 },
      { title: 'What to change', share: 0.66 },
    ],
    rows: isAlongLine(input.solved) ? lineCorrections : [...fitRows(input), ...commonRows(input)],
  };
}

/** How far a setting moves for a gap in one pair, mm: gap / 2k. */
export function moveFor(gap: number, slope: number): number {
  return gap / (2 * Math.tan(slope));
}

function fitRows({ joint, solved, units }: SheetInput): readonly (readonly string[])[] {
  const gaps = units === 'in' ? GAPS_IN : GAPS_MM;
  const slope = solved.slope ?? 0;
  const rows = (loose: string, tight: string) =>
    gaps.map((gap) => {
      const move = feeler(moveFor(gap, slope), units);
      return [`${feeler(gap, units)} loose or tight`, `${move} ${loose}; tight: ${tight}`];
    });
  switch (joint.kind) {
    case 'through-dovetail':
      return rows('back (away from you) with the pin template', 'forward');
    case 'half-blind-dovetail':
      return rows('deeper with the bit: deeper is tighter', 'shallower');
    default:
      return [
        [
          'loose or tight',
          'nothing moves: measure bit and bushing, put both in the shop file, cut a new plate (an error of either counts double)',
        ],
      ];
  }
}

/** Gaps and moves as feeler gauges have them: thousandths of an inch, hundredths of a mm. */
export function feeler(mm: number, units: 'mm' | 'in'): string {
  const inches = `${(mm / 25.4).toFixed(3)} in`;
  const metric = `${mm.toFixed(2)} mm`;
  return units === 'in' ? `${inches} (${metric})` : `${metric} (${inches})`;
}

/**
 * A plate moved away from the operator makes the sockets reach further in; where the side is cut under it at
 * the same time, its tails also get thinner by as much, so half the move does.
 */
function commonRows({ joint, solved }: SheetInput): readonly (readonly string[])[] {
  const aside = [
    'edges of the two boards out of line',
    'move the stop of one board by the step that you feel',
  ];
  if (joint.kind === 'half-blind-dovetail') {
    const both = solved.cuts.some(({ stock }) => stock.length > 1);
    const [plate, share] = both ? ['the plate', 'half of '] : ['the sockets plate', ''];
    return [
      aside,
      [
        'side proud of the front, or below',
        `move ${plate} back (away from you) by ${share}what is proud; forward by ${share}what is below`,
      ],
    ];
  }
  return [aside, ['ends proud, or below', 'cut shallower by what is proud, deeper by what is below']];
}
