import { decimalOf, isCommaUnclear } from './number.js';

/** Lengths as text. Inside halfpin a length is a number of mm; only here does it have another unit. */
export type LengthUnit = 'mm' | 'in';

/** Exactly, since 1 July 1959 (NBS Circular 572, addendum). */
export const MM_PER_INCH = 25.4;

/** A length in mm as text in the reader's unit with the other beside it: `12.7 mm (1/2 in)`, `1/2 in (12.7 mm)`. */
export function formatLength(mm: number, units: LengthUnit, toward?: Toward): string {
  const [metric, imperial] = [
    formatMm(rounded(mm, 1000, toward)),
    formatInches(rounded(mm, 1e4 / MM_PER_INCH, toward)),
  ];
  return units === 'mm' ? `${metric} (${imperial})` : `${imperial} (${metric})`;
}

/** Which way a length is rounded that must not come out under (`up`) or over (`down`) what it stands for. */
export type Toward = 'up' | 'down';

/** To whole steps of 1/`steps` mm, the given way; as it is where none is given. */
function rounded(mm: number, steps: number, toward: Toward | undefined): number {
  if (toward === undefined) return mm;
  return (toward === 'up' ? Math.ceil(mm * steps - ROUNDING) : Math.floor(mm * steps + ROUNDING)) / steps;
}

/** Of a step: sums of floating numbers stay on theirs. */
const ROUNDING = 1e-6;

/** A length in mm to the nearest 0.001 mm: `12.7 mm`. */
export function formatMm(mm: number): string {
  return `${trimmed(mm, 3)} mm`;
}

/**
 * A length in mm as inches on a rule: the nearest 1/64, and what is left over when it is not exact, to
 * 0.0001 in: `1-3/8 in`, `17/64 in + 0.0031`, `3/4 in - 0.002`. Under half a 64th, plain decimals: `0.004 in`.
 */
export function formatInches(mm: number): string {
  const inches = mm / MM_PER_INCH;
  // No rule is so long, and no fraction so great is told from its neighbours.
  if (!(Math.abs(inches) < MAX_ON_RULE)) return `${inches} in`;
  const sixtyFourths = Math.round(inches * 64);
  if (sixtyFourths === 0) return `${trimmed(inches, 4)} in`;
  const left = trimmed(inches - sixtyFourths / 64, 4);
  const rest = left === '0' ? '' : left.startsWith('-') ? ` - ${left.slice(1)}` : ` + ${left}`;
  return `${sixtyFourths < 0 ? '-' : ''}${mixedNumber(Math.abs(sixtyFourths))} in${rest}`;
}

const MAX_ON_RULE = 1e6;

/** Why a text is not a length; the words for each are in diagnostics/wording/job.ts. */
export type LengthProblem =
  | 'empty'
  | 'not-finite'
  | 'fraction-without-unit'
  | 'comma-unclear'
  | 'zero-denominator'
  | 'two-slashes'
  | 'two-dashes'
  | 'decimal-in-fraction'
  | 'fraction-over-one'
  | 'two-numbers'
  | 'unknown-unit'
  | 'not-a-length';

export type LengthReading =
  | { readonly ok: true; readonly mm: number }
  | {
      readonly ok: false;
      readonly trouble: LengthProblem;
      readonly read: string;
      /** The length that was meant, in a spelling that reads; empty where that can't be known. */
      readonly wouldDo: readonly string[];
    };

/**
 * Reads a length as people type it and gives mm. A bare number is in `units`; text may carry its own unit:
 * `19 mm`, `19,05`, `8.9e1 mm`, `0.3 m`, `3/4 in`, `1-3/8"`, `1 3/8 in`, `⅝`, `1/2 ft`, `1' 6-1/2"`. What the program
 * writes (`17/64 in + 0.0031`) reads back. A fraction without a unit is inches on a rule, so it is refused where
 * the units are mm. The sign is kept; whether a length may be zero or negative, and how great it may be, is for
 * the reader of the field to say; it is always finite.
 */
