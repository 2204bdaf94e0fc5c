import { type Diagnostic, diagnostic } from '../../diagnostics/diagnostic.js';
import type { Formatter } from '../../diagnostics/formatter.js';
import { joinedIntervals } from '../../drawing/drawing.js';
import { hangingBlock, setLines, wholeWordHeight } from '../../drawing/lettering/label.js';
import { missingLetters, textWidth } from '../../drawing/lettering/lettering.js';
import type { Drawing, Interval, Item, KeepClear, Layer, TextItem } from '../../drawing/model.js';
import { rectangle } from '../../geometry/outline.js';
import { extentsOfSegment } from '../../geometry/segment.js';
import { mirrorY, translate } from '../../geometry/transform.js';
import type { Outline, Path, Point } from '../../geometry/types.js';
import type { BoardMarking, MarkedPanel, SolvedJoint } from '../../joints/family.js';
import { slopeWords } from './slope.js';
import { EDGE_MARK, edgeMark, FACE_MARK, faceMark, wasteCross, wasteCrosses } from './trade-marks.js';

/**
 * Full-size patterns: for each board one strip with its outside face, its end grain and its inside face, to be
 * folded over the board's end. x from the reference edge; y = 0 at the fold between the outside face (below)
 * and the end grain (above), mm. Words on the inside face stand on their head, so that they read upright
 * once the strip is folded over.
 */
export interface Pattern {
  /** `pattern-tails`. */
  readonly name: string;
  readonly drawing: Drawing;
  readonly diagnostics: readonly Diagnostic[];
}

export function patterns(solved: SolvedJoint, jobTitle: string, fmt: Formatter): readonly Pattern[] {
  return solved.markings.map((marking) => {
    const title = `${jobTitle} — ${solved.name}: ${marking.board}`;
    const letters = missingLetters(title);
    const at = `joints.${solved.name}`;
    return {
      name: `pattern-${marking.board}`,
      drawing: {
        title: `${jobTitle}: ${solved.name}, pattern ${marking.board}`,
        notes: [
          'Full size in mm. Measure a printed pattern before use: paper moves with humidity.',
          `Cut out, fold over the ${isEdge(marking) ? 'edge' : 'end'} of the board at the two dashed lines, reference edge on reference edge.`,
          'The loop is the face mark, its tail to the reference edge; the V is the edge mark. Crossed parts are waste.',
        ],
        items: stripItems(marking, wordsOf(marking, title, solved.slope, fmt)),
        keepClear: keepClearOf(marking),
      },
      diagnostics:
        letters.length > 0
          ? [diagnostic('letters-missing', 'caution', at, { text: title, letters: letters.join(' ') })]
          : [],
    };
  });
}

/** Whether the strip is folded over an edge of the board, and not over its end. */
const isEdge = ({ over }: BoardMarking): boolean => over === 'edge';

/** A seam keeps this far from a wall, a fold and a baseline, mm: what scissors stray. */
const SEAM_CLEAR = 1.5;

/** A seam between printed pages stands on no wall of the joint and along no fold or baseline, where one can help it. */
function keepClearOf({ depth, material, outsideFace, endGrain, insideFace }: BoardMarking): KeepClear {
  const walls = [outsideFace, endGrain, insideFace]
    .flatMap(({ lines }) => lines.flatMap(({ segments }) => segments.map((one) => extentsOfSegment(one))))
    .filter(({ minX, maxX, minY, maxY }) => maxX - minX < maxY - minY);
  const { thickness } = material;
  return {
    x: joinedIntervals(walls.map(({ minX, maxX }) => around(minX, maxX))),
    y: joinedIntervals([-depth, 0, thickness, thickness + depth].map((y) => around(y, y))),
  };
}

const around = (from: number, to: number): Interval => ({ from: from - SEAM_CLEAR, to: to + SEAM_CLEAR });

/** What stands on the two faces, in the order of the strip: the face's name first, in larger letters. */
interface PatternWords {
  readonly below: readonly string[];
  readonly above: readonly string[];
}

function wordsOf(
  marking: BoardMarking,
  title: string,
  slope: number | undefined,
  fmt: Formatter,
): PatternWords {
  const { width, depth, material } = marking;
  const sloping = slope === undefined ? [] : [slopeWords(slope)];
  const reach = isEdge(marking)
    ? `line up to ${fmt.length(depth)} from the edge`
    : `baseline ${fmt.length(depth)} from the end`;
  const [below, above] = showsInside(marking)
    ? ['INSIDE FACE', 'OUTSIDE FACE']
    : ['OUTSIDE FACE', 'INSIDE FACE'];
  return {
    below: [below, title, `width ${fmt.length(width)}`, ...sloping],
    above: [above, title, reach, `thickness ${fmt.length(material.thickness)}`],
  };
}

/** Whether the strip's lower panel, its reference edge at the left, is the inside face. */
const showsInside = ({ faceUpright }: BoardMarking): boolean => faceUpright === 'inside';

