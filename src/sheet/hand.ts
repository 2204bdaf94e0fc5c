import { cautions } from '../../shared/cautions.js';
import { wordsOf } from '../joints/boards.js';
import type { SolvedJoint } from '../joints/family.js';
import type { Span } from '../layout/types.js';
import { formatDegrees, formatSlope } from '../units/angle.js';
import { cornerTable } from './corners.js';
import { boardsOf } from './cut-list.js';
import type { Block, SheetStep, Table } from './document.js';
import type { SheetInput } from './input.js';
import { capital } from './names.js';

/** The sheet of a joint that is cut by hand: slope, distances for dividers and rule, and the order of saw and chisel. */

export function handBlocks(input: SheetInput): readonly Block[] {
  const { solved } = input;
  if (solved.setUp.at === 'boards') return [];
  return [
    { kind: 'heading', text: 'Marking out' },
    ...slopeWords(input),
    spacingTable(input),
    { kind: 'heading', text: 'Which pattern goes on which end' },
    cornerTable(input),
  ];
}

function slopeWords({ solved, fmt }: SheetInput): readonly Block[] {
  const { slope } = solved;
  const [first] = solved.markings;
  if (slope === undefined || !first) return [];
  const over = first.depth * Math.tan(slope);
  return [
    {
      kind: 'words',
      paragraphs: [
        `Slope ${formatSlope(slope)}, ${formatDegrees(slope)} from square. Over the ${fmt.length(first.depth)} from baseline to end each side of a tail leans out by ${fmt.length(over)}.`,
      ],
    },
  ];
}

/** One part of the row, and the line that ends it, from the reference edge, mm; the last part ends at the far edge. */
interface Row {
  readonly part: string;
  readonly width: number;
  readonly line?: { readonly baseline: number; readonly end: number };
}

/**
 * Widths to set dividers by, and where every line stands, from the reference edge: what is measured from one edge adds up no
 * error. Lines at the end of the tail board are farther apart than at its baseline.
 */
export function spacingTable({ solved, fmt }: SheetInput): Table {
  const rows = spacingRows(solved);
  const slanted = solved.slope !== undefined;
  return {
    kind: 'table',
    columns: [
      { title: 'Part', share: 0.22 },
      { title: 'Width at the baseline', share: 0.24 },
      { title: 'Line from the reference edge', share: 0.27 },
      ...(slanted ? [{ title: 'The same line at the end', share: 0.27 }] : []),
    ],
    rows: rows.map(({ part, width, line }) => [
      part,
      fmt.length(width),
      line ? fmt.length(line.baseline) : '',
      ...(slanted ? [line ? fmt.length(line.end) : ''] : []),
    ]),
  };
}

/** Every span of the layout with the line that ends it. */
export function spacingRows(solved: SolvedJoint): readonly Row[] {
  const { spans } = solved.layout;
  const [first] = solved.markings;
  const lean = first && solved.slope !== undefined ? first.depth * Math.tan(solved.slope) : 0;
  const seen = new Map<string, number>();
  return spans.map((span, i): Row => {
    const name = nameOf(span);
    const number = (seen.get(name) ?? 0) + 1;
    seen.set(name, number);
    // A tail is wider at its end: its lines stand farther out there.
    const out = span.part === 'tail' ? lean : -lean;
    return {
      part: capital(`${name} ${number}`),
      width: span.to - span.from,
      ...(i < spans.length - 1 && { line: { baseline: span.to, end: span.to + out } }),
    };
  });
}

const nameOf = ({ part }: Span): string => part.replace('-', ' ');

/** Marking, sawing and chopping, in the order of work. */
export function handWork(input: SheetInput): readonly SheetStep[] {
  const { solved, fmt } = input;
  const [one, two] = boardsOf(input);
  const [first, second] = [wordsOf(solved, one.board), wordsOf(solved, two.board)];
  const depths = solved.markings.map(
    ({ board, depth }) => `${wordsOf(solved, board).many} ${fmt.length(depth)}`,
  );
  const hidden = solved.boards.some(({ reach }) => reach !== undefined && reach.by < 0);
  return [
    { text: `Scribe the baselines all round the ends with a gauge: ${depths.join(', ')} from the end.` },
    {
      text: `Step off the spacing on ${first.the} by the table, every line from the reference edge, and square the lines over the end; or print the pattern at 100 %, measure its scale bar and glue it on, reference edge on reference edge. Cross out the waste.`,
    },
    {
      text: `Cut the lines with a knife. Saw ${first.the} with the kerf in the waste: first all sides that lean one way, then all that lean the other; the shoulders at both edges last.`,
      caution: cautions.fingers.text,
    },
    { text: 'Chop the waste out: half way from one face, turn the board over, and meet in the middle.' },
    {
      text: `Stand ${first.the} on the end of ${second.the}, baseline on its inside edge and reference edges in line. Mark ${second.the} from it with the knife.`,
    },
    {
      text: hidden
        ? `Saw ${second.the} down to baseline and lap, the saw held at a slant, kerf in the waste; chop the sockets out from the end, a little at a time.`
        : `Saw ${second.the} with the kerf in the waste and chop it like the first.`,
    },
    { text: 'Try the joint once, not all the way; pare where it binds.' },
  ];
}
