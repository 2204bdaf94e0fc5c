import { type Diagnostic, diagnostic, err, ok, type Result } from '../../diagnostics/diagnostic.js';
import { didYouMean } from '../../diagnostics/did-you-mean.js';
import { isPlainText, plainText } from '../../diagnostics/plain-text.js';
import { readDegrees, readSlope } from '../../units/angle.js';
import { LENGTH_PATTERN, type LengthUnit, readLength } from '../../units/length.js';
import { decimalOf, signedDecimalOf } from '../../units/number.js';
import { ANGLES, LONGEST_TEXT, MAX_LENGTH, MIN_LENGTH } from '../limits.js';

/** JSON Schema of one value, as far as halfpin writes it. */
export type JsonSchema = Readonly<Record<string, unknown>>;

/**
 * How one value of the job file is read: what it is called in messages, an example that would do, its JSON
 * Schema for editors, and the reading itself, of a value that is there. Diagnostics are placed relative to it.
 */
export interface ValueReader<T> {
  readonly what: string;
  readonly example: string;
  readonly json: JsonSchema;
  readonly read: (value: unknown) => Result<T>;
}

/** The units of the file that a value stands in; `known` is false where the file does not say them properly. */
export interface FileUnits {
  readonly units: LengthUnit;
  readonly known: boolean;
}

export interface LengthRange {
  readonly zero?: boolean;
  readonly most?: number;
  readonly because?: string;
}

/** A length in mm, over zero unless `range.zero`, up to `range.most`. */
export function lengthReader({ units, known }: FileUnits, range: LengthRange = {}): ValueReader<number> {
  const { zero = false, most = MAX_LENGTH, because = 'no board or sheet is that long' } = range;
  const read = (value: unknown): Result<number> => {
    if (typeof value !== 'number' && typeof value !== 'string') return unfit(value, reader);
    const reading = readLength(value, units);
    if (!reading.ok) {
      const { trouble, wouldDo } = reading;
      return refusal(diagnostic('length-unclear', 'refused', '', { read: quoted(value), trouble, wouldDo }));
    }
    const length = reading.mm;
    if (length < 0 || (length === 0 && !zero)) {
      return refusal(diagnostic('length-not-positive', 'refused', '', { read: quoted(value), zero }));
    }
    if (!zero && length < MIN_LENGTH && known) {
      return refusal(diagnostic('length-small', 'refused', '', { read: quoted(value), least: MIN_LENGTH }));
    }
    if (length > most && known) {
      const meant = units === 'in' ? bareMm(value, most) : undefined;
      const data = { read: quoted(value), length, most, because, ...(meant === undefined ? {} : { meant }) };
      return refusal(diagnostic('length-great', 'refused', '', data));
    }
    return ok(length);
  };
  const reader: ValueReader<number> = {
    what: zero ? 'a length of zero or more' : 'a length over zero',
    example: units === 'in' ? '3/4 or 19 mm' : '19 or 3/4 in',
    json: {
      description: `A length ${zero ? 'of zero or more' : 'over zero'}, at most ${most} mm: a number in the file's units, or text with a unit, such as 19 mm, 3/4 in, 1-3/8".`,
      anyOf: [
        {
          type: 'number',
          minimum: zero ? 0 : inUnits(MIN_LENGTH, units, 1),
          maximum: inUnits(most, units, -1),
        },
        { type: 'string', pattern: LENGTH_PATTERN },
      ],
    },
    read,
  };
  return reader;
}

/** A limit as a number of the file's units, in inches a millionth inside of it. */
function inUnits(mm: number, units: LengthUnit, side: 1 | -1): number {
  if (units === 'mm') return mm;
  const millionths = (mm / 25.4) * 1e6;
  const nearest = Math.round(millionths);
  if (Math.abs(millionths - nearest) < 1e-6) return nearest / 1e6;
  return (side > 0 ? Math.ceil(millionths) : Math.floor(millionths)) / 1e6;
}

/** A number without a unit in an inch file, too large for inches, as the mm that it may stand for. */
function bareMm(value: number | string, most: number): string | undefined {
  const number = decimalOf(String(value).trim());
  return number !== undefined && number <= most ? `${number} mm` : undefined;
}

