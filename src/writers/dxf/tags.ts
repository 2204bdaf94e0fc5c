import type { Colours } from '../../../shared/operations.js';
import { fileDecimals } from '../../drawing/contours.js';
import type { Extents } from '../../geometry/types.js';
import { decimal } from '../../units/decimal.js';
import type { DxfEntity } from './entities.js';

/** What both DXF writers put into a file. */
export interface DxfContent {
  readonly entities: readonly DxfEntity[];
  /** Of everything that is drawn; undefined when nothing is. */
  readonly extents: Extents | undefined;
  readonly colours: Colours;
}

/** The atom of a DXF file: a group code, which says what kind of value follows, and the value. */
export type Tag = readonly [code: number, value: string | number];

/** Tags as a file: code and value on lines of their own, reals in plain decimals. */
export const dxfText = (tags: readonly Tag[]): string =>
  tags.map(([code, value]) => tagText(code, value)).join('');

export function tagText(code: number, value: string | number): string {
  const text = isReal(code)
    ? decimal(Number(value), fineCodes.has(code) ? fineDecimals : fileDecimals)
    : value;
  return `${code}\n${text}\n`;
}

/** Group codes 10 to 59 hold reals (DXF Reference, group code value types). */
const isReal = (code: number): boolean => code >= 10 && code <= 59;

/** Bulges and angles, which are multiplied by lengths, carry more digits. */
const fineCodes: ReadonlySet<number> = new Set([42, 50, 51]);
const fineDecimals = 10;

/** Comment tags: one a sentence, in ASCII, parted where a line would grow too long for old readers. */
export function comments(sentences: readonly string[]): readonly Tag[] {
  return sentences.flatMap((one) => (ascii(one).match(/.{1,200}/g) ?? []).map((part): Tag => [999, part]));
}

/** Other characters in DXF's own escape, `\U+00B0` for a degree sign; line ends and controls as spaces. */
export function ascii(words: string): string {
  return words
    .replace(/\p{Cc}+/gu, ' ')
    .replace(/[^ -~]/g, (unit) => `\\U+${unit.charCodeAt(0).toString(16).toUpperCase().padStart(4, '0')}`);
}

/** Header variable $EXTMIN and $EXTMAX; inside out, as the reference has it, when nothing is drawn. */
export function corners(extents: Extents | undefined): { readonly least: Vertex; readonly most: Vertex } {
  const { minX, minY, maxX, maxY } = extents ?? { minX: 1e20, minY: 1e20, maxX: -1e20, maxY: -1e20 };
  return {
    least: [
      [10, minX],
      [20, minY],
      [30, 0],
    ],
    most: [
      [10, maxX],
      [20, maxY],
      [30, 0],
    ],
  };
}

export type Vertex = [code: number, value: number][];

/** Values of $INSUNITS and $MEASUREMENT that mean millimetres. */
export const MILLIMETRES = 4;
export const METRIC = 1;
