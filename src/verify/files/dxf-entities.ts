/// <reference path="./libraries.d.ts" />
import type { Dxf, Entity } from 'dxf-parser';
import type { Spot } from '../cut/polygons.js';

/** What stands in a DXF file that a machine may cut: entities in model space, and blocks where they are inserted. */

/** Layers on which nothing is cut: lettering, what is for reading, and what CAD programs keep for themselves. */
const UNCUT_LAYERS = ['ENGRAVE', 'REF', 'DEFPOINTS'];
/** Layers whose contours are read. */
const READ_LAYERS = ['CUT', 'STOCK', 'SCORE'];

/** Entities that are read, with what they consist of. */
const READ = ['LWPOLYLINE', 'POLYLINE', 'VERTEX', 'SEQEND', 'LINE', 'ARC', 'CIRCLE', 'INSERT'];
/** Entities that hold no contour; on a layer that is cut they are refused all the same. */
const NO_CONTOUR = ['TEXT', 'MTEXT', 'ATTDEF', 'ATTRIB', 'POINT', 'DIMENSION', 'LEADER', 'VIEWPORT', 'IMAGE'];

export interface Unread {
  readonly what: string;
  readonly layer: string;
}

/** What a program would cut and the parser drops, changes or lays elsewhere; undefined where there is nothing of the kind. */
export function unreadIn(text: string): Unread | undefined {
  const entities = entitiesOf(text);
  const used = new Set(
    entities.flatMap(({ type, block, name }) => (type === 'INSERT' && !block ? [name] : [])),
  );
  for (const { type, layer, block, isOnPaper, extrusion } of entities) {
    if (isOnPaper || UNCUT_LAYERS.includes(layer) || (block !== undefined && !used.has(block))) continue;
    const isRead = READ_LAYERS.includes(layer) || (layer === '0' && block !== undefined) || type === 'INSERT';
    if (NO_CONTOUR.includes(type) && !READ_LAYERS.includes(layer)) continue;
    if (!READ.includes(type) || (!isRead && type !== 'SEQEND' && type !== 'VERTEX'))
      return { what: type, layer };
    if (Math.abs(extrusion - 1) > 1e-9)
      return { what: `${type} seen from below (extrusion ${extrusion})`, layer };
  }
  return undefined;
}

interface RawEntity {
  readonly type: string;
  readonly layer: string;
  /** The block that it stands in; absent in model space. */
  readonly block?: string;
  /** Group 2: of an INSERT the block. */
  readonly name: string;
  readonly isOnPaper: boolean;
  /** z of the direction that it is seen from; 1 from above. */
  readonly extrusion: number;
}

/** Every entity by its group codes: 0 type, 8 layer, 2 name, 67 paper space, 230 z of its extrusion (DXF reference, ENTITIES). */
function entitiesOf(text: string): readonly RawEntity[] {
  const lines = text.split(/\r?\n/);
  const found: RawEntity[] = [];
  let [section, block]: [string, string | undefined] = ['', undefined];
  for (let i = 0; i + 1 < lines.length; ) {
    const type = (lines[i + 1] ?? '').trim();
    const isStart = (lines[i] ?? '').trim() === '0';
    const groups = new Map<number, string>();
    for (i += 2; i + 1 < lines.length && (lines[i] ?? '').trim() !== '0'; i += 2) {
      const code = Number(lines[i]);
      if (!groups.has(code)) groups.set(code, (lines[i + 1] ?? '').trim());
    }
    if (!isStart) continue;
    if (type === 'SECTION') section = groups.get(2) ?? '';
    if (type === 'ENDSEC') section = '';
    if (type === 'BLOCK') block = groups.get(2) ?? '';
    if (type === 'ENDBLK') block = undefined;
    const isEntity = section === 'ENTITIES' || (section === 'BLOCKS' && block !== undefined);
    if (!isEntity || ['SECTION', 'ENDSEC', 'BLOCK', 'ENDBLK'].includes(type)) continue;
    found.push({
      type,
      layer: groups.get(8) ?? '0',
      name: groups.get(2) ?? '',
      isOnPaper: groups.get(67) === '1',
      extrusion: Number(groups.get(230) ?? 1),
      ...(section === 'BLOCKS' && block !== undefined && { block }),
    });
  }
  return found;
}

interface DrawnEntity {
  readonly entity: Entity;
  /** Where a spot of it lies in model space; the scale is that of the drawing's units. */
  readonly place: (spot: Spot, scale: number) => Spot;
}

/** The entities of model space, and of blocks that are inserted at their own size. */
export function drawnEntities({ entities, blocks = {} }: Dxf): readonly DrawnEntity[] | Unread {
  const drawn: DrawnEntity[] = [];
  for (const entity of entities.filter(({ inPaperSpace }) => !inPaperSpace)) {
    if (entity.type !== 'INSERT') {
      drawn.push({ entity, place: (spot) => spot });
      continue;
    }
    const layer = entity.layer ?? '0';
    const {
      position = { x: 0, y: 0 },
      rotation = 0,
      xScale = 1,
      yScale = 1,
      columnCount = 1,
      rowCount = 1,
    } = entity;
    const block = blocks[entity.name ?? ''];
    const isPlain = xScale === 1 && yScale === 1 && columnCount <= 1 && rowCount <= 1;
    const isNested = block?.entities?.some(({ type }) => type === 'INSERT');
    if (!block || !isPlain || isNested) {
      return { what: `block ${entity.name} (scaled, repeated or nested)`, layer };
    }
    const base = block.position ?? { x: 0, y: 0 };
    const [cos, sin] = [Math.cos((rotation * Math.PI) / 180), Math.sin((rotation * Math.PI) / 180)];
    const place = ({ x, y }: Spot, scale: number): Spot => {
      const [dx, dy] = [x - base.x * scale, y - base.y * scale];
      return { x: position.x * scale + cos * dx - sin * dy, y: position.y * scale + sin * dx + cos * dy };
    };
    // What a block draws on layer 0 goes to the layer that it is inserted on.
    for (const one of block.entities ?? []) {
      drawn.push({ entity: (one.layer ?? '0') === '0' ? { ...one, layer } : one, place });
    }
  }
  return drawn;
}
