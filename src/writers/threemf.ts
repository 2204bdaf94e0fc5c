import { strToU8, zipSync } from 'fflate';
import type { Drawing, Writer, WriterOptions } from '../drawing/model.js';
import { decimal } from './decimal.js';
import { type Solid, type SolidOptions, solidOf } from './solid.js';

export type ThreeMfOptions = WriterOptions & SolidOptions;

/**
 * 3MF (3D Manufacturing Format, core specification 1): one object in millimetres, the drawing's title and notes
 * as its metadata. No bytes when the drawing has no solid. The parts of the package carry a fixed time.
 */
export const threeMfWriter: Writer<ThreeMfOptions> = {
  format: '3mf',
  extension: '3mf',
  write: (drawing, options) => {
    const solid = solidOf(drawing, options);
    return solid === undefined ? new Uint8Array() : packed(solid, drawing);
  },
};

function packed(solid: Solid, drawing: Drawing): Uint8Array {
  const parts = {
    '[Content_Types].xml': CONTENT_TYPES,
    '_rels/.rels': RELATIONSHIPS,
    '3D/3dmodel.model': modelOf(solid, drawing),
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

function modelOf({ vertices, triangles }: Solid, { title, notes }: Drawing): string {
  const number = (value: number): string => decimal(value, 4);
  return [
    XML,
    '<model unit="millimeter" xml:lang="en-US" xmlns="http://schemas.microsoft.com/3dmanufacturing/core/2015/02">',
    `<metadata name="Title">${escaped(title)}</metadata>`,
    `<metadata name="Description">${notes.map(escaped).join('\n')}</metadata>`,
    '<resources><object id="1" type="model"><mesh>',
    '<vertices>',
    ...vertices.map(([x, y, z]) => `<vertex x="${number(x)}" y="${number(y)}" z="${number(z)}"/>`),
    '</vertices>',
    '<triangles>',
    ...triangles.map(([a, b, c]) => `<triangle v1="${a}" v2="${b}" v3="${c}"/>`),
    '</triangles>',
    '</mesh></object></resources>',
    '<build><item objectid="1"/></build>',
    '</model>',
    '',
  ].join('\n');
}

/** Text for XML 1.0: markup escaped, characters that XML cannot hold shown as U+FFFD. */
function escaped(words: string): string {
  return words
    .replace(/[^\t\n\r\u{20}-\u{D7FF}\u{E000}-\u{FFFD}\u{10000}-\u{10FFFF}]/gu, '\u{FFFD}')
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;');
}
