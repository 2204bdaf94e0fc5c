import { diagnostic, err, ok } from '../diagnostics/diagnostic.js';
import { didYouMean } from '../diagnostics/did-you-mean.js';
import type { FieldKit } from './fields/field-kit.js';
import { layoutFields } from './fields/layout-fields.js';
import {
  angleReader,
  type FileUnits,
  type LengthRange,
  lengthReader,
  numberReader,
  optionReader,
  quoted,
  refusal,
  textReader,
  type ValueReader,
} from './fields/read-value.js';
import { field, object } from './fields/schema.js';
import { MAX_BOARD, MAX_COPIES, MAX_HOLE, MAX_SLACK } from './limits.js';
import type { Bit, BitKind, Bushing, Fit } from './types.js';
import { fileReader, type OpenFile } from './yaml/file-reader.js';

/**
 * The bits and bushings that joints may name. A tool that the shop file names but that could not be read is
 * undefined, and joints that name it get no diagnostic of their own; nor does any when the shop is unreadable.
 */
export interface ShopTools {
  readonly bits: ReadonlyMap<string, Bit | undefined>;
  readonly bushings: ReadonlyMap<string, Bushing | undefined>;
  readonly readable: boolean;
}

/** For files, or parts of them, in which no tool is named. */
export const NO_TOOLS: ShopTools = { bits: new Map(), bushings: new Map(), readable: false };

/**
 * The fields for one file. Schemas are made as they are asked for, so a file pays for what it uses. `open` reads
 * the text of another file, named as the job names it.
 */
export function makeKit(units: FileUnits, tools: ShopTools, open: OpenFile = () => undefined): FieldKit {
  const length = field(lengthReader(units), `length-${units.units}`);
  const lengthOrZero = field(lengthReader(units, { zero: true }), `length-or-zero-${units.units}`);
  const kit: FieldKit = {
    length: (range) => (range === undefined ? length : field(lengthReader(units, range))),
    lengthOrZero: (range) =>
      range === undefined ? lengthOrZero : field(lengthReader(units, { ...range, zero: true })),
    count: (least, most) => field(numberReader({ least, most, whole: true })),
    slope: () => field(angleReader(true)),
    text: (example, most) => field(textReader(example, most, true)),
    file: (example) => field(fileReader(example, open)),
    option: (words) => field(optionReader(words)),
    bit: (kind) => field(bitReader(tools, kind)),
    bushing: () => field(toolReader('bushing', tools.bushings, tools.readable)),
    board: () =>
      object({
        thickness: field(lengthReader(units, BOARD_THICKNESS)),
        length: length.exactOptional(),
        material: field(textReader('maple')).exactOptional(),
      }),
    layout: (fields) => layoutFields(kit, units, fields),
    template: () =>
      object({
        nose: lengthOrZero.exactOptional(),
        spine: length.exactOptional(),
        margin: lengthOrZero.exactOptional(),
        hole: kit.lengthOrZero(HOLE).exactOptional(),
        plate: field(optionReader(['one'])).exactOptional(),
        slots: field(optionReader(['every-second'])).exactOptional(),
        copies: kit.count(1, MAX_COPIES).exactOptional(),
      }).prefault({}),
    fit: (usual) =>
      object({ slack: field(withDefault(lengthReader(units, { ...SLACK, zero: true }), `${usual} mm`)) })
        .transform(({ slack }): Fit => ({ slack, from: 'job' }))
        .default({ slack: usual, from: 'default' }),
    object,
  };
  return kit;
}

/** A reader whose JSON Schema says what stands for a value that is left out; the reader itself doesn't fill it in. */
function withDefault<T>(reader: ValueReader<T>, text: string): ValueReader<T> {
  return { ...reader, json: { ...reader.json, default: text } };
}

/** A board's thickness, and what is no deeper than one is thick. */
export const BOARD_THICKNESS: LengthRange = {
  most: MAX_BOARD,
  because: 'no board for these joints is so thick',
};

const HOLE: LengthRange = {
  most: MAX_HOLE,
  because: 'a larger hole breaks out of the edge of the plate',
};

const SLACK: LengthRange = {
  most: MAX_SLACK,
  because: 'slack is the whole play of one mating pair, a few tenths of a mm',
};

function bitReader(tools: ShopTools, kind: BitKind | undefined): ValueReader<Bit> {
  const any = toolReader('bit', tools.bits, tools.readable, kind);
  if (kind === undefined) return any;
  return {
    ...any,
    read: (value) => {
      const reading = any.read(value);
      if (!reading.ok || reading.value.kind === kind) return reading;
      const known = named(tools.bits, kind);
      return refusal(
        diagnostic('bit-wrong-kind', 'refused', '', {
          read: quoted(value),
          kind: reading.value.kind,
          wanted: kind,
          known,
        }),
      );
    },
  };
}

function named(bits: ReadonlyMap<string, Bit | undefined>, kind: BitKind): readonly string[] {
  return [...bits.values()].flatMap((bit) => (bit?.kind === kind ? [bit.name] : []));
}

function toolReader<T>(
  tool: 'bit' | 'bushing',
  tools: ReadonlyMap<string, T | undefined>,
  readable: boolean,
  kind?: BitKind,
): ValueReader<T> {
  const known = [...tools.keys()];
  const reader: ValueReader<T> = {
    what: `the name of a ${kind ?? ''} ${tool} in the shop`.replace('  ', ' '),
    example: (kind && named(tools as ShopTools['bits'], kind)[0]) ?? known[0] ?? 'one written under shop',
    json: { type: ['string', 'number'], description: `Name of a ${tool} in the shop.` },
    read: (value) => {
      if (typeof value !== 'string' && typeof value !== 'number') {
        return refusal(
          diagnostic('value-unfit', 'refused', '', {
            read: quoted(value),
            what: reader.what,
            example: reader.example,
          }),
        );
      }
      const found = tools.get(String(value));
      if (found !== undefined) return ok(found);
      // The shop has been answered for already.
      if (!readable || tools.has(String(value))) return err([]);
      const nearest = didYouMean(String(value), known);
      return refusal(
        diagnostic('tool-unknown', 'refused', '', {
          tool,
          read: quoted(value),
          known,
          ...(nearest === undefined ? {} : { nearest }),
        }),
      );
    },
  };
  return reader;
}