export function numberReader(range: { least: number; most: number; whole?: boolean }): ValueReader<number> {
  const { least, most, whole = false } = range;
  const what = `a ${whole ? 'whole ' : ''}number from ${least} to ${most}`;
  return {
    what,
    example: String(Math.min(Math.max(least, 3), most)),
    json: { type: whole ? 'integer' : 'number', minimum: least, maximum: most },
    read: (value) => {
      const number = typeof value === 'string' ? signedDecimalOf(value) : value;
      const inRange = typeof number === 'number' && number >= least && number <= most;
      if (inRange && (!whole || Number.isInteger(number))) return ok(number);
      return refusal(diagnostic('number-range', 'refused', '', { read: quoted(value), least, most, whole }));
    },
  };
}

/** Text that can be shown as it is, of one line unless `lines`; numbers are taken as they are written. */
export function textReader(example: string, most = LONGEST_TEXT, lines = false): ValueReader<string> {
  return {
    what: 'text',
    example,
    json: { type: ['string', 'number'], minLength: 1, maxLength: most },
    read: (value) => {
      if (typeof value !== 'string' && typeof value !== 'number')
        return unfit(value, { what: 'text', example });
      const text = String(value).trim();
      const shown = lines ? text.replace(/[\n\r\t]/g, '') : text;
      if (text.length > 0 && text.length <= most && isPlainText(shown)) return ok(text);
      return refusal(diagnostic('text-unfit', 'refused', '', { read: quoted(value), most }));
    },
  };
}

/** One of a few words. `alike` says how else a word may be written. */
export function optionReader<const W extends string>(
  words: readonly W[],
  alike: (text: string) => string = (text) => text,
): ValueReader<W> {
  return {
    what: words.length < 3 ? words.join(' or ') : `${words.slice(0, -1).join(', ')} or ${words.at(-1)}`,
    example: words[0] ?? '',
    json: { enum: words },
    read: (value) => {
      const text = typeof value === 'string' ? value : '';
      const word = words.find((one) => alike(one) === alike(text));
      if (word !== undefined) return ok(word);
      const nearest = didYouMean(text, words);
      return refusal(
        diagnostic('value-unlisted', 'refused', '', {
          read: quoted(value),
          known: words,
          ...(nearest === undefined ? {} : { nearest }),
        }),
      );
    },
  };
}

/** An angle in radians from square, within ANGLES; `slopes` lets `1:8` stand, too. */
export function angleReader(slopes: boolean): ValueReader<number> {
  const reader: ValueReader<number> = {
    what: slopes ? 'a slope, or degrees from square' : 'degrees from the axis',
    example: slopes ? '1:8' : '8',
    json: {
      description: slopes ? 'A slope such as 1:8, or degrees from square.' : "Degrees from the bit's axis.",
      anyOf: [
        { type: 'number', minimum: ANGLES.least, exclusiveMaximum: ANGLES.under },
        {
          type: 'string',
          pattern: slopes
            ? '^\\s*[\\d.,]+\\s*(:\\s*[\\d.,]+|°|deg|degrees?)?\\s*$'
            : '^\\s*[\\d.,]+\\s*(°|deg|degrees?)?\\s*$',
        },
      ],
    },
    read: (value) => {
      if (typeof value !== 'number' && typeof value !== 'string') return unfit(value, reader);
      const reading = slopes ? readSlope(value) : readDegrees(value);
      if (!reading.ok) {
        const wouldDo = slopes
          ? reading.wouldDo
          : reading.wouldDo.map((one) => (one.includes(':') ? `slope: ${one}` : one));
        return refusal(diagnostic('angle-unclear', 'refused', '', { read: quoted(value), wouldDo }));
      }
      const { radians } = reading;
      const degrees = (radians * 180) / Math.PI;
      if (degrees > ANGLES.least - ANGLE_ROUNDING && degrees < ANGLES.under - ANGLE_ROUNDING)
        return ok(radians);
      return refusal(diagnostic('angle-range', 'refused', '', { read: quoted(value), radians, ...ANGLES }));
    },
  };
  return reader;
}

