import type { z } from 'zod';
import type { Bit, BitKind, Board, Bushing, LayoutRequest, TemplateOptions } from './types.js';

/**
 * The fields that a joint family composes its part of the job schema from. A kit is made for one file: it
 * knows the file's units and the workshop, so lengths come out in mm and tool names as the tools themselves.
 */
export interface FieldKit {
  /** A length over zero: a bare number in the file's units or text with a unit of its own. Gives mm. */
  length(): z.ZodType<number>;
  /** A length of zero or more. Gives mm. */
  lengthOrZero(): z.ZodType<number>;
  /** A whole number from `least` to `most`. */
  count(least: number, most: number): z.ZodType<number>;
  /** A slope: `1:n`, or a number of degrees. Gives radians from square. */
  slope(): z.ZodType<number>;
  /** The name of a bit in the shop, of one kind if said. Gives the bit. */
  bit(kind?: BitKind): z.ZodType<Bit>;
  bushing(): z.ZodType<Bushing>;
  board(): z.ZodType<Board>;
  layout(fields: readonly LayoutField[]): z.ZodType<LayoutRequest>;
  template(): z.ZodType<TemplateOptions>;
  fit(): z.ZodType<{ readonly slack: number }>;
  /** A strict object: unknown keys are refused with the nearest known one. */
  object<S extends z.ZodRawShape>(shape: S): z.ZodType<z.output<z.ZodObject<S>>>;
}

/** Keys of `layout:` that a family understands; `spacing` is always there. */
export type LayoutField = Exclude<keyof LayoutRequest, 'spacing'>;
