import { type Finding, given, isRefused, type Result, refused } from '../findings/finding.js';
import type { TestCutBoard, TestCutRequest } from './assemble.js';
import { extents, type Polygon } from './polygons.js';
import { readDxf, readSvg, type WrittenDrawing } from './read.js';
import type { Stops } from './route.js';

/** What the test cut takes from report.json: millimetres and degrees. */
export interface ReportedJoint {
  readonly joint: string;
  readonly kind: string;
  readonly width: number;
  /** Only its codes are looked at: square tails are pared where `tails-to-pare` says so. */
  readonly findings?: readonly { readonly code: string }[];
  readonly cuts: readonly {
    readonly board: string;
    /** Name of the template's files, without their extension. */
    readonly template: string;
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
    const file = files.find(({ name }) => name === `${cut.template}.dxf` || name === `${cut.template}.svg`);
    if (!file) throw new Error(`no file of the template "${cut.template}"`);
    const drawing = readDrawing(file);
    findings.push(...drawing.findings);
    if (!drawing.ok) continue;
    for (const under of cut.boards) {
      boards.push({
        board: under.board,
        cutter: { diameter: cut.bit.diameter, angle: ((cut.bit.angle ?? 0) * Math.PI) / 180 },
        bushing: cut.bushing,
        depth: cut.depth,
        thickness: under.to[1] - under.from[1],
        drawing: withStockAt(under, placed(drawing.value, cut.placed)),
        ...(cut.stops ? { stops: stopsOf(cut.stops, cut.leaveOut) } : {}),
      });
    }
  }
  const { joint, kind, width } = report;
  const pared = report.findings?.some(({ code }) => code === 'tails-to-pare') ?? false;
  return isRefused(findings) ? refused(findings) : given({ joint, kind, width, boards, pared }, findings);
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
