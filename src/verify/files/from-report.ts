import { type Diagnostic, err, hasErrors, ok, type Result } from '../../diagnostics/diagnostic.js';
import type { TestCutBoard, TestCutRequest } from '../assemble.js';
import { extents, type Polygon } from '../cut/polygons.js';
import type { Stops } from '../cut/route.js';
import type { WrittenDrawing } from './read.js';
import { readTemplate } from './read-template.js';
import type { ReportedJoint, WrittenFile } from './reported.js';
import { eachRing } from './rings.js';

export type { ReportedJoint, WrittenFile } from './reported.js';

/**
 * The request of a test cut from a report and the written templates that it names, DXF or SVG by their
 * names. Refuses with every diagnostic of the readers. A template that is missing and a report that does not say how the
 * boards come together are mistakes of the caller's.
 */
export function requestOf(
  report: ReportedJoint,
  files: readonly WrittenFile[],
  isAnywhere = false,
): Result<TestCutRequest> {
  const { assembly } = report;
  if (!assembly) throw new Error(`the report of ${report.joint} does not say how its boards come together`);
  const diagnostics: Diagnostic[] = [];
  const boards: TestCutBoard[] = [];
  for (const cut of report.cuts) {
    const drawing = readTemplate(cut, files, report.holds?.width, isAnywhere);
    diagnostics.push(...drawing.diagnostics);
    if (!drawing.ok) continue;
    for (const under of cut.boards) {
      boards.push({
        board: under.board,
        cutter: {
          diameter: cut.bit.diameter,
          angle: ((cut.bit.angle ?? 0) * Math.PI) / 180,
          ...(cut.bit.height !== undefined && { height: cut.bit.height }),
        },
        bushing: cut.bushing,
        depth: cut.depth,
        thickness: under.thickness ?? under.to[1] - under.from[1],
        rectangle: { minX: under.from[0], minY: under.from[1], maxX: under.to[0], maxY: under.to[1] },
        drawing: withStockAt(under, placedDrawing(drawing.value, cut.placed)),
        ...(cut.stops ? { stops: stopsOf(cut.stops, cut.leaveOut) } : {}),
        ...(cut.backing !== undefined && { backing: cut.backing }),
      });
    }
  }
  const { joint, width, layout, thickness, lip, plate, wanted } = report;
  const hidden = assembly.way === 'sunk' ? assembly.boards[1] : undefined;
  const front = hidden === undefined ? undefined : thickness?.[hidden];
  const about = {
    ...(layout && { layout }),
    ...(wanted && { wanted }),
    ...(hidden !== undefined &&
      front !== undefined && { front: { board: hidden, thickness: front, ...(lip && { lip }) } }),
    ...(plate && { leastFinger: plate.leastFinger }),
  };
  return hasErrors(diagnostics)
    ? err(diagnostics)
    : ok({ joint, assembly, width, boards, ...about }, diagnostics);
}

export function stopsOf(at: readonly number[], leaveOut: readonly [number, number] | undefined): Stops {
  return leaveOut ? { at, leaveOut } : { at };
}

/** The drawing in the cut's own template coordinates: half a turn puts every point back. */
export function placedDrawing(
  drawing: WrittenDrawing,
  at: { readonly x: number; readonly y: number } | undefined,
) {
  return at ? eachRing(drawing, (ring) => ring.map(({ x, y }) => ({ x: at.x - x, y: at.y - y }))) : drawing;
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
