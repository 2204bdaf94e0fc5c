import { type Layer, layers } from '../../drawing/model.js';
import { colourNumber } from './colours.js';
import type { DxfEntity } from './entities.js';
import { corners, type DxfContent, METRIC, MILLIMETRES, type Tag } from './tags.js';

/**
 * The tags of a DXF of release 12 (AC1009), which has no lightweight polylines: each is a POLYLINE with its
 * VERTEX entities and a SEQEND. Release 12 knows neither $INSUNITS nor $MEASUREMENT; most readers of today
 * look for both all the same, so they are there.
 */
export function dxfR12(content: DxfContent): readonly Tag[] {
  const entities = content.entities.flatMap((one) =>
    entityTags(one, colourNumber(content.colours[one.layer])),
  );
  const numbered = withHandles(entities);
  return [
    ...section('HEADER', header(content, numbered.next)),
    ...section('TABLES', [...lineTypes, ...layerTable(content)]),
    ...section('BLOCKS', []),
    ...section('ENTITIES', numbered.tags),
    [0, 'EOF'],
  ];
}

const section = (name: string, tags: readonly Tag[]): readonly Tag[] => [
  [0, 'SECTION'],
  [2, name],
  ...tags,
  [0, 'ENDSEC'],
];

function header({ extents }: DxfContent, nextHandle: string): readonly Tag[] {
  const { least, most } = corners(extents);
  return [
    [9, '$ACADVER'],
    [1, 'AC1009'],
    [9, '$HANDLING'],
    [70, 1],
    [9, '$HANDSEED'],
    [5, nextHandle],
    [9, '$INSUNITS'],
    [70, MILLIMETRES],
    [9, '$MEASUREMENT'],
    [70, METRIC],
    [9, '$EXTMIN'],
    ...least,
    [9, '$EXTMAX'],
    ...most,
  ];
}

const lineTypes: readonly Tag[] = [
  [0, 'TABLE'],
  [2, 'LTYPE'],
  [70, 1],
  [0, 'LTYPE'],
  [2, 'CONTINUOUS'],
  [70, 0],
  [3, 'Solid line'],
  [72, 65],
  [73, 0],
  [40, 0],
  [0, 'ENDTAB'],
];

function layerTable({ colours }: DxfContent): readonly Tag[] {
  const entry = (name: string, colour: number): readonly Tag[] => [
    [0, 'LAYER'],
    [2, name],
    [70, 0],
    [62, colour],
    [6, 'CONTINUOUS'],
  ];
  return [
    [0, 'TABLE'],
    [2, 'LAYER'],
    [70, layers.length + 1],
    ...entry('0', 7),
    ...layers.flatMap((layer) => entry(layer, colourNumber(colours[layer]))),
    [0, 'ENDTAB'],
  ];
}

function entityTags(one: DxfEntity, colour: number): readonly Tag[] {
  switch (one.kind) {
    case 'polyline':
      return [
        ...head('POLYLINE', one.layer, colour),
        [66, 1],
        ...pointTags(0, 0),
        [70, one.closed ? 1 : 0],
        ...one.vertices.flatMap(({ x, y, bulge }): readonly Tag[] => [
          ...head('VERTEX', one.layer, colour),
          ...pointTags(x, y),
          ...(bulge === 0 ? [] : ([[42, bulge]] as const)),
        ]),
        ...head('SEQEND', one.layer, colour),
      ];
    case 'line':
      return [
        ...head('LINE', one.layer, colour),
        ...pointTags(one.from.x, one.from.y),
        ...endPlace(one.to.x, one.to.y),
      ];
    case 'arc':
      return [
        ...head('ARC', one.layer, colour),
        ...pointTags(one.center.x, one.center.y),
        [40, one.radius],
        [50, one.start],
        [51, one.end],
      ];
  }
}

const head = (kind: string, layer: Layer, colour: number): readonly Tag[] => [
  [0, kind],
  [8, layer],
  [62, colour],
];

const pointTags = (x: number, y: number): readonly Tag[] => [
  [10, x],
  [20, y],
  [30, 0],
];

const endPlace = (x: number, y: number): readonly Tag[] => [
  [11, x],
  [21, y],
  [31, 0],
];

/** A handle, counted from 1, after the name of each entity; and the next free one. */
function withHandles(tags: readonly Tag[]): { readonly tags: readonly Tag[]; readonly next: string } {
  let count = 0;
  const hex = (value: number): string => value.toString(16).toUpperCase();
  const numbered = tags.flatMap((tag): readonly Tag[] => {
    if (tag[0] !== 0) return [tag];
    count += 1;
    return [tag, [5, hex(count)]];
  });
  return { tags: numbered, next: hex(count + 1) };
}
