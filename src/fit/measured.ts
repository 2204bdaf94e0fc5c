import { type Diagnostic, diagnostic, err, hasErrors, ok, type Result } from '../diagnostics/diagnostic.js';
import { didYouMean } from '../diagnostics/did-you-mean.js';
import { MAX_ANGLE_TOLERANCE, MAX_MEASURED_ERROR } from '../input/limits.js';
import { readDegrees } from '../units/angle.js';
import { keyValues } from '../units/key-values.js';
import { type LengthUnit, readLength } from '../units/length.js';
import type { JointFit } from './joint-fit.js';

/** What a person measured on a trial piece, read from `key=value` words. Lengths in mm, the angle in radians. */
export interface Measured {
  /** The word before any number: `gap`, `socket`, `proud-tails`. */
  readonly key: string;
  /** Which one from the reference edge, counted from 1, where it was said; of `mismatch` the corner. */
  readonly number?: number;
  readonly value: number;
  /** As it was typed. */
  readonly text: string;
}

/** Reads every measurement, or says what is wrong with each of those that cannot be read. */
export function readMeasured(
  words: readonly string[],
  model: JointFit,
  units: LengthUnit,
): Result<readonly Measured[]> {
  const known = [...keysOf(model), ...platesKeys(model)];
  const readings = keyValues(words).map((word) => readOne(word, model, known, units));
  const diagnostics = readings.flatMap((one) => one.diagnostics);
  const values = readings.flatMap((one) => (one.ok ? [one.value] : []));
  const twice = values.filter((one, index) =>
    values.slice(0, index).some((other) => other.key === one.key && other.number === one.number),
  );
  const contrary = [
    'gap overlap',
    'end-gap end-overlap',
    'opening kerf',
    ...Object.keys(model.faces).map(faceKeys),
  ].filter((pair) => pair.split(' ').every((key) => values.some((one) => one.key === key)));
  const all = [
    ...diagnostics,
    ...twice.map(({ text, key }) => diagnostic('measured-twice', 'refused', placeInText(text), { key })),
    ...contrary.map((pair) => {
      const [one = '', other = ''] = pair.split(' ');
      return diagnostic(
        'measured-contrary',
        'refused',
        placeInText(
          values
            .filter(({ key }) => key === one || key === other)
            .map(({ text }) => text)
            .join(' '),
        ),
        { one, other },
      );
    }),
  ];
  return hasErrors(all) ? err(all) : ok(values);
}

const gapKeys = ['gap', 'overlap'];

/** Every word that may be measured on a trial joint. */
export function keysOf(model: JointFit): readonly string[] {
  return [
    ...(model.gapTellsNothing ? [] : gapKeys),
    ...(model.endPair ? ['end-gap', 'end-overlap'] : []),
    ...Object.keys(model.widths),
    ...Object.keys(model.faces).flatMap((board) => faceKeys(board).split(' ')),
    'mismatch',
    ...model.tools.map(({ key }) => key),
    ...(model.checks ?? []).map(({ role }) => role),
  ];
}

/** Words that are measured on the plates. */
function platesKeys(model: JointFit): readonly string[] {
  return [...(model.openings ? ['opening'] : []), 'kerf', 'scale'];
}

/** `tail-2`: a word as it was typed. */
export function keyOf({ key, number }: Measured): string {
  return number === undefined ? key : `${key}-${number}`;
}

/** Where a measurement stands, for what is said of it. */
export function placeOf(joint: string, { text }: Measured): string {
  return `joints.${joint} --measured ${text}`;
}

function faceKeys(board: string): string {
  return `proud-${board} shy-${board}`;
}

function placeInText(text: string): string {
  return `--measured ${text.length > 40 ? `${text.slice(0, 40)}…` : text}`;
}

function readOne(
  word: string,
  model: JointFit,
  known: readonly string[],
  units: LengthUnit,
): Result<Measured> {
  const at = placeInText(word);
  const parts = /^\s*([a-z][a-z-]*?)(?:-(\d+))?\s*=\s*(.*?)\s*$/i.exec(word);
  if (!parts) return err([diagnostic('measured-form', 'refused', at, { known })]);
  const [, written = '', counted, text = ''] = parts;
  const key = written.toLowerCase();
  if (model.gapTellsNothing && gapKeys.includes(key)) {
    return err([diagnostic('refit-line', 'refused', at, { joint: model.joint, known })]);
  }
  if (!known.includes(key)) {
    const nearest = didYouMean(key, known);
    return err([
      diagnostic('measured-unknown', 'refused', at, {
        key,
        known,
        ...(nearest === undefined ? {} : { nearest }),
      }),
    ]);
  }
  const read = readValue(key, text, units, at);
  if (typeof read !== 'number') return err([read]);
  const value = read;
  const number = counted === undefined ? undefined : Number(counted);
  const one: Measured = { key, ...(number === undefined ? {} : { number }), value, text: word.trim() };
  const wrong = judgeMeasured(one, model, at);
  return wrong.length > 0 ? err(wrong) : ok(one);
}