export function readLength(written: string | number, units: LengthUnit): LengthReading {
  if (typeof written === 'number') {
    const mm = inMm(written, units);
    return Number.isFinite(mm) ? { ok: true, mm } : problem('not-finite', String(written));
  }
  if (written.length > LONGEST) return problem('not-a-length', `${written.slice(0, LONGEST)}…`);
  const text = plain(written);
  const { sign, feet, number, unit, rest } = partsOf(text);
  const whole = feet === undefined ? 0 : quantity(feet);
  const value = feet !== undefined && number === '' ? 0 : quantity(number);
  if (whole === undefined || value === undefined) {
    const { why, meant } = explain(text, whole === undefined ? (feet ?? '') : number, unit ?? 'in');
    return problem(why, written, ...(meant === undefined || feet !== undefined ? [] : [sign + meant]));
  }
  const length = `${sign}${feet === undefined ? number : ''}`;
  if (feet === undefined && isBareFraction(number, unit, units)) {
    return problem('fraction-without-unit', written, `${length} in`);
  }
  const mm =
    feet === undefined
      ? inMm(value + rest, unit ?? units)
      : inMm(whole * INCHES_PER_FOOT + value + rest, 'in');
  return Number.isFinite(mm) ? { ok: true, mm: sign === '-' ? -mm : mm } : problem('not-finite', written);
}

const INCHES_PER_FOOT = 12;

interface Parts {
  readonly sign: '-' | '';
  /** The number before a sign for feet; what is behind it is inches, with their sign or without. */
  readonly feet: string | undefined;
  readonly number: string;
  readonly unit: Unit | undefined;
  /** What a rule's fraction leaves over, as this program writes it. */
  readonly rest: number;
}

type Unit = keyof typeof IN_MM;

/** How many tenths of a mm: 3/4 in is then 19.05 mm and not 19.049999999999997, for 254 is a whole number and 25.4 is not. */
const IN_MM = { mm: 10, cm: 100, m: 10_000, in: 254 } as const;

const UNIT = '(mm|cm|m|inches|inch|in|")';

