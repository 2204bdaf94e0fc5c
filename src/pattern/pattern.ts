import { missingLetters, textWidth } from '../drawing/lettering.js';
import type { Drawing, Item, Layer, TextItem } from '../drawing/model.js';
import { type Finding, finding } from '../findings/finding.js';
import type { Say } from '../findings/say.js';
import { clipLine } from '../geometry/clip.js';
import { extents, rectangle } from '../geometry/outline.js';
import { mirrorY, translate } from '../geometry/transform.js';
import type { Outline, Path, Point } from '../geometry/types.js';
import type { BoardMarking, MarkedPanel, SolvedJoint } from '../joints/family.js';

/**
 * Full-size patterns: for each board one strip with its outside face, its end grain and its inside face, to be
 * folded over the board's end. x from the reference edge; y = 0 at the fold between the outside face (below)
 * and the end grain (above), mm.
 */
export interface Pattern {
  /** `pattern-tails`. */
  readonly name: string;
  readonly drawing: Drawing;
  readonly findings: readonly Finding[];
}

/** Paper beyond the baseline on each face, for the words and for holding on to, mm. */
const TAIL = 22;

const LETTERS = 3;
const SMALL_LETTERS = 2.2;

export function patterns(solved: SolvedJoint, jobTitle: string, say: Say): readonly Pattern[] {
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
          'Cut out, fold over the end of the board at the two dashed lines, reference edge on reference edge.',
        ],
        items: stripItems(marking, title, say),
      },
      findings:
        letters.length > 0
          ? [finding('letters-missing', 'caution', at, { text: title, letters: letters.join(' ') })]
          : [],
    };
  });
}

function stripItems(marking: BoardMarking, title: string, say: Say): readonly Item[] {
  const { width, depth, material, outsideFace, endGrain, insideFace } = marking;
  const { thickness } = material;
  const low = -depth - TAIL;
  const high = thickness + depth + TAIL;
  const fold = (y: number): Item => dashed({ x: 0, y }, { x: width, y });
  return [
    { kind: 'closed', layer: 'CUT', outline: rectangle(0, low, width, high) },
    fold(0),
    fold(thickness),
    baseline(-depth, width),
    baseline(thickness + depth, width),
    ...panelItems(outsideFace, (shape) => mirrorY(shape)),
    ...panelItems(endGrain, (shape) => shape),
    ...panelItems(insideFace, (shape) => translate(shape, 0, thickness)),
    ...faceWords(`OUTSIDE FACE`, [title, widthWords(width, say)], -depth - TAIL, -depth, width),
    ...faceWords('INSIDE FACE', [title, depthWords(depth, say)], thickness + depth, high, width),
    ...referenceWords(-depth - TAIL / 2, thickness + depth + TAIL / 2),
  ];
}

function widthWords(width: number, say: Say): string {
  return `width ${say.length(width)}`;
}

function depthWords(depth: number, say: Say): string {
  return `baseline ${say.length(depth)} from the end`;
}

/** Walls are scored, waste is crossed out. */
function panelItems(panel: MarkedPanel, place: <T extends Outline | Path>(shape: T) => T): readonly Item[] {
  return [
    ...panel.lines.map((path): Item => ({ kind: 'open', layer: 'SCORE', path: place(path) })),
    ...panel.waste.flatMap((outline) => wasteCross(place(outline))),
  ];
}

/** How far the ends of a waste cross keep from its corners, as a share of the diagonal. */
const CROSS_INSET = 0.12;

/** The two diagonals of a piece of waste, kept a little off its corners. */
function wasteCross(outline: Outline): readonly Item[] {
  const [a, b, c, d] = crossCorners(outline);
  return [
    [a, c],
    [b, d],
  ].flatMap(([from, to]) =>
    from && to
      ? clipLine(between(from, to, CROSS_INSET), between(from, to, 1 - CROSS_INSET), [outline]).map(
          (path): Item => ({ kind: 'open', layer: 'ENGRAVE', path }),
        )
      : [],
  );
}

/** The corners of a four-sided outline, or of the box around any other. */
function crossCorners(outline: Outline): readonly Point[] {
  if (outline.segments.length === 4) return outline.segments.map((segment) => segment.from);
  const { minX, minY, maxX, maxY } = extents(outline);
  return rectangle(minX, minY, maxX, maxY).segments.map((segment) => segment.from);
}

function between(from: Point, to: Point, share: number): Point {
  return { x: from.x + (to.x - from.x) * share, y: from.y + (to.y - from.y) * share };
}

function baseline(y: number, width: number): Item {
  return stroke('REF', { x: 0, y }, { x: width, y });
}

function dashed(from: Point, to: Point): Item {
  return { ...stroke('REF', from, to), dashed: true };
}

function stroke(layer: Layer, from: Point, to: Point): Item & { kind: 'open' } {
  return { kind: 'open', layer, path: { closed: false, segments: [{ kind: 'line', from, to }] } };
}

/** The name of a face and what else is worth saying, in the tail of paper beyond the baseline. */
function faceWords(
  name: string,
  lines: readonly string[],
  from: number,
  to: number,
  width: number,
): readonly Item[] {
  const x = width / 2;
  const first = (from + to) / 2 + 3;
  return [
    text(name, { x, y: first }, LETTERS, width),
    ...lines.map((line, i) => text(line, { x, y: first - (i + 1) * 5 }, SMALL_LETTERS, width)),
  ];
}

/** Words along the reference edge, reading upward. */
function referenceWords(...ys: readonly number[]): readonly Item[] {
  return ys.map((y) => ({
    kind: 'text',
    layer: 'ENGRAVE',
    text: 'REF EDGE',
    at: { x: 3.4, y },
    height: 1.8,
    angle: Math.PI / 2,
    align: 'middle',
  }));
}

/** One line of lettering, made smaller where the strip is narrow. */
function text(words: string, at: Point, height: number, width: number): TextItem {
  const fitting = (height * (width - 14)) / textWidth(words, height);
  return {
    kind: 'text',
    layer: 'ENGRAVE',
    text: words,
    at,
    height: Math.min(height, fitting),
    angle: 0,
    align: 'middle',
  };
}
