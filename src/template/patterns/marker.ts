import { type Diagnostic, diagnostic } from '../../diagnostics/diagnostic.js';
import type { Formatter } from '../../diagnostics/formatter.js';
import { movedItem, shift } from '../../drawing/drawing.js';
import { hangingBlock, wholeWordHeight } from '../../drawing/lettering/label.js';
import { missingLetters } from '../../drawing/lettering/lettering.js';
import type { Drawing, Item, TextItem } from '../../drawing/model.js';
import { offsetRegion } from '../../geometry/offset.js';
import { areaOfRegion, rectangle } from '../../geometry/outline.js';
import { difference, intersection, union } from '../../geometry/regions/boolean.js';
import { clipLine } from '../../geometry/regions/clip.js';
import { mirrorY, translate } from '../../geometry/transform.js';
import type { Outline, Region } from '../../geometry/types.js';
import type { MarkerOptions } from '../../input/types.js';
import type { BoardMarking, SolvedJoint } from '../../joints/family.js';
import { slopeWords } from './slope.js';

/**
 * The marker: a thin plate for marking out this very joint by pencil or knife. It lies on a face of the board
 * and over its end at once, and lines are drawn along the edges of its windows and round the tips of its teeth.
 *
 * A pencil whose line is w wide, held against an edge, draws a line that begins at the edge and ends w from it:
 * its middle is w/2 away. Every guiding edge therefore lies w/2 behind the true boundary, measured square to it:
 *
 *     windows = waste ⊕ disc(w/2)
 *
 * so that the middle of the line is the boundary, whichever side of it is waste. That is why one marker serves
 * both boards, of which one keeps what the other loses: both are sawn so that the kerf's edge splits the line.
 * A knife's flat side runs on the edge itself: w = 0.
 *
 * The pin board of a through joint has, on its end grain, the very shape that the tail board has on its face,
 * and on its outside face the square lines of the tail board's end: the marker goes round the same outer
 * arris of the closed corner from either side. Where that is not so (half-blind), each board gets its own part.
 */
export interface Marker {
  readonly name: 'marker';
  readonly drawing: Drawing;
  readonly diagnostics: readonly Diagnostic[];
}

/** Width of a sharp pencil's line, mm. Common practice, no source. */
const PENCIL = 0.5;

/** Width of the strip that is glued under a marker of sheet and hooks on the arris, mm. */
const STRIP = 10;

/** Distance between the two parts on the sheet, mm. */
const APART = 12;

const MARKER_LETTERS = 2.2;
const MARKER_CLEARANCE = 2;

/** The narrowest strip of plate beside the windows that keeps the teeth together, mm. */
const MIN_WEB = 15;

/** On a narrow board words that would need more web than this are left to the notes, mm. */
const WIDEST_WEB = 45;

/** `holds` says on its label what the file holds: nominal outlines, or the path of what cuts them. */
export function markerOf(
  solved: SolvedJoint,
  options: MarkerOptions,
  jobTitle: string,
  fmt: Formatter,
  holds?: string,
): readonly Marker[] {
  const parts = partsOf(solved, options, jobTitle, { fmt, ...(holds !== undefined && { holds }) });
  if (parts.length === 0) return [];
  const letters = missingLetters(`${jobTitle}${solved.name}`);
  const how = howToMake(options);
  return [
    {
      name: 'marker',
      drawing: {
        title: `${jobTitle}: ${solved.name}, marker`,
        notes: [
          how,
          `Guiding edges stand back by half of a line ${fmt.length(options.line ?? PENCIL)} wide: the middle of the line is the true boundary.`,
          ...useOf(parts),
          'For the other face of the same board turn the marker over and fold it the other way, or square the lines across.',
          'Measure the marker before its first use; paper and card move with humidity.',
        ],
        items: stacked(parts),
      },
      diagnostics:
        letters.length > 0
          ? [
              diagnostic('letters-missing', 'caution', `joints.${solved.name}`, {
                text: `${jobTitle} — ${solved.name}`,
                letters: letters.join(' '),
              }),
            ]
          : [],
    },
  ];
}

