import type { z } from 'zod';
import type { Diagnostic } from '../../diagnostics/diagnostic.js';
import type {
  Bit,
  BitKind,
  Board,
  Bushing,
  Fit,
  LayoutRequest,
  TemplateOptions,
  TextFile,
} from '../types.js';
import type { LengthRange } from './read-value.js';

/**
 * The fields that a joint family composes its part of the job schema from. A kit is made for one file: it
 * knows the file's units and the workshop, so lengths come out in mm and tool names as the tools themselves.
 */
export interface FieldKit {
  /** A length over zero: a bare number in the file's units or text with a unit of its own. Gives mm; `range` bounds it. */
  length(range?: LengthRange): z.ZodType<number>;
  /** A length of zero or more. Gives mm; `range` bounds it. */
  lengthOrZero(range?: LengthRange): z.ZodType<number>;
  /** A whole number from `least` to `most`. */
  count(least: number, most: number): z.ZodType<number>;
  /** A slope: `1:n`, or a number of degrees. Gives radians from square. */
  slope(): z.ZodType<number>;
  /** Text of up to `most` characters, which may run over several lines. */
  text(example: string, most: number): z.ZodType<string>;
  /** The path of a text file, as seen from the job's folder. Gives the file with what it holds. */
  file(example: string): z.ZodType<TextFile>;
  /** One of a few words. */
  option<const W extends string>(words: readonly W[]): z.ZodType<W>;
  /** The name of a bit in the shop, of one kind if said. Gives the bit. */
  bit(kind?: BitKind): z.ZodType<Bit>;
  bushing(): z.ZodType<Bushing>;
  board(): z.ZodType<Board>;
  /** May be left out: an even layout with everything solved. */
  layout(fields: readonly LayoutField[]): z.ZodType<LayoutRequest>;
  /** May be left out. */
  template(): z.ZodType<TemplateOptions>;
  /** May be left out: the family's usual slack, mm, which is said to be one. */
  fit(usual: number): z.ZodType<Fit>;
  /**
   * A strict object: unknown keys are refused with the nearest known one. `judge` gives what is wrong with
   * the fields together; it is asked even when some of them could not be read, so that all is said at once.
   */
  object<S extends z.ZodRawShape>(
    shape: S,
    judge?: (read: ReadFields<S>) => readonly Diagnostic[],
  ): z.ZodType<z.output<z.ZodObject<S>>>;
}

/** The fields of an object as far as they could be read. */
export interface ReadFields<S extends z.ZodRawShape> {
  readonly fields: Partial<z.output<z.ZodObject<S>>>;
  /** Whether a key stands in the file, readable or not. */
  readonly written: (key: keyof S & string) => boolean;
}

/** Keys of `layout:` that a family understands; `spacing` is always there. */
export type LayoutField = Exclude<keyof LayoutRequest, 'spacing'>;
