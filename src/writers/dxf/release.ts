import DxfFile from 'dxf-writer';
import { type Layer, layers } from '../../drawing/model.js';
import { colourNumber, trueColour } from './colours.js';
import type { DxfEntity } from './entities.js';
import { corners, type DxfContent, dxfText, METRIC, type Tag, tagText } from './tags.js';

/** Release names of the DXF Reference, $ACADVER. */
const releases = { r2000: 'AC1015', r2007: 'AC1021' } as const;

type Version = keyof typeof releases;

/**
 * A DXF of release 2000 or 2007. The frame of the file (tables, block records, dictionaries, their handles) comes
 * from the dxf-writer package; what it has no door for is settled on the frame's tags. Entities, of which there are
 * thousands, are put into it as text: the package sets their layer and colour after the subclass marker that they
 * belong before, and to settle that afterwards took longer than all the rest.
 */
export function dxfRelease(content: DxfContent, version: Version): string {
  const { head, tail, handles, modelSpace } = frameOf(content, version);
  const common = new Map(layers.map((layer) => [layer, commonText(layer, content, version)]));
  const entities = content.entities.map((one, i) =>
    entityText(one, `${hex(handles + 1 + i)}\n330\n${modelSpace}\n${common.get(one.layer)}`),
  );
  const seeded = head.map(
    (tag, i): Tag =>
      isAfter(head, i, '$HANDSEED') ? [tag[0], hex(handles + 1 + content.entities.length)] : tag,
  );
  return `${dxfText(seeded)}${entities.join('')}${dxfText(tail)}`;
}

/** A file without entities: its tags before them and after them, how many handles it has, whose the entities are. */
interface FileFrame {
  readonly head: readonly Tag[];
  readonly tail: readonly Tag[];
  readonly handles: number;
  readonly modelSpace: string;
}

function frameOf({ extents, colours }: DxfContent, version: Version): FileFrame {
  const file = new DxfFile();
  const { least, most } = corners(extents);
  file.setUnits('Millimeters').header('MEASUREMENT', [[70, METRIC]]);
  file.header('EXTMIN', least).header('EXTMAX', most);
  for (const layer of layers) file.addLayer(layer, colourNumber(colours[layer]), 'CONTINUOUS');
  const named = released(tagsOf(file.toDxfString()), releases[version]);
  const { tags, handles } = numberedAfresh(version === 'r2007' ? trulyColoured(named, colours) : named);
  const entities = tags.findIndex(([code, value]) => code === 2 && value === 'ENTITIES') + 1;
  const space = tags.findIndex(([code, value], i) => code === 2 && value === MODEL_SPACE && isBlock(tags, i));
  const modelSpace = tags.slice(0, space).findLast(([code]) => code === 5)?.[1];
  return {
    head: tags.slice(0, entities),
    tail: tags.slice(entities),
    handles,
    modelSpace: String(modelSpace),
  };
}

const MODEL_SPACE = '*Model_Space';

/** Whether the record that holds the tag at i is a block, and not the entry in the table of blocks. */
const isBlock = (tags: readonly Tag[], i: number): boolean =>
  tags.slice(0, i).findLast(([code]) => code === 0)?.[1] === 'BLOCK';

/** What stands between an entity's owner and its own subclass marker. */
function commonText(layer: Layer, { colours }: DxfContent, version: Version): string {
  const colour = colours[layer];
  return [
    tagText(100, 'AcDbEntity'),
    tagText(8, layer),
    tagText(62, colourNumber(colour)),
    ...(version === 'r2007' ? [tagText(420, trueColour(colour))] : []),
  ].join('');
}

function entityText(one: DxfEntity, handleAndCommon: string): string {
  switch (one.kind) {
    case 'polyline': {
      const { vertices, closed } = one;
      let text = `0\nLWPOLYLINE\n5\n${handleAndCommon}100\nAcDbPolyline\n90\n${vertices.length}\n70\n${closed ? 1 : 0}\n`;
      for (const { x, y, bulge } of vertices) {
        text += tagText(10, x) + tagText(20, y);
        if (bulge !== 0) text += tagText(42, bulge);
      }
      return text;
    }
    case 'line':
      return `0\nLINE\n5\n${handleAndCommon}100\nAcDbLine\n${placeText(0, one.from)}${placeText(1, one.to)}`;
    case 'arc': {
      const { center, radius, start, end } = one;
      const circle = `100\nAcDbCircle\n${placeText(0, center)}${tagText(40, radius)}`;
      return `0\nARC\n5\n${handleAndCommon}${circle}100\nAcDbArc\n${tagText(50, start)}${tagText(51, end)}`;
    }
  }
}

/** An entity's first point (0) or second one (1). */
const placeText = (which: 0 | 1, { x, y }: { readonly x: number; readonly y: number }): string =>
  tagText(10 + which, x) + tagText(20 + which, y) + tagText(30 + which, 0);

function tagsOf(text: string): readonly Tag[] {
  const lines = text.split('\n');
  return Array.from({ length: lines.length / 2 }, (_, i) => [Number(lines[2 * i]), lines[2 * i + 1] ?? '']);
}

const isAfter = (tags: readonly Tag[], i: number, name: string): boolean => tags[i - 1]?.[1] === name;

const released = (tags: readonly Tag[], release: string): readonly Tag[] =>
  tags.map((tag, i) => (isAfter(tags, i, '$ACADVER') ? [tag[0], release] : tag));

/** Entries of the table of layers with their true colours beside the numbered ones. */
function trulyColoured(tags: readonly Tag[], colours: DxfContent['colours']): readonly Tag[] {
  let layer: Layer | undefined;
  return tags.flatMap((tag): readonly Tag[] => {
    const [code, value] = tag;
    if (code === 0) layer = undefined;
    if (code === 2) layer = layers.find((one) => one === value);
    return code === 62 && layer ? [tag, [420, trueColour(colours[layer])]] : [tag];
  });
}

/**
 * The package counts handles on from one drawing to the next. They are moved down so that the first is 1, as
 * in a fresh process: then a drawing has the same bytes whatever was written before it.
 */
function numberedAfresh(tags: readonly Tag[]): { readonly tags: readonly Tag[]; readonly handles: number } {
  const own = tags
    .filter(([code], i) => code === 5 && !isAfter(tags, i, '$HANDSEED'))
    .map(([, value]) => fromHex(value));
  const before = own.reduce((least, one) => Math.min(least, one), Number.POSITIVE_INFINITY) - 1;
  const last = own.reduce((most, one) => Math.max(most, one), 0);
  const numbered = tags.map((tag): Tag => {
    const [code, value] = tag;
    return handleCodes.has(code) && value !== '0' ? [code, hex(fromHex(value) - before)] : tag;
  });
  return { tags: numbered, handles: last - before };
}

/** An object's own handle, its owner, an entry of a dictionary: the ones that the package writes. */
const handleCodes: ReadonlySet<number> = new Set([5, 330, 350]);

const hex = (value: number): string => value.toString(16).toUpperCase();
const fromHex = (value: string | number): number => Number.parseInt(String(value), 16);