/** The angle is in degrees, the scale a share: `0.998`, `99.8 %` or `149.7/150`; everything else is a length. */
function readValue(key: string, text: string, units: LengthUnit, at: string): number | Diagnostic {
  if (key === 'angle') {
    const angle = readDegrees(text);
    if (angle.ok) return angle.radians;
    return diagnostic('angle-unclear', 'refused', at, { read: `"${text}"`, wouldDo: angle.wouldDo });
  }
  if (key === 'scale') {
    const share = shareOf(text);
    return share ?? diagnostic('measured-scale', 'refused', at, { text });
  }
  const reading = readLength(text, units);
  if (reading.ok) return reading.mm;
  const { trouble, wouldDo } = reading;
  return diagnostic('length-unclear', 'refused', at, { read: `"${text}"`, trouble, wouldDo });
}

/** Plates that came out smaller or larger than this were not cut from these files. */
const MAX_SCALE = 0.05;

function shareOf(text: string): number | undefined {
  const [, top = '', , percent = '', bottom = ''] =
    /^([\d.]+)\s*((%)|\/\s*([\d.]+))?$/.exec(text.replace(',', '.')) ?? [];
  const share = Number(top) / (percent ? 100 : bottom ? Number(bottom) : 1);
  return Number.isFinite(share) && Math.abs(share - 1) <= MAX_SCALE ? share : undefined;
}

function judgeMeasured(one: Measured, model: JointFit, at: string): readonly Diagnostic[] {
  const { key, number, value } = one;
  if (key === 'mismatch') return judgeCorner(one, model, at);
  if (value < 0) return [diagnostic('measured-negative', 'refused', at, { key, value })];
  const row = model.widths[key] ?? (key === 'opening' ? model.openings : undefined);
  if (row) return judgeWidth(one, row, at);
  if (number !== undefined) return [diagnostic('measured-number', 'refused', at, { key, count: 0 })];
  const check = model.checks?.find(({ role }) => role === key);
  const size = check?.size ?? model.tools.find((tool) => tool.key === key)?.size ?? 0;
  if (key === 'angle') {
    const far = Math.abs(value - size) > MAX_ANGLE;
    return far ? [diagnostic('angle-unclear', 'refused', at, { read: one.text, wouldDo: [] })] : [];
  }
  if (key === 'scale') return [];
  return Math.abs(value - size) > MAX_MEASURED_ERROR
    ? [diagnostic('measured-far', 'refused', at, { key, value, nominal: size })]
    : [];
}

/** A bit's angle is never off by more, radians. */
const MAX_ANGLE = (MAX_ANGLE_TOLERANCE * Math.PI) / 180;

/** Each corner uses two stops of its own, so it has to be said which corner was tried. */
function judgeCorner({ number }: Measured, { corners }: JointFit, at: string): readonly Diagnostic[] {
  const known = Object.keys(corners).map(Number);
  if (known.length === 0) {
    return number === undefined
      ? []
      : [diagnostic('measured-number', 'refused', at, { key: 'mismatch', count: 0 })];
  }
  if (number !== undefined && known.includes(number)) return [];
  return [diagnostic('measured-corner', 'refused', at, { corners: known })];
}

function judgeWidth(
  { key, number, value }: Measured,
  { nominals, where }: { readonly nominals: readonly number[]; readonly where: string },
  at: string,
): readonly Diagnostic[] {
  if (number !== undefined && (number < 1 || number > nominals.length)) {
    return [diagnostic('measured-number', 'refused', at, { key, count: nominals.length })];
  }
  const [first = 0] = nominals;
  if (nominals.length === 0) return [diagnostic('measured-none', 'refused', at, { key })];
  if (number === undefined && nominals.some((each) => Math.abs(each - first) > 1e-6)) {
    return [diagnostic('measured-which', 'refused', at, { key, count: nominals.length })];
  }
  const nominal = nominals[(number ?? 1) - 1] ?? 0;
  return Math.abs(value - nominal) > MAX_MEASURED_ERROR
    ? [diagnostic('measured-far', 'refused', at, { key, value, nominal, where })]
    : [];
}