/** 45 degrees is 45 degrees whichever way it is worked out; degrees. */
const ANGLE_ROUNDING = 1e-10;

/** A list of `least` to `most` values of one kind. */
export function listReader<T>(
  item: ValueReader<T>,
  { least, most, what, example }: { least: number; most: number; what: string; example: string },
): ValueReader<readonly T[]> {
  const reader: ValueReader<readonly T[]> = {
    what: `a list of ${what}`,
    example,
    json: { type: 'array', items: item.json, minItems: least, maxItems: most },
    read: (value) => {
      if (!Array.isArray(value)) return unfit(value, reader);
      if (value.length < least || value.length > most) {
        return refusal(
          diagnostic('list-length', 'refused', '', { read: value.length, least, most, what, example }),
        );
      }
      const readings = value.map((one, index) => underKey(readPresent(item, one), String(index)));
      const diagnostics = readings.flatMap((one) => one.diagnostics);
      return readings.every((one) => one.ok) ? ok(readings.map((one) => one.value)) : err(diagnostics);
    },
  };
  return reader;
}

/** Two lengths as a list, such as a sheet or a bed: its size from left to right and from near to far. */
export function pairReader(item: ValueReader<number>): ValueReader<readonly [number, number]> {
  const list = listReader(item, { least: 2, most: 2, what: 'two lengths', example: '[600 mm, 300 mm]' });
  return {
    ...list,
    read: (value) => {
      const reading = list.read(value);
      if (!reading.ok) return reading;
      const [across = 0, along = 0] = reading.value;
      return ok([across, along] as const);
    },
  };
}

/** `#RRGGBB`. A colour without quotes is a remark to YAML and leaves nothing, which is answered as such. */
export const colourReader: ValueReader<string> = {
  what: 'a colour',
  example: '"#D55E00"',
  json: { type: 'string', pattern: '^#[0-9A-Fa-f]{6}$' },
  read: (value) => {
    if (typeof value === 'string' && /^#[0-9a-f]{6}$/i.test(value)) return ok(value.toUpperCase());
    return unfit(value, { what: 'a colour as # and six digits 0 to 9 or A to F', example: '"#D55E00"' });
  },
};

/** Stands for a value that could not be read and has been answered for; readers refuse it without a word. */
export const UNREAD = Symbol('unread');

/** Reads a value that may be absent or empty, which every reader answers alike. */
export function readPresent<T>(reader: ValueReader<T>, value: unknown): Result<T> {
  const { what, example } = reader;
  if (value === UNREAD) return err([]);
  if (value === undefined) return refusal(diagnostic('key-missing', 'refused', '', { what, example }));
  if (value !== null) return reader.read(value);
  return refusal(
    reader === (colourReader as unknown)
      ? diagnostic('colour-unquoted', 'refused', '', {})
      : diagnostic('value-missing', 'refused', '', { what, example }),
  );
}

/** Whether a value is a map of the file. */
export function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** What stands in the file, short enough for a message. */
export function quoted(value: unknown): string {
  if (typeof value === 'string') {
    const line = value.replace(/\s+/g, ' ');
    return `"${plainText(line.length > 40 ? `${line.slice(0, 40)}…` : line)}"`;
  }
  if (Array.isArray(value)) return `a list of ${value.length}`;
  if (typeof value === 'object' && value !== null) return 'a map';
  return value === undefined || value === null ? 'nothing' : String(value);
}

export function unfit(
  value: unknown,
  { what, example }: Pick<ValueReader<unknown>, 'what' | 'example'>,
): Result<never> {
  return refusal(diagnostic('value-unfit', 'refused', '', { read: quoted(value), what, example }));
}

export function refusal(...diagnostics: readonly Diagnostic[]): Result<never> {
  return err(diagnostics);
}

function underKey<T>(result: Result<T>, key: string): Result<T> {
  const diagnostics = result.diagnostics.map((one) => ({
    ...one,
    at: one.at === '' ? key : `${key}.${one.at}`,
  }));
  return result.ok ? ok(result.value, diagnostics) : err(diagnostics);
}
