import { strToU8, zipSync } from 'fflate';
import type { Writer } from '../../drawing/model.js';
import { escaped } from '../../drawing/xml.js';
import type { Solid } from '../../geometry/solid.js';
import { decimal } from '../../units/decimal.js';

/** Objects that stand as their coordinates say, mm, all of them on the print bed. */
export interface SolidScene {
  readonly title: string;
  readonly notes: readonly string[];
  readonly objects: readonly SolidObject[];
}

export interface SolidObject {
  readonly name?: string;
  readonly solid: Solid;
}

/**
 * 3MF (3D Manufacturing Format, core specification 1) in millimetres, title and notes as its metadata. The parts of the
 * package carry a fixed time.
 */
export const threeMfWriter = { format: '3mf', extension: '3mf', write: threeMfOf } satisfies Writer<
  void,
  SolidScene
>;

function threeMfOf(scene: SolidScene): Uint8Array {
  const parts = {
    '[Content_Types].xml': CONTENT_TYPES,
    '_rels/.rels': RELATIONSHIPS,
    '3D/3dmodel.model': modelOf(scene),
  };
  return zipSync(
    Object.fromEntries(Object.entries(parts).map(([name, text]) => [name, strToU8(text)])),
    // The earliest time that a zip can hold, read in the local zone as it is written there: the same bytes anywhere.
    { level: 9, mtime: new Date(1980, 0, 1) },
  );
}

const XML = '<?xml version="1.0" encoding="UTF-8"?>';

const CONTENT_TYPES = `${XML}
<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="model" ContentType="application/vnd.ms-package.3dmanufacturing-3dmodel+xml"/></Types>
`;

const RELATIONSHIPS = `${XML}
<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Target="/3D/3dmodel.model" Id="model" Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"/></Relationships>
`;

function modelOf({ title, notes, objects }: SolidScene): string {
  return [
    XML,
    '<model unit="millimeter" xml:lang="en-US" xmlns="http://schemas.microsoft.com/3dmanufacturing/core/2015/02">',
    `<metadata name="Title">${escaped(title)}</metadata>`,
    `<metadata name="Description">${notes.map(escaped).join('\n')}</metadata>`,
    '<resources>',
    ...objects.flatMap((part, i) => objectOf(part, i + 1)),
    '</resources>',
    `<build>${objects.map((_, i) => `<item objectid="${i + 1}"/>`).join('')}</build>`,
    '</model>',
    '',
  ].join('\n');
}

function objectOf({ name, solid: { vertices, triangles } }: SolidObject, id: number): readonly string[] {
  const number = (value: number): string => decimal(value, 4);
  return [
    `<object id="${id}" type="model"${name === undefined ? '' : ` name="${escaped(name)}"`}><mesh>`,
    '<vertices>',
    ...vertices.map(([x, y, z]) => `<vertex x="${number(x)}" y="${number(y)}" z="${number(z)}"/>`),
    '</vertices>',
    '<triangles>',
    ...triangles.map(([a, b, c]) => `<triangle v1="${a}" v2="${b}" v3="${c}"/>`),
    '</triangles>',
    '</mesh></object>',
  ];
}
