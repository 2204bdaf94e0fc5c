/// <reference path="./libraries.d.ts" />
import DxfParser, { type Entity, type Vertex } from 'dxf-parser';
import { diagnostic, err, ok, type Result } from '../../diagnostics/diagnostic.js';
import type { Spot } from '../cut/polygons.js';
import type { Chain } from './chains.js';
import { drawnEntities, unreadIn } from './dxf-entities.js';
import { flattenArc, flattenBulge, flattenCircle } from './flatten.js';

/** mm per drawing unit of the $INSUNITS that template files come in (DXF reference, HEADER section). */
const MM_PER_UNIT: Readonly<Record<number, number>> = { 1: 25.4, 2: 304.8, 4: 1, 5: 10, 6: 1000 };

/** The polylines, lines, arcs and circles of an ASCII DXF file as chains in mm, y up. */
export function chainsOfDxf(name: string, text: string): Result<readonly Chain[]> {
  const dxf = parsed(text);
  if (typeof dxf === 'string') {
    return err([diagnostic('drawing-unreadable', 'refused', name, { because: dxf })]);
  }
  const units = dxf.header.$INSUNITS;
  const scale = typeof units === 'number' ? MM_PER_UNIT[units] : undefined;
  if (scale === undefined) {
    const read = units === undefined ? 'no $INSUNITS' : `$INSUNITS ${units}`;
    return err([diagnostic('drawing-units', 'refused', name, { read })]);
  }
  const unread = unreadIn(text);
  if (unread) return err([diagnostic('drawing-unread', 'refused', name, unread)]);
  const entities = drawnEntities(dxf);
  if ('what' in entities) return err([diagnostic('drawing-unread', 'refused', name, entities)]);
  const chains = entities.flatMap(({ entity, place }) => {
    const chain = chainOf(entity, scale);
    return chain ? [{ ...chain, spots: chain.spots.map((spot) => place(spot, scale)) }] : [];
  });
  const wild = chains.some(({ spots }) => spots.some(({ x, y }) => !Number.isFinite(x + y)));
  if (wild) {
    return err([
      diagnostic('drawing-unreadable', 'refused', name, { because: 'a coordinate is not a number' }),
    ]);
  }
  return ok(chains);
}

/** Every ASCII DXF has a section; other text only makes the parser complain on the console. */
const SECTION = /^\s*0\s*\r?\n\s*SECTION\s*$/m;

function parsed(text: string) {
  if (!SECTION.test(text)) return 'it is no ASCII DXF';
  try {
    return new DxfParser().parseSync(text) ?? 'it is empty';
  } catch (error) {
    return error instanceof Error ? error.message : String(error);
  }
}

/** Lettering and other things that are not contours give nothing. */
function chainOf(entity: Entity, scale: number): Chain | undefined {
  const layer = entity.layer ?? '0';
  const { vertices, center, radius, startAngle, endAngle } = entity;
  if ((entity.type === 'LWPOLYLINE' || entity.type === 'POLYLINE') && vertices) {
    return { layer, closed: entity.shape === true, spots: polyline(vertices, entity.shape === true, scale) };
  }
  if (entity.type === 'LINE' && vertices) {
    return { layer, closed: false, spots: vertices.map((vertex) => scaled(vertex, scale)) };
  }
  if (!center || radius === undefined) return undefined;
  const middle = scaled(center, scale);
  if (entity.type === 'CIRCLE') {
    return { layer, closed: true, spots: flattenCircle(middle, radius * scale) };
  }
  if (entity.type === 'ARC' && startAngle !== undefined && endAngle !== undefined) {
    return { layer, closed: false, spots: flattenArc(middle, radius * scale, startAngle, endAngle) };
  }
  return undefined;
}

function polyline(vertices: readonly Vertex[], closed: boolean, scale: number): readonly Spot[] {
  const spots: Spot[] = [];
  for (const [index, vertex] of vertices.entries()) {
    const from = scaled(vertex, scale);
    if (index === 0) spots.push(from);
    const next = vertices[index + 1] ?? (closed ? vertices[0] : undefined);
    if (!next) break;
    spots.push(...flattenBulge(from, scaled(next, scale), vertex.bulge ?? 0));
  }
  // A closed ring came back to its first spot.
  return closed ? spots.slice(0, -1) : spots;
}

function scaled(spot: { readonly x: number; readonly y: number }, scale: number): Spot {
  return { x: spot.x * scale, y: spot.y * scale };
}
