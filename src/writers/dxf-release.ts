import DxfFile from 'dxf-writer';
import { layers } from '../drawing/model.js';
import { colourNumber, trueColour } from './dxf-colours.js';
import type { DxfEntity } from './dxf-entities.js';
import { corners, type DxfContent, METRIC, type Tag } from './dxf-tags.js';

/** Release names of the DXF Reference, $ACADVER. */
const releases = { r2000: 'AC1015', r2007: 'AC1021' } as const;

/**
 * The tags of a DXF of release 2000 or 2007. The frame of the file (tables, block records, dictionaries,
 * handles) and its entities come from the dxf-writer package; what it has no door for is settled on its
 * tags, in pure steps: the release, colours on entities, and handles that start afresh with every drawing.
 */
export function dxfRelease(content: DxfContent, version: keyof typeof releases): readonly Tag[] {
  const tags = frame(content);
  return numberedAfresh(coloured(released(tags, releases[version]), content, version === 'r2007'));
}

function frame({ entities, extents, colours }: DxfContent): readonly Tag[] {
  const file = new DxfFile();
  const { least, most } = corners(extents);
  file.setUnits('Millimeters').header('MEASUREMENT', [[70, METRIC]]);
  file.header('EXTMIN', least).header('EXTMAX', most);
  for (const layer of layers) {
    file.addLayer(layer, colourNumber(colours[layer]), 'CONTINUOUS').setActiveLayer(layer);
    for (const one of entities) if (one.layer === layer) draw(file, one);
  }
  return tagsOf(file.toDxfString());
}

function draw(file: DxfFile, one: DxfEntity): void {
  switch (one.kind) {
    case 'polyline': {
      const points = one.vertices.map(({ x, y, bulge }) => (bulge === 0 ? [x, y] : [x, y, bulge]));
      // A third number is the bulge; the package's types leave it out.
      file.drawPolyline(points as [number, number][], one.closed);
      return;
    }
    case 'line':
      file.drawLine(one.from.x, one.from.y, one.to.x, one.to.y);
      return;
    case 'arc':
      file.drawArc(one.center.x, one.center.y, one.radius, one.start, one.end);
      return;
  }
}

function tagsOf(text: string): readonly Tag[] {
  const lines = text.split('\n');
  return Array.from({ length: lines.length / 2 }, (_, i) => [Number(lines[2 * i]), lines[2 * i + 1] ?? '']);
}

function released(tags: readonly Tag[], release: string): readonly Tag[] {
  return tags.map((tag, i) => (tags[i - 1]?.[1] === '$ACADVER' ? [tag[0], release] : tag));
}

/**
 * Layers and entities with their colours. An entity's layer and colour stand before its own subclass marker,
 * where the reference has them; the package writes them after it, and "by layer" for a colour.
 */
function coloured(tags: readonly Tag[], { colours }: DxfContent, withTrue: boolean): readonly Tag[] {
  const colourOf = (name: string | number | undefined): readonly Tag[] => {
    const layer = layers.find((one) => one === name);
    if (layer === undefined) return [];
    const numbered: Tag = [62, colourNumber(colours[layer])];
    return withTrue ? [numbered, [420, trueColour(colours[layer])]] : [numbered];
  };
  return recordsOf(tags).flatMap((record): readonly Tag[] => {
    const kind = record[0]?.[1];
    if (kind === 'LAYER') {
      const colour = colourOf(groupOf(record, 2));
      return colour.length === 0 ? record : record.flatMap((tag) => (tag[0] === 62 ? colour : [tag]));
    }
    if (kind === undefined || !entityKinds.has(kind)) return record;
    const layer = groupOf(record, 8) ?? '';
    const own = record.filter(([code]) => !commonCodes.has(code));
    return own.flatMap((tag) => (tag[1] === 'AcDbEntity' ? [tag, [8, layer], ...colourOf(layer)] : [tag]));
  });
}

const entityKinds: ReadonlySet<string | number> = new Set(['LWPOLYLINE', 'LINE', 'ARC']);

/** Layer, colour, line type, line weight: the last two say "by layer", as do entities without them. */
const commonCodes: ReadonlySet<number> = new Set([8, 62, 6, 370]);

/** Tags by the record that they belong to: each begins with group code 0. */
function recordsOf(tags: readonly Tag[]): readonly (readonly Tag[])[] {
  const starts = tags.flatMap(([code], i) => (code === 0 ? [i] : []));
  return starts.map((from, i) => tags.slice(from, starts[i + 1]));
}

const groupOf = (record: readonly Tag[], code: number): string | number | undefined =>
  record.find((tag) => tag[0] === code)?.[1];

/**
 * The package counts handles on from one drawing to the next. They are moved down so that the first is 1, as
 * in a fresh process: then a drawing has the same bytes whatever was written before it.
 */
function numberedAfresh(tags: readonly Tag[]): readonly Tag[] {
  const isSeed = (i: number): boolean => tags[i - 1]?.[1] === '$HANDSEED';
  const own = tags.filter(([code], i) => code === 5 && !isSeed(i)).map(([, value]) => fromHex(value));
  const before = own.reduce((least, one) => Math.min(least, one), Number.POSITIVE_INFINITY) - 1;
  return tags.map((tag): Tag => {
    const [code, value] = tag;
    if (!handleCodes.has(code) || value === '0') return tag;
    return [code, (fromHex(value) - before).toString(16).toUpperCase()];
  });
}

/** An object's own handle, its owner, an entry of a dictionary: the ones that the package writes. */
const handleCodes: ReadonlySet<number> = new Set([5, 330, 350]);

const fromHex = (value: string | number): number => Number.parseInt(String(value), 16);
