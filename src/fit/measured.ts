import { type Diagnostic, diagnostic, err, hasErrors, ok, type Result } from '../diagnostics/diagnostic.js';
import { didYouMean } from '../diagnostics/did-you-mean.js';
import { MAX_MEASURED_ERROR } from '../input/limits.js';
import { keyValues } from '../units/key-values.js';
import { type LengthUnit, readLength } from '../units/length.js';
import type { JointFit } from './joint-fit.js';

/** What a person measured on a trial piece, read from `key=value` words. Lengths in mm. */
export interface Measured {
  /** The word before any number: `gap`, `socket`, `proud-tails`. */
  readonly key: string;
  /** Which one from the reference edge, counted from 1, where it was said. */
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
  const known = keysOf(model);
  const readings = keyValues(words).map((word) => readOne(word, model, known, units));
  const diagnostics = readings.flatMap((one) => one.diagnostics);
  const values = readings.flatMap((one) => (one.ok ? [one.value] : []));
  const twice = values.filter((one, index) =>
    values.slice(0, index).some((other) => other.key === one.key && other.number === one.number),
  );
  const contrary = ['gap overlap', 'end-gap end-overlap', ...Object.keys(model.faces).map(faceKeys)].filter(
    (pair) => pair.split(' ').every((key) => values.some((one) => one.key === key)),
  );
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

/** Every word that may be measured on this joint. */
export function keysOf(model: JointFit): readonly string[] {
  return [
    ...(model.gapTellsNothing ? [] : gapKeys),
    ...(model.endPair ? ['end-gap', 'end-overlap'] : []),
    ...Object.keys(model.widths),
    ...Object.keys(model.faces).flatMap((board) => faceKeys(board).split(' ')),
    'mismatch',
    ...model.tools.map(({ key }) => key),
  ];
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
  const reading = readLength(text, units);
  if (!reading.ok) {
    const { trouble, wouldDo } = reading;
    return err([diagnostic('length-unclear', 'refused', at, { read: `"${text}"`, trouble, wouldDo })]);
  }
  const value = reading.mm;
  const number = counted === undefined ? undefined : Number(counted);
  const one: Measured = { key, ...(number === undefined ? {} : { number }), value, text: word.trim() };
  const wrong = judgeMeasured(one, model, at);
  return wrong.length > 0 ? err(wrong) : ok(one);
}

function judgeMeasured({ key, number, value }: Measured, model: JointFit, at: string): readonly Diagnostic[] {
  if (value < 0 && key !== 'mismatch')
    return [diagnostic('measured-negative', 'refused', at, { key, value })];
  const width = model.widths[key];
  if (!width) {
    if (number !== undefined) return [diagnostic('measured-number', 'refused', at, { key, count: 0 })];
    const size = model.tools.find((tool) => tool.key === key)?.size ?? 0;
    return Math.abs(value - size) > MAX_MEASURED_ERROR
      ? [diagnostic('measured-far', 'refused', at, { key, value, nominal: size })]
      : [];
  }
  const { nominals, where } = width;
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
