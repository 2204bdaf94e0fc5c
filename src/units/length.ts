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
  if (!Number.isFinite(inches)) return `${inches} in`;
  const sixtyFourths = Math.round(inches * 64);
  if (sixtyFourths === 0) return `${trimmed(inches, 4)} in`;
  const left = trimmed(inches - sixtyFourths / 64, 4);
  const rest = left === '0' ? '' : left.startsWith('-') ? ` - ${left.slice(1)}` : ` + ${left}`;
  return `${sixtyFourths < 0 ? '-' : ''}${mixedNumber(Math.abs(sixtyFourths))} in${rest}`;
}

/** Why a text is not a length; the words for each are in findings/wording/job.ts. */
export type LengthTrouble =
  | 'empty'
  | 'not-finite'
  | 'fraction-without-unit'
  | 'decimal-comma'
  | 'feet'
  | 'zero-denominator'
  | 'two-slashes'
  | 'two-dashes'
  | 'decimal-in-fraction'
  | 'fraction-over-one'
  | 'two-numbers'
  | 'exponent'
  | 'unknown-unit'
  | 'not-a-length';

export type LengthReading =
  | { readonly ok: true; readonly mm: number }
  | {
      readonly ok: false;
      readonly trouble: LengthTrouble;
      readonly read: string;
      /** Texts that would do in its place: readings of what may have been meant, or examples. */
      readonly wouldDo: readonly string[];
    };

/**
 * Reads a length and gives mm. A bare number is in `units`; text may carry its own unit: `19 mm`, `2 cm`,
 * `3/4 in`, `1-3/8"`, `1 3/8 in`, `1.375`. What the program writes (`17/64 in + 0.0031`) reads back.
 * A fraction without a unit is inches on a rule, so it is refused where the units are mm. The sign is
 * kept; whether a length may be zero or negative is for the reader of the field to say.
 */
export function readLength(written: string | number, units: LengthUnit): LengthReading {
  if (typeof written === 'number') {
    const mm = inMm(written, units);
    if (Number.isFinite(mm)) return { ok: true, mm };
    return trouble('not-finite', String(written), examples(units));
  }
  if (written.length > LONGEST)
    return trouble('not-a-length', `${written.slice(0, LONGEST)}…`, examples(units));
  const text = plain(written);
  const { sign, number, unit, rest } = partsOf(text);
  const value = quantity(number);
  if (value === undefined) return explain(written, text, number, units);
  if (isBareFraction(number, unit, units)) {
    return trouble('fraction-without-unit', written, [`${number} in`, `${trimmed(value, 3)} mm`]);
  }
  return { ok: true, mm: inMm(sign * value + rest, unit ?? units) };
}

interface Parts {
  readonly sign: 1 | -1;
  readonly number: string;
  readonly unit: LengthUnit | 'cm' | undefined;
  /** What a rule's fraction leaves over, as this program writes it. */
  readonly rest: number;
}

function partsOf(text: string): Parts {
  const parts = /^(-?)(.*?)\s*(mm|cm|in|inch|inches|")?(?:(?<=in)\s*([+-])\s*(0?\.\d+))?$/i.exec(text);
  return {
    sign: parts?.[1] === '-' ? -1 : 1,
    number: parts?.[2] ?? '',
    unit: unitNames[(parts?.[3] ?? '').toLowerCase()],
    rest: parts?.[5] === undefined ? 0 : Number(`${parts[4]}${parts[5]}`),
  };
}

/** Inches on a rule written where mm are meant. */
function isBareFraction(number: string, unit: Parts['unit'], units: LengthUnit): boolean {
  return unit === undefined && units === 'mm' && number.includes('/');
}

/** No length takes more characters than this; longer text is not looked at. */
const LONGEST = 40;

/** 3/4 in is 19.05 mm and not 19.049999999999997: 254 tenths of a mm are a whole number, 25.4 is not. */
function inMm(value: number, unit: LengthUnit | 'cm'): number {
  if (unit === 'mm') return value;
  return unit === 'cm' ? value * 10 : (value * 254) / 10;
}

const unitNames: Readonly<Record<string, LengthUnit | 'cm'>> = {
  mm: 'mm',
  cm: 'cm',
  in: 'in',
  inch: 'in',
  inches: 'in',
  '"': 'in',
};

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
    .replace(/\s+/gu, ' ')
    .trim()
    .replace(/(?<=mm|cm|in|inch|inches)\.$/i, '');
}