function partsOf(text: string): Parts {
  const [, sign, feet, inches = ''] =
    /^([-+]?)\s*(?:([^'a-z]*?)\s*(?:'|ft|feet|foot)(?:\.(?!\d))?\s*-?\s*)?(.*)$/is.exec(text) ?? [];
  const parts = new RegExp(`^(.*?)\\s*${UNIT}?(?:(?<=in)\\s*([+-])\\s*(0?\\.\\d+))?$`, 'is').exec(inches);
  const unit = unitNames[(parts?.[2] ?? '').toLowerCase()];
  const number = parts?.[1] ?? '';
  const rest = parts?.[4] === undefined ? 0 : Number(`${parts[3]}${parts[4]}`);
  return {
    sign: sign === '-' ? '-' : '',
    feet,
    // Feet and millimetres are no length, nor is a unit without a number.
    number: feet !== undefined && unit !== undefined && (unit !== 'in' || number === '') ? inches : number,
    unit,
    rest: sign === '-' ? -rest : rest,
  };
}

/** Inches on a rule written where mm are meant. */
function isBareFraction(number: string, unit: Unit | undefined, units: LengthUnit): boolean {
  return unit === undefined && units === 'mm' && number.includes('/');
}

/** No length takes more characters than this; longer text is not looked at. */
const LONGEST = 40;

function inMm(value: number, unit: Unit): number {
  return unit === 'mm' ? value : (value * IN_MM[unit]) / 10;
}

const unitNames: Readonly<Record<string, Unit>> = {
  mm: 'mm',
  cm: 'cm',
  m: 'm',
  in: 'in',
  inch: 'in',
  inches: 'in',
  '"': 'in',
};

/** What a schema for editors takes as a length: the same texts as `readLength`, but for what only a number's value tells. */
export const LENGTH_PATTERN = lengthPattern();

function lengthPattern(): string {
  const dash = '[-‐‑‒–−]';
  const decimal = '(\\d+[.,]?\\d*|[.,]\\d+)([eE][-+]?\\d{1,3})?';
  const number = `((\\d+(\\s|${dash}))?\\d+\\s?[/⁄∕]\\s?\\d+|\\d*\\s?[¼½¾⅛⅜⅝⅞]|${decimal})`;
  const inches = "([iI][nN]([cC][hH]([eE][sS])?)?|\"|″|”|“|''|′′)";
  const feet = "([fF][tT]|[fF][eE][eE][tT]|[fF][oO][oO][tT]|'|′|’)";
  const rest = '(\\s*[-+]\\s*0?\\.\\d+)?';
  const unit = `([mM][mM]|[cC][mM]|[mM]|${inches})`;
  return `^\\s*\\+?(${number}\\s*${feet}(\\.(?!\\d))?(\\s*${dash}?\\s*${number}\\s*${inches}?)?|${number}\\s*${unit}?\\.?${rest})\\s*$`;
}

const vulgarFractions: Readonly<Record<string, string>> = {
  '¼': '1/4',
  '½': '1/2',
  '¾': '3/4',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8',
};

/** The signs that word processors put in place of those on the keyboard, put back. */
function plain(text: string): string {
  return text
    .replace(/\s*([¼½¾⅛⅜⅝⅞])/gu, (_, sign: string) => ` ${vulgarFractions[sign]}`)
    .replace(/[‐‑‒–−]/gu, '-')
    .replace(/[⁄∕]/gu, '/')
    .replace(/[″”“]|''|′′/gu, '"')
    .replace(/[′’‘]/gu, "'")
    .replace(/\s+/gu, ' ')
    .trim()
    .replace(/(?<=mm|cm|\dm|\d m|in|inch|inches|ft|foot|feet)\.$/i, '');
}

/** The value of `12`, `1.375`, `19,05`, `8.9e1`, `3/4`, `1-3/8` or `1 3/8`; nothing for any other text. */
function quantity(text: string): number | undefined {
  const decimal = decimalOf(text);
  if (decimal !== undefined) return decimal;
  const parts = MIXED.exec(text);
  if (parts === null) return undefined;
  const [whole, top, bottom] = [Number(parts[1] ?? 0), Number(parts[2]), Number(parts[3])];
  const properInMixed = parts[1] === undefined || top < bottom;
  return bottom > 0 && properInMixed ? whole + top / bottom : undefined;
}

const MIXED = /^(?:(\d+)(?:-| ))?(\d+) ?\/ ?(\d+)$/;

/**
 * What is unclear about a text whose `number` is none and, where there can be no other, the length that it means,
 * in `unit`.
 */
function explain(
  text: string,
  number: string,
  unit: Unit,
): { readonly why: LengthProblem; readonly meant?: string } {
  if (text === '') return { why: 'empty' };
  if (/^[-+]?\.?(nan|inf|infinity)$/i.test(text)) return { why: 'not-finite' };
  if (/^[\d.,]+$/.test(number) && isCommaUnclear(number)) return { why: 'comma-unclear' };
  const mixed = MIXED.exec(number);
  if (mixed !== null) {
    const [whole, top, bottom] = [Number(mixed[1]), Number(mixed[2]), Number(mixed[3])];
    if (bottom === 0) return { why: 'zero-denominator' };
    const carried = mixedOf(whole + Math.floor(top / bottom), top % bottom, bottom);
    return { why: 'fraction-over-one', meant: `${carried} ${unit}` };
  }
  if ((number.match(/\//g) ?? []).length > 1) return { why: 'two-slashes' };
  const dashed = /^(\d+)(?: - ?| ?- )(\d+) ?\/ ?(\d+)$/.exec(number);
  if (dashed !== null) {
    const said = `${dashed[1]}-${dashed[2]}/${dashed[3]}`;
    return { why: 'two-numbers', ...(quantity(said) !== undefined && { meant: `${said} ${unit}` }) };
  }
  if (/^\d+-\d+-\d+$/.test(number)) {
    const said = number.replace(/-(?=\d+$)/, '/');
    return { why: 'two-dashes', ...(quantity(said) !== undefined && { meant: `${said} ${unit}` }) };
  }
  if (/^[\d./ -]+$/.test(number) && /[./]/.test(number) && /\d[-/]/.test(number))
    return { why: 'decimal-in-fraction' };
  if (/^[\d.]+ ?[- ] ?[\d.]+$/.test(number)) return { why: 'two-numbers' };
  if (/^[-+]?[\d.,/ -]*\d\s*\p{L}+$/u.test(text)) return { why: 'unknown-unit' };
  return { why: 'not-a-length' };
}

function problem(why: LengthProblem, read: string, ...wouldDo: readonly string[]): LengthReading {
  return { ok: false, trouble: why, read, wouldDo };
}

function mixedNumber(sixtyFourths: number): string {
  return mixedOf(Math.floor(sixtyFourths / 64), sixtyFourths % 64, 64);
}

/** `1-3/8`, `3/8` or `1`, the fraction in lowest terms. */
function mixedOf(whole: number, top: number, bottom: number): string {
  if (top === 0) return String(whole);
  const shared = greatestCommonDivisor(top, bottom);
  const fraction = `${top / shared}/${bottom / shared}`;
  return whole === 0 ? fraction : `${whole}-${fraction}`;
}

function greatestCommonDivisor(a: number, b: number): number {
  return b === 0 ? a : greatestCommonDivisor(b, a % b);
}

/** Fixed decimals without the zeros at the end; never `-0`. */
function trimmed(value: number, decimals: number): string {
  return Number.isFinite(value) ? String(Number(value.toFixed(decimals)) + 0) : String(value);
}
