import { type Finding, given, isRefused, type Result, refused } from '../findings/finding.js';
import type { TestCutBoard, TestCutRequest } from './assemble.js';
import { type Box, evenOdd, extents, type Polygon, union } from './polygons.js';
import { readDxf, readSvg, type WrittenDrawing } from './read.js';
import type { Stops } from './route.js';

/** What the test cut takes from report.json: millimetres and degrees. */
export interface ReportedJoint {
  readonly joint: string;
  readonly kind: string;
  readonly width: number;
  readonly cuts: readonly {
    readonly board: string;
    /** Name of the template's files, without their extension. */
    readonly template: string;
    /** The files that a long template was written as instead: a point (x, y) of each is the template's (x + shift, y). */
    readonly parts?: readonly { readonly template: string; readonly shift: number }[];
    readonly bit: { readonly diameter: number; readonly angle?: number };
    readonly bushing: number;
    readonly depth: number;
    /** A point (x′, y′) of this cut is drawn at (x − x′, y − y′) in the file; left out where it is drawn as it is. */
    readonly placed?: { readonly x: number; readonly y: number };
    /** x of the board's reference edge at each stop; left out where 0 is the only one. */
    readonly stops?: readonly number[];
    /** From and to, along x, of an opening that is used at the first stop only. */
    readonly leaveOut?: readonly [number, number];
    /** Rectangles of the boards under the template. */
    readonly boards: readonly {
      readonly board: string;
      readonly from: readonly [number, number];
      readonly to: readonly [number, number];
    }[];
  }[];
}

/** A written template: `finger-template-tails.dxf` and its text. */
export interface WrittenFile {
  readonly name: string;
  readonly text: string;
}

/**
 * The request of a test cut from a report and the written templates that it names, DXF or SVG by their
 * names. Refuses with every finding of the readers. A template that is missing is a mistake of the caller's.
 */
export function requestOf(report: ReportedJoint, files: readonly WrittenFile[]): Result<TestCutRequest> {
  const findings: Finding[] = [];
  const boards: TestCutBoard[] = [];
  for (const cut of report.cuts) {
    const under = cut.boards.find(({ board }) => board === cut.board);
    if (!under) throw new Error(`the report gives no rectangle of board "${cut.board}"`);
    const drawing = readTemplate(cut, files);
    findings.push(...drawing.findings);
    if (!drawing.ok) continue;
    boards.push({
      board: cut.board,
      cutter: { diameter: cut.bit.diameter, angle: ((cut.bit.angle ?? 0) * Math.PI) / 180 },
      bushing: cut.bushing,
      depth: cut.depth,
      thickness: under.to[1] - under.from[1],
      drawing: withStockAt(under, placed(drawing.value, cut.placed)),
      ...(cut.stops ? { stops: stopsOf(cut.stops, cut.leaveOut) } : {}),
    });
  }
  const { joint, kind, width } = report;
  return isRefused(findings) ? refused(findings) : given({ joint, kind, width, boards }, findings);
}

type ReportedCut = ReportedJoint['cuts'][number];

/**
 * The template of a cut, from its own file or, where it is longer than the bed, from the files of its parts. A
 * file that is missing is a mistake of the caller's.
 */
export function readTemplate(
  { template, parts, boards, placed: at }: Pick<ReportedCut, 'template' | 'parts' | 'boards' | 'placed'>,
  files: readonly WrittenFile[],
): Result<WrittenDrawing> {
  const find = (wanted: string) =>
    files.find(({ name }) => name === `${wanted}.dxf` || name === `${wanted}.svg`);
  const file = find(template);
  if (file) return readDrawing(file);
  if (!parts) throw new Error(`no file of the template "${template}"`);
  const read = parts.map((part) => {
    const one = find(part.template);
    if (!one) throw new Error(`no file of the template "${part.template}"`);
    const drawing = readDrawing(one);
    return drawing.ok
      ? given(eachRing(drawing.value, (ring) => ring.map(({ x, y }) => ({ x: x + part.shift, y }))))
      : drawing;
  });
  const findings = read.flatMap((one) => one.findings);
  const drawings = read.flatMap((one) => (one.ok ? [one.value] : []));
  return isRefused(findings)
    ? refused(findings)
    : given(
        joined(
          template,
          drawings,
          boards.map((board) => boxOf(board, at)),
        ),
        findings,
      );
}

/** The parts laid against one another. The boards under them stay apart from one another, though two may touch. */
function joined(name: string, parts: readonly WrittenDrawing[], boards: readonly Box[]): WrittenDrawing {
  const on = (layer: string) => parts.map((part) => part.layers[layer] ?? []);
  const stock = on('STOCK').flat();
  return {
    name,
    layers: {
      CUT: union(on('CUT').flatMap(evenOdd)),
      STOCK: boards.flatMap((board) => union(stock.filter((ring) => liesIn(ring, board)))),
    },
  };
}

/** A board's rectangle as it lies in the file, where the cut may be turned by half a turn. */
function boxOf({ from, to }: ReportedCut['boards'][number], at: ReportedCut['placed']): Box {
  const [minX, minY, maxX, maxY] = at
    ? [at.x - to[0], at.y - to[1], at.x - from[0], at.y - from[1]]
    : [from[0], from[1], to[0], to[1]];
  return { minX, minY, maxX, maxY };
}

function readDrawing({ name, text }: WrittenFile): Result<WrittenDrawing> {
  return name.endsWith('.svg') ? readSvg(name, text) : readDxf(name, text);
}

function stopsOf(at: readonly number[], leaveOut: readonly [number, number] | undefined): Stops {
  return leaveOut ? { at, leaveOut } : { at };
}

/** The drawing in the cut's own template coordinates: half a turn puts every point back. */
function placed(drawing: WrittenDrawing, at: { readonly x: number; readonly y: number } | undefined) {
  return at ? eachRing(drawing, (ring) => ring.map(({ x, y }) => ({ x: at.x - x, y: at.y - y }))) : drawing;
}

function eachRing(drawing: WrittenDrawing, change: (ring: Polygon) => Polygon): WrittenDrawing {
  const layers = Object.entries(drawing.layers).map(([layer, rings]) => [layer, rings.map(change)] as const);
  return { ...drawing, layers: Object.fromEntries(layers) };
}

/** By its middle, for a board's outline may be drawn a hair off. */
function liesIn(ring: Polygon, { minX, minY, maxX, maxY }: Box): boolean {
  const box = extents([ring]);
  const [x, y] = [(box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2];
  return x > minX && x < maxX && y > minY && y < maxY;
}

/** Of several boards drawn under one template, the one whose middle lies nearest to the rectangle's. */
function withStockAt(
  { from, to }: ReportedJoint['cuts'][number]['boards'][number],
  drawing: WrittenDrawing,
): WrittenDrawing {
  const away = (ring: Polygon): number => {
    const box = extents([ring]);
    return Math.hypot(box.minX + box.maxX - from[0] - to[0], box.minY + box.maxY - from[1] - to[1]);
  };
  const [nearest] = [...(drawing.layers.STOCK ?? [])].sort((one, two) => away(one) - away(two));
  return { ...drawing, layers: { ...drawing.layers, STOCK: nearest ? [nearest] : [] } };
}