/** The value of `12`, `1.375`, `.5`, `3/4`, `1-3/8` or `1 3/8`; nothing for any other text. */
function quantity(text: string): number | undefined {
  if (/^(\d+\.?\d*|\.\d+)$/.test(text)) return Number(text);
  const parts = /^(?:(\d+)(?:-| ))?(\d+) ?\/ ?(\d+)$/.exec(text);
  if (parts === null) return undefined;
  const [whole, top, bottom] = [Number(parts[1] ?? 0), Number(parts[2]), Number(parts[3])];
  const properInMixed = parts[1] === undefined || top < bottom;
  return bottom > 0 && properInMixed ? whole + top / bottom : undefined;
}

/** Says what is unclear about a text that is not a length. `number` is the text without sign and unit. */
function explain(written: string, text: string, number: string, units: LengthUnit): LengthReading {
  const says = (why: LengthTrouble, ...guesses: readonly string[]) => {
    const wouldDo = guesses.filter((guess) => {
      const { number: guessed, unit: its } = partsOf(guess);
      return quantity(guessed) !== undefined && !isBareFraction(guessed, its, units);
    });
    return trouble(why, written, wouldDo.length > 0 ? wouldDo : examples(units));
  };
  const parts = number.match(/\d+/g) ?? [];
  const [first = '', second = '', third = ''] = parts;
  const unit = units === 'mm' ? ' in' : '';
  if (text === '') return says('empty');
  if (/^[-+]?\.?(nan|inf|infinity)$/i.test(text)) return says('not-finite');
  if (/\d\s*('|ft\b|feet\b|foot\b)/i.test(text)) {
    const inches = 12 * Number(first) + Number(second || 0);
    return says('feet', ...(/^\D*\d+\D*\d*\D*$/.test(text) ? [`${inches} in`] : []));
  }
  // What stands behind the number is its unit, and stays with it.
  const after = text
    .slice(text.indexOf(number) + number.length)
    .replace(/^(?=\S)/, ' ')
    .trimEnd();
  if (/^\d+,\d{3}$/.test(number))
    return says('decimal-comma', `${number.replace(',', '.')}${after}`, `${number.replace(',', '')}${after}`);
  if (/^\d*,\d+$/.test(number)) return says('decimal-comma', `${number.replace(',', '.')}${after}`);
  if (/^[\d.]+e[-+]?\d+$/i.test(number)) {
    const value = Number(number);
    return says('exponent', ...(value > 1e-6 && value < 1e6 ? [trimmed(value, 6)] : []));
  }
  if (/^(\d+[- ])?\d+ ?\/ ?0+$/.test(number)) return says('zero-denominator');
  if ((number.match(/\//g) ?? []).length > 1) return says('two-slashes', `${first}/${second}${unit}`);
  if (/^\d+-\d+-\d+$/.test(number)) return says('two-dashes', `${first}-${second}/${third}${unit}`);
  if (
    /^[\d./ -]+$/.test(number) &&
    /\d/.test(number) &&
    number.includes('.') &&
    /[/-]/.test(number) &&
    parts.length > 2
  ) {
    return says('decimal-in-fraction');
  }
  if (/^\d+[- ]\d+ ?\/ ?\d+$/.test(number)) {
    const [whole, top, bottom] = [Number(first), Number(second), Number(third)];
    const carried = mixedOf(whole + Math.floor(top / bottom), top % bottom, bottom);
    return says('fraction-over-one', `${first}-1/${third}${unit}`, `${carried}${unit}`);
  }
  if (/^\d+ ?[- ] ?\d+$/.test(number)) {
    return says('two-numbers', `${first}/${second}${unit}`, `${first}.${second}`);
  }
  if (/^(\d+) - (\d+ ?\/ ?\d+)$/.test(number)) return says('two-numbers', number.replace(' - ', '-') + unit);
  const foreign = /^-?(\d+\.?\d*|\.\d+)\s*(\p{L}+)$/u.exec(text);
  if (foreign !== null) return says('unknown-unit', `${foreign[1]} mm`, `${foreign[1]} in`);
  return says('not-a-length');
}

function trouble(why: LengthTrouble, read: string, wouldDo: readonly string[]): LengthReading {
  return { ok: false, trouble: why, read, wouldDo };
}

function examples(units: LengthUnit): readonly string[] {
  return units === 'mm' ? ['19', '19 mm', '3/4 in'] : ['3/4', '1-3/8', '19 mm'];
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