/** Whether there is something to mark by a marker; other boards are marked from their full-size patterns, or along the template itself. */
export function hasMarker({ marker, markings }: SolvedJoint): boolean {
  const [first, second] = markings;
  return marker === true && second !== undefined && areaOfRegion(first?.outsideFace.waste ?? []) > 0;
}

/** What each part is laid on, for the notes. */
function useOf(parts: readonly Part[]): readonly string[] {
  return [...new Set(parts.flatMap(({ words }) => words.filter((one) => one.includes(': this part'))))];
}

function howToMake({ form }: MarkerOptions): string {
  return form === 'hook'
    ? `Cut from thin sheet; glue a straight strip ${STRIP} mm wide under the scored band, flush with both lines: it hooks on the arris.`
    : 'Cut from card or thin plastic; score the line half through and fold it back, to lie over the arris; cut the score through and hinge it with tape where the sheet is stiff.';
}

// Parts

/** A part of the marker: two panels with a fold or a strip between them, at y = 0, and a web for the words. */
interface Part {
  readonly width: number;
  /** Waste on both panels in the plane of the part, before the line is allowed for. */
  readonly waste: Region;
  /** y of the part's ends, the web left out. */
  readonly from: number;
  readonly to: number;
  readonly web: 'below' | 'above';
  readonly words: readonly string[];
  readonly line: number;
  readonly strip: number;
}

function partsOf(
  solved: SolvedJoint,
  options: MarkerOptions,
  jobTitle: string,
  { fmt, holds }: { readonly fmt: Formatter; readonly holds?: string },
): readonly Part[] {
  const [first, second] = solved.markings;
  if (!first || !second || !hasMarker(solved)) return [];
  const line = options.line ?? PENCIL;
  const strip = options.form === 'hook' ? STRIP : 0;
  const title = `${jobTitle} — ${solved.name}`;
  const common = [
    ...(holds === undefined ? [] : [holds]),
    ...(solved.slope === undefined ? [] : [slopeWords(solved.slope)]),
    line > 0 ? `for a line of ${fmt.length(line)}: split it` : 'for a knife, flat side to the marker',
    strip > 0 ? `strip ${fmt.length(strip)} wide under the scored band` : 'fold back on the scored line',
    'left end flush with the reference edge',
  ];
  const onFirst = `${first.board}: this part on the outside face, teeth over the end`;
  const shared = { width: first.width, line, strip };
  if (isSharedBy(first, second)) {
    const onSecond = `${second.board}: this part on the end, teeth over the outside face, tips on the baseline`;
    const words = [`${title}: marker`, ...common, onFirst, onSecond];
    return [
      { ...shared, ...outerArris(first, Math.max(first.material.thickness, second.depth), strip), words },
    ];
  }
  return [
    {
      ...shared,
      ...outerArris(first, first.material.thickness, strip),
      words: [`${title}: marker, ${first.board}`, ...common, onFirst],
    },
    {
      ...shared,
      ...innerArris(second, strip),
      words: [
        `${title}: marker, ${second.board}`,
        ...common,
        `${second.board}: this part on the inside face, the other over the end`,
      ],
    },
  ];
}

/** A board that loses on its end grain just what the other one keeps on its face can be marked with the same part. */
function isSharedBy(first: BoardMarking, second: BoardMarking): boolean {
  const panel = first.width * first.depth;
  const face = first.outsideFace.waste;
  const end = second.endGrain.waste;
  return (
    Math.abs(second.material.thickness - first.depth) < 1e-6 &&
    areaOfRegion(second.outsideFace.waste) > 0 &&
    Math.abs(areaOfRegion(face) + areaOfRegion(end) - panel) < 1e-3 &&
    areaOfRegion(intersection(face, end)) < 1e-3
  );
}

/** Outside face below y = 0, end grain above the strip, open at its far end so that teeth are left. */
function outerArris(marking: BoardMarking, reach: number, strip: number) {
  const { thickness } = marking.material;
  const face = marking.outsideFace.waste.map((one) => mirrorY(one));
  const past = Math.max(0, reach - thickness) + 1;
  const end = widened(
    placedRegion(marking.endGrain.waste, strip),
    { from: strip, to: strip + thickness },
    strip,
    past,
  );
  return { waste: union(face, end), from: -marking.depth, to: strip + reach, web: 'below' as const };
}

