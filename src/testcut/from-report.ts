import { type Finding, given, isRefused, type Result, refused } from '../findings/finding.js';
import type { TestCutBoard, TestCutRequest } from './assemble.js';
import { readDxf, readSvg, type WrittenDrawing } from './read.js';

/** What the test cut takes from report.json: millimetres and degrees. */
export interface ReportedJoint {
  readonly joint: string;
  readonly kind: string;
  readonly width: number;
  readonly cuts: readonly {
    readonly board: string;
    /** Name of the template's files, without their extension. */
    readonly template: string;
    readonly bit: { readonly diameter: number; readonly angle?: number };
    readonly bushing: number;
    readonly depth: number;
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
    const file = files.find(({ name }) => name === `${cut.template}.dxf` || name === `${cut.template}.svg`);
    if (!file) throw new Error(`no file of the template "${cut.template}"`);
    const drawing = readDrawing(file);
    findings.push(...drawing.findings);
    if (!drawing.ok) continue;
    boards.push({
      board: cut.board,
      cutter: { diameter: cut.bit.diameter, angle: ((cut.bit.angle ?? 0) * Math.PI) / 180 },
      bushing: cut.bushing,
      depth: cut.depth,
      thickness: under.to[1] - under.from[1],
      drawing: drawing.value,
    });
  }
  const { joint, kind, width } = report;
  return isRefused(findings) ? refused(findings) : given({ joint, kind, width, boards }, findings);
}

function readDrawing({ name, text }: WrittenFile): Result<WrittenDrawing> {
  return name.endsWith('.svg') ? readSvg(name, text) : readDxf(name, text);
}
