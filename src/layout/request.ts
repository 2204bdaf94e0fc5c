import { type Diagnostic, diagnostic } from '../diagnostics/diagnostic.js';
import type { LayoutRequest } from '../input/types.js';

export type RowKind = 'tails' | 'fingers';

/** Whether every span is given, as a whole list or as half of one. */
export function isListed(request: LayoutRequest): boolean {
  return request.spacing === 'list' || (request.spacing === 'mirrored' && request.spans !== undefined);
}

type Field = keyof LayoutRequest;

/** Fields that the spacing, or the row, has no use for. */
export function withoutEffect(row: RowKind, request: LayoutRequest, at: string): readonly Diagnostic[] {
  const used = usedFields(row, request);
  return (Object.keys(request) as Field[])
    .filter((field) => request[field] !== undefined && !used.includes(field))
    .map((field) => {
      const key = KEYS[field] ?? field;
      return diagnostic('field-without-effect', 'caution', `${at}.${key}`, { key, spacing: request.spacing });
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
