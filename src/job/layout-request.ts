import { type Finding, finding, given, type Result, refused } from '../findings/finding.js';
import { FINGERS, GREATEST_LENGTH, LEAST_LENGTH, RATIOS, SEEDS, SPANS, SPREADS, TAILS } from './limits.js';
import type { LayoutRequest } from './types.js';

interface Range {
  readonly least: number;
  readonly most: number;
}

const LENGTHS: Range = { least: LEAST_LENGTH, most: GREATEST_LENGTH };

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
  const findings = [
    ...Object.entries(sizes).flatMap(([key, read]) => judge(at, key, read, 'size', LENGTHS)),
    ...judge(at, 'groove.from', groove?.from, 'number', { least: 0, most: GREATEST_LENGTH }),
    ...judge(at, 'tails', tails, 'count', TAILS),
    ...judge(at, 'fingers', fingers, 'count', FINGERS),
    ...judge(at, 'spans', spans?.length, 'count', SPANS),
    ...(spacing === 'list' && spans === undefined
      ? [finding('spans-missing', 'refused', `${at}.spans`, { spacing })]
      : []),
    ...judge(at, 'ratio', ratio, 'number', RATIOS),
    ...judge(at, 'spread', spread, 'number', SPREADS),
    ...judge(at, 'seed', seed, 'count', SEEDS),
  ];
  return findings.length > 0 ? refused(findings) : given(request);
}

type Needs = 'size' | 'count' | 'number';

const fits: Readonly<Record<Needs, (read: number) => boolean>> = {
  size: (read) => Number.isFinite(read) && read > 0,
  count: Number.isInteger,
  number: Number.isFinite,
};

function judge(
  at: string,
  key: string,
  read: number | undefined,
  needs: Needs,
  { least, most }: Range,
): readonly Finding[] {
  if (read === undefined || (read >= least && read <= most && fits[needs](read))) return [];
  return fits[needs](read)
    ? [finding('layout-out-of-range', 'refused', `${at}.${key}`, { key, read, least, most })]
    : [finding('layout-number', 'refused', `${at}.${key}`, { key, read, needs })];
}