function stripItems(marking: BoardMarking, words: PatternWords): readonly Item[] {
  const { width, depth, material, outsideFace, endGrain, insideFace } = marking;
  const { thickness } = material;
  const [below, above] = showsInside(marking) ? [insideFace, outsideFace] : [outsideFace, insideFace];
  const lower = faceTail(words.below, width, !showsInside(marking));
  const upper = faceTail(words.above, width, showsInside(marking));
  const base = { below: -depth, above: thickness + depth };
  const low = base.below - lower.height;
  const high = base.above + upper.height;
  const fold = (y: number): Item => ({ ...stroke('REF', { x: 0, y }, { x: width, y }), dashed: true });
  const baseline = (y: number): Item => stroke('REF', { x: 0, y }, { x: width, y });
  return [
    { kind: 'closed', layer: 'CUT', outline: rectangle(0, low, width, high) },
    fold(0),
    fold(thickness),
    baseline(base.below),
    baseline(base.above),
    ...panelItems(below, isEdge(marking), (shape) => mirrorY(shape)),
    ...panelItems(endGrain, isEdge(marking), (shape) => shape),
    ...panelItems(above, isEdge(marking), (shape) => translate(shape, 0, thickness)),
    ...lower.items.map((item) => movedText(item, base.below)),
    ...upper.items.map((item) => movedText(headDown(item), base.above)),
    ...referenceMarks(low, lower.height, !showsInside(marking)),
    ...referenceMarks(base.above, upper.height, showsInside(marking)),
  ];
}

/** Walls are scored, waste is crossed out: a strip of it along a line by a row of crosses. */
function panelItems(
  panel: MarkedPanel,
  inRow: boolean,
  place: <T extends Outline | Path>(shape: T) => T,
): readonly Item[] {
  return [
    ...panel.lines.map((path): Item => ({ kind: 'open', layer: 'SCORE', path: place(path) })),
    ...panel.waste.flatMap((outline) => (inRow ? wasteCrosses(place(outline)) : wasteCross(place(outline)))),
  ];
}

function stroke(layer: Layer, from: Point, to: Point): Item & { kind: 'open' } {
  return { kind: 'open', layer, path: { closed: false, segments: [{ kind: 'line', from, to }] } };
}

// Words in the tail of paper beyond the baseline on each face

const PATTERN_LETTERS = 3;
const SMALL_LETTERS = 2.2;

/** Words keep this far from the strip's edges and from lines, mm. */
const PATTERN_CLEARANCE = 1.5;

/** The column along the reference edge that belongs to the marks, mm. */
const MARKS_COLUMN = 6;

/** Capital height of the words along the reference edge, mm. */
const REFERENCE_LETTERS = 1.8;
const REFERENCE_WORDS = 'REF EDGE';

/** The marks along the reference edge, from below: edge mark, words and, on the outside face, the face mark. */
function marksHeight(withFaceMark: boolean): number {
  const words = textWidth(REFERENCE_WORDS, REFERENCE_LETTERS);
  return (
    EDGE_MARK.height +
    words +
    3 * PATTERN_CLEARANCE +
    (withFaceMark ? FACE_MARK.height + PATTERN_CLEARANCE : 0)
  );
}

/** The words of one face below y = 0, and the height of paper that they and the marks need. */
function faceTail(
  words: readonly string[],
  width: number,
  withFaceMark: boolean,
): { readonly items: readonly TextItem[]; readonly height: number } {
  const room = { from: MARKS_COLUMN + PATTERN_CLEARANCE, to: width - PATTERN_CLEARANCE };
  const inner = room.to - room.from;
  const [name = '', ...rest] = words;
  // On a wide board the words stand in its middle, on a narrow one between the marks and the far edge.
  const aside = Math.max(0, room.from - (width - room.to));
  const centred = setLines(rest, SMALL_LETTERS, width - 2 * room.from).length === rest.length;
  const x = centred ? width / 2 : width / 2 + aside / 2;
  const at = centred ? { x, width: width - 2 * room.from } : { x, width: inner };
  const heading = hangingBlock([name], wholeWordHeight([name], at.width, PATTERN_LETTERS), {
    ...at,
    top: -2 * PATTERN_CLEARANCE,
  });
  const small = wholeWordHeight(rest, at.width, SMALL_LETTERS);
  const body = hangingBlock(rest, small, { ...at, top: heading.bottom - PATTERN_CLEARANCE });
  const needed = 2 * PATTERN_CLEARANCE - body.bottom;
  return {
    items: [...heading.items, ...body.items],
    height: Math.max(needed, marksHeight(withFaceMark) + PATTERN_CLEARANCE),
  };
}

/** Words for the inside face: each line turned by half a turn about its middle, and stacked from the baseline outward. */
function headDown(item: TextItem): TextItem {
  return { ...item, at: { x: item.at.x, y: -item.at.y }, angle: Math.PI };
}

function movedText(item: TextItem, dy: number): TextItem {
  return { ...item, at: { x: item.at.x, y: item.at.y + dy } };
}

function referenceMarks(from: number, height: number, withFaceMark: boolean): readonly Item[] {
  const words = textWidth(REFERENCE_WORDS, REFERENCE_LETTERS);
  const start = from + (height - marksHeight(withFaceMark)) / 2 + PATTERN_CLEARANCE;
  const wordsFrom = start + EDGE_MARK.height + PATTERN_CLEARANCE;
  return [
    ...edgeMark({ x: 0, y: start + EDGE_MARK.height / 2 }),
    {
      kind: 'text',
      layer: 'ENGRAVE',
      text: REFERENCE_WORDS,
      at: { x: 1.6 + REFERENCE_LETTERS, y: wordsFrom },
      height: REFERENCE_LETTERS,
      angle: Math.PI / 2,
      align: 'start',
    },
    ...(withFaceMark ? [faceMark({ x: 0, y: wordsFrom + words + PATTERN_CLEARANCE })] : []),
  ];
}