/** End grain below y = 0, inside face above the strip. */
function innerArris(marking: BoardMarking, strip: number) {
  const { thickness } = marking.material;
  const end = placedRegion(marking.endGrain.waste, -thickness);
  const face = widened(
    placedRegion(marking.insideFace.waste, strip),
    { from: strip, to: strip + marking.depth },
    strip,
    0,
  );
  return {
    waste: union(end, face),
    from: -thickness,
    to: strip + marking.depth,
    web: 'above' as const,
  };
}

function placedRegion(region: Region, dy: number): Region {
  return region.map((one) => translate(one, 0, dy));
}

/**
 * The waste of a panel, running on straight past the panel's beginning by `below` and past its end by `above`,
 * as wide as it meets them.
 */
function widened(
  region: Region,
  panel: { readonly from: number; readonly to: number },
  below: number,
  above: number,
): Region {
  const ends = [
    { at: panel.from, from: panel.from - below, to: panel.from },
    { at: panel.to, from: panel.to, to: panel.to + above },
  ].filter(({ from, to }) => to > from);
  return ends.reduce<Region>(
    (all, { at, from, to }) =>
      union(
        all,
        region.flatMap((one) => edgesOn(one, at)).map(([left, right]) => rectangle(left, from, right, to)),
      ),
    region,
  );
}

/** From and to, along x, of the straight edges of an outline that lie on the line at height y. */
function edgesOn({ segments }: Outline, y: number): readonly (readonly [number, number])[] {
  const on = (value: number) => Math.abs(value - y) < 1e-6;
  return segments
    .filter(({ kind, from, to }) => kind === 'line' && on(from.y) && on(to.y))
    .map(({ from, to }) => [Math.min(from.x, to.x), Math.max(from.x, to.x)]);
}

// Drawing

/** The parts one above the other, the first one at the bottom. */
function stacked(parts: readonly Part[]): readonly Item[] {
  const items: Item[] = [];
  let top: number | undefined;
  for (const part of parts) {
    const drawn = drawPart(part);
    const dy = top === undefined ? 0 : top + APART - drawn.from;
    items.push(...drawn.items.map((item) => movedItem(item, shift(0, dy))));
    top = drawn.to + dy;
  }
  return items;
}

function drawPart(part: Part): {
  readonly items: readonly Item[];
  readonly from: number;
  readonly to: number;
} {
  const { width, line, strip } = part;
  const back = line / 2;
  const words = webWords(part);
  // Teeth whose tips mark a baseline end half a line short of it; a web begins half a line behind the waste.
  const from = part.web === 'below' ? part.from - back - words.height : part.from;
  const to = part.web === 'above' ? part.to + back + words.height : part.to - back;
  const windows = back > 0 ? offsetRegion(part.waste, back) : part.waste;
  const plate = difference([rectangle(0, from, width, to)], windows);
  const webTop = part.web === 'below' ? part.from - back : to;
  return {
    from,
    to,
    items: [
      ...plate.map((outline: Outline): Item => ({ kind: 'closed', layer: 'CUT', outline })),
      ...[0, ...(strip > 0 ? [strip] : [])].flatMap((y) =>
        clipLine({ x: -1, y }, { x: width + 1, y }, plate).map(
          (path): Item => ({ kind: 'open', layer: 'SCORE', path }),
        ),
      ),
      ...words.items.map((item) => movedItem(item, shift(0, webTop))),
    ],
  };
}

/** The words in the web, hanging from y = 0, and the height of web that they need. */
function webWords({ words, width }: Part): { readonly items: readonly TextItem[]; readonly height: number } {
  const room = width - 2 * MARKER_CLEARANCE;
  const height = wholeWordHeight(words, room, MARKER_LETTERS);
  const hung = (count: number) =>
    hangingBlock(words.slice(0, count), height, { x: width / 2, top: -MARKER_CLEARANCE, width: room });
  const counts = words.map((_, i) => words.length - i);
  const block = hung(counts.find((count) => hung(count).bottom > -WIDEST_WEB) ?? 1);
  return { items: block.items, height: Math.max(MIN_WEB, MARKER_CLEARANCE - block.bottom) };
}
