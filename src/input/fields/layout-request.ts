import { type Diagnostic, diagnostic, err, ok, type Result } from '../../diagnostics/diagnostic.js';
import { FINGERS, MAX_LENGTH, MIN_LENGTH, RATIOS, SEEDS, SPANS, SPREADS, TAILS } from '../limits.js';
import type { LayoutRequest } from '../types.js';

interface Range {
  readonly least: number;
  readonly most: number;
}

const LENGTHS: Range = { least: MIN_LENGTH, most: MAX_LENGTH };

/**
 * A request that a program makes, held to the limits that the reader of job files holds one to; the solver takes
 * them for granted. Lengths in mm. What can't be used is refused, every field at once.
 */
export function parseLayout(width: number, request: LayoutRequest, at: string): Result<LayoutRequest> {
  const { tails, fingers, pitch, pin, endPin, leastPin, finger, ratio, spread, seed, groove } = request;
  const { spacing, spans } = request;
  const sizes = {
    width,
    pitch,
    pin,
    'end-pin': endPin,
    'least-pin': leastPin,
    finger,
    'groove.width': groove?.width,
    ...Object.fromEntries((spans ?? []).map((span, index) => [`spans.${index}`, span])),
  };
  const diagnostics = [
    ...Object.entries(sizes).flatMap(([key, read]) => judgeField(at, key, read, 'size', LENGTHS)),
    ...judgeField(at, 'groove.from', groove?.from, 'number', { least: 0, most: MAX_LENGTH }),
    ...judgeField(at, 'tails', tails, 'count', TAILS),
    ...judgeField(at, 'fingers', fingers, 'count', FINGERS),
    ...judgeField(at, 'spans', spans?.length, 'count', SPANS),
    ...(spacing === 'list' && spans === undefined
      ? [diagnostic('spans-missing', 'refused', `${at}.spans`, { spacing })]
      : []),
    ...judgeField(at, 'ratio', ratio, 'number', RATIOS),
    ...judgeField(at, 'spread', spread, 'number', SPREADS),
    ...judgeField(at, 'seed', seed, 'count', SEEDS),
  ];
  return diagnostics.length > 0 ? err(diagnostics) : ok(request);
}

type Needs = 'size' | 'count' | 'number';

const fitsNeed: Readonly<Record<Needs, (read: number) => boolean>> = {
  size: (read) => Number.isFinite(read) && read > 0,
  count: Number.isInteger,
  number: Number.isFinite,
};

function judgeField(
  at: string,
  key: string,
  read: number | undefined,
  needs: Needs,
  { least, most }: Range,
): readonly Diagnostic[] {
  if (read === undefined || (read >= least && read <= most && fitsNeed[needs](read))) return [];
  return fitsNeed[needs](read)
    ? [diagnostic('layout-out-of-range', 'refused', `${at}.${key}`, { key, read, least, most })]
    : [diagnostic('layout-number', 'refused', `${at}.${key}`, { key, read, needs })];
}
