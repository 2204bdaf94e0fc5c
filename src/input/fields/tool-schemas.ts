import type { z } from 'zod';
import { type Diagnostic, diagnostic } from '../../diagnostics/diagnostic.js';
import { MAX_BIT, MAX_BUSHING } from '../limits.js';
import type { Bit, Bushing } from '../types.js';
import type { FieldKit } from './field-kit.js';
import { angleReader, optionReader } from './read-value.js';
import { field, object } from './schema.js';

/** A bit of the shop file; its name is the key that it stands under. */
export function bitSchema(kit: FieldKit): z.ZodType<Omit<Bit, 'name'>> {
  const { diameter, height, shank } = MAX_BIT;
  return object(
    {
      kind: field(optionReader(['dovetail', 'straight'])),
      diameter: kit.length({ most: diameter, because: 'no router bit is so wide' }),
      angle: field(angleReader(false)).exactOptional(),
      slope: field(angleReader(true)).exactOptional(),
      height: kit.length({ most: height, because: 'no router bit cuts so high' }),
      shank: kit.length({ most: shank, because: 'no router takes such a shank' }).exactOptional(),
    },
    ({ fields, written }) => [
      ...taper(fields.kind, written('angle'), written('slope')),
      ...point({ ...fields, angle: fields.angle ?? fields.slope }),
    ],
  ).transform(({ slope, angle, ...rest }) => ({ ...rest, angle: angle ?? slope ?? 0 }));
}

/** A bushing of the shop file; its name is the key that it stands under. */
export function bushingSchema(kit: FieldKit): z.ZodType<Omit<Bushing, 'name'>> {
  const { outside: widest, barrel: longest } = MAX_BUSHING;
  return object(
    {
      outside: kit.length({ most: widest, because: 'no guide bushing is so wide' }),
      bore: kit.length({ most: widest, because: 'no guide bushing is so wide' }).exactOptional(),
      barrel: kit.length({ most: longest, because: 'no guide bushing reaches so far down' }).exactOptional(),
    },
    ({ fields: { outside, bore } }) =>
      outside !== undefined && bore !== undefined && bore >= outside
        ? [diagnostic('bushing-bore', 'refused', 'bore', { bore, outside })]
        : [],
  );
}

/** Dovetail bits have an angle, said once; straight ones have none. */
function taper(kind: Bit['kind'] | undefined, angle: boolean, slope: boolean): readonly Diagnostic[] {
  if (kind === 'straight') {
    const keys = [...(angle ? ['angle'] : []), ...(slope ? ['slope'] : [])];
    return keys.map((key) => diagnostic('bit-angle-straight', 'refused', key, { key }));
  }
  if (angle && slope) return [diagnostic('bit-angle-twice', 'refused', 'slope', {})];
  return kind === 'dovetail' && !angle && !slope
    ? [diagnostic('bit-angle-missing', 'refused', 'angle', {})]
    : [];
}

/** The narrow end of a dovetail bit, D − 2·H·tan θ, is still something. */
function point(bit: {
  readonly kind?: Bit['kind'];
  readonly diameter?: number;
  readonly height?: number;
  readonly angle?: number | undefined;
}): readonly Diagnostic[] {
  const { kind, diameter, height, angle } = bit;
  if (kind !== 'dovetail' || diameter === undefined || height === undefined || angle === undefined) return [];
  const most = diameter / (2 * Math.tan(angle));
  return height < most
    ? []
    : [diagnostic('bit-pointed', 'refused', 'height', { diameter, height, angle, most })];
}
