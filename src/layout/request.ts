import { type Finding, finding } from '../findings/finding.js';
import type { LayoutRequest } from '../job/types.js';
import { FINGERS, MOST_SPANS, RATIOS, SPREADS, TAILS } from './rules.js';

export type RowKind = 'tails' | 'fingers';

/** Whether every span is given, as a whole list or as half of one. */
export function isListed(request: LayoutRequest): boolean {
  return request.spacing === 'list' || (request.spacing === 'mirrored' && request.spans !== undefined);
}

/** What is wrong with the fields of a request before anything is laid out, and which of them have no effect. */
export function fieldFindings(
  row: RowKind,
  width: number,
  request: LayoutRequest,
  at: string,
): readonly Finding[] {
  return [
    ...notNumbers(width, request, at),
    ...tooMany(request, at),
    ...outOfRange(request, at),
    ...withoutEffect(row, request, at),
  ];
}

type Field = keyof LayoutRequest;

/** Sizes and counts that no layout can have. A job file is checked before; a program that calls may not be. */
function notNumbers(width: number, request: LayoutRequest, at: string): readonly Finding[] {
  const {
    tails,
    fingers,
    pitch,
    pin,
    endPin,
    leastPin,
    finger,
    ratio,
    spread,
    seed,
    groove,
    spans = [],
  } = request;
  const sizes = {
    width,
    pitch,
    pin,
    'end-pin': endPin,
    'least-pin': leastPin,
    finger,
    'groove.width': groove?.width,
    ...Object.fromEntries(spans.map((span, index) => [`spans.${index}`, span])),
  };
  const numbers = { ratio, spread, seed, 'groove.from': groove?.from };
  return [
    ...unfit(sizes, 'size', (size) => Number.isFinite(size) && size > 0, at),
    ...unfit({ tails, fingers }, 'count', (count) => Number.isInteger(count) && count >= TAILS.least, at),
    ...unfit(numbers, 'number', Number.isFinite, at),
  ];
}

function unfit(
  fields: Readonly<Record<string, number | undefined>>,
  needs: 'size' | 'count' | 'number',
  fits: (read: number) => boolean,
  at: string,
): readonly Finding[] {
  return Object.entries(fields).flatMap(([key, read]) =>
    read === undefined || fits(read)
      ? []
      : [finding('layout-number', 'refused', `${at}.${key}`, { key, read, needs })],
  );
}

function tooMany(request: LayoutRequest, at: string): readonly Finding[] {
  const counts = [
    { key: 'tails', what: 'tails', read: request.tails ?? 0, most: TAILS.most },
    { key: 'fingers', what: 'fingers and slots', read: request.fingers ?? 0, most: FINGERS.most },
    { key: 'spans', what: 'spans', read: request.spans?.length ?? 0, most: MOST_SPANS },
  ];
  return counts
    .filter(({ read, most }) => read > most)
    .map(({ key, what, read, most }) =>
      finding('layout-too-many', 'refused', `${at}.${key}`, { what, read, most }),
    );
}

function outOfRange(request: LayoutRequest, at: string): readonly Finding[] {
  const ranges = [
    { key: 'ratio', read: request.ratio, ...RATIOS },
    { key: 'spread', read: request.spread, ...SPREADS },
  ];
  return ranges.flatMap(({ key, read, least, most }) =>
    read === undefined || (read >= least && read <= most)
      ? []
      : [finding('layout-out-of-range', 'refused', `${at}.${key}`, { key, read, least, most })],
  );
}

function withoutEffect(row: RowKind, request: LayoutRequest, at: string): readonly Finding[] {
  const used = usedFields(row, request);
  return (Object.keys(request) as Field[])
    .filter((field) => request[field] !== undefined && !used.includes(field))
    .map((field) => {
      const key = KEYS[field] ?? field;
      return finding('field-without-effect', 'caution', `${at}.${key}`, { key, spacing: request.spacing });
    });
}

function usedFields(row: RowKind, request: LayoutRequest): readonly Field[] {
  const always: readonly Field[] = ['spacing', 'groove', row === 'tails' ? 'leastPin' : 'start'];
  if (isListed(request)) return [...always, 'spans'];
  const counted: readonly Field[] =
    row === 'tails'
      ? ['tails', 'pitch', 'pin', 'endPin']
      : ['fingers', request.finger === undefined ? 'pitch' : 'finger'];
  return [...always, ...counted, ...OWN_FIELDS[request.spacing]];
}

const OWN_FIELDS: Readonly<Record<LayoutRequest['spacing'], readonly Field[]>> = {
  even: [],
  graduated: ['ratio'],
  mirrored: ['ratio'],
  varied: ['seed', 'spread'],
  list: ['spans'],
};

/** Keys of the job file where they are not written like the field. */
const KEYS: Partial<Record<Field, string>> = { endPin: 'end-pin', leastPin: 'least-pin' };
