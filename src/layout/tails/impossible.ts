import { type Diagnostic, diagnostic } from '../../diagnostics/diagnostic.js';
import type { LayoutFix } from '../../diagnostics/wording/layout-fixes.js';
import { MAX_TAILS } from '../../input/limits.js';
import { isNarrow, type Limit, narrowDiagnostic } from '../limits.js';
import { largestThat } from '../search.js';
import { mostTails, narrowestTail, type Proportions, type Row, spaceOf } from './row.js';
import { graduated, mirrored } from './sharing.js';

/** Every reason why a row with these proportions can't be cut, with what would do; empty when it can. */
export function tailsThatFail(row: Row, proportions: Proportions): readonly Diagnostic[] {
  const { tails } = proportions;
  if (tails > MAX_TAILS) {
    return [
      diagnostic('layout-too-many', 'refused', `${row.at}.tails`, {
        what: 'tails',
        read: tails,
        most: MAX_TAILS,
      }),
    ];
  }
  return [...halfPins(row, proportions), ...pins(row, proportions), ...tailsOf(row, proportions)];
}

function halfPins(row: Row, { tails, endPin }: Proportions): readonly Diagnostic[] {
  const { request, bounds, width, at } = row;
  const least = bounds.leastEndPin;
  if (!isNarrow(endPin, least)) return [];
  const limit: Limit = { part: 'half-pin', number: 1, least };
  const cures: readonly LayoutFix[] =
    request.endPin !== undefined
      ? [{ do: 'widen', what: 'half-pin', to: least.width }]
      : [
          ...(tails > 1 ? [{ do: 'fewer', what: 'tails', count: tails - 1 } as const] : []),
          { do: 'board', width: width + 2 * (least.width - endPin) },
        ];
  return [narrowDiagnostic(`${at}.end-pin`, limit, endPin, cures, 2)];
}

function pins(row: Row, { tails, pin }: Proportions): readonly Diagnostic[] {
  const least = row.bounds.leastPin;
  if (tails === 1 || !isNarrow(pin, least)) return [];
  const limit: Limit = { part: 'pin', number: 1, least };
  const cures: readonly LayoutFix[] = [{ do: 'widen', what: 'pin', to: least.width }];
  return [narrowDiagnostic(`${row.at}.pin`, limit, pin, cures, tails - 1)];
}

function tailsOf(row: Row, proportions: Proportions): readonly Diagnostic[] {
  const { width, bounds, at, share } = row;
  const { tails } = proportions;
  const least = bounds.leastTail;
  const room = spaceOf(width, proportions);
  if (room <= 0) {
    return [
      diagnostic('tails-no-room', 'refused', `${at}.tails`, {
        width,
        tails,
        pins: width - room,
        least: least.width,
        because: least.because,
        cures: tailFixes(row, proportions),
      }),
    ];
  }
  const widths = share(room, tails, least.width);
  const narrow = widths.filter((tail) => isNarrow(tail, least)).length;
  if (narrow === 0) return [];
  const narrowest = narrowestTail(row, proportions);
  const limit: Limit = { part: 'tail', number: widths.indexOf(narrowest) + 1, least };
  return [narrowDiagnostic(`${at}.tails`, limit, narrowest, tailFixes(row, proportions), narrow)];
}

function tailFixes(row: Row, proportions: Proportions): readonly LayoutFix[] {
  const { width, bounds, request } = row;
  const { tails, pin, endPin } = proportions;
  const least = bounds.leastTail.width;
  const short = spaceNeeded(row, tails) - spaceOf(width, proportions);
  const fewer = request.pitch === undefined ? mostTails(row, pin, endPin, least) : 0;
  const thinner = tails > 1 ? pin - short / (tails - 1) : 0;
  const ratio = gentler(row, proportions);
  return [
    ...(fewer >= 1 && fewer < tails ? [{ do: 'fewer', what: 'tails', count: fewer } as const] : []),
    ...(ratio === undefined ? [] : [{ do: 'gentler', ratio } as const]),
    ...(thinner >= bounds.leastPin.width && request.pitch === undefined
      ? [{ do: 'narrow', what: 'pin', to: thinner } as const]
      : []),
    { do: 'board', width: width + short },
  ];
}

/** The room that leaves the narrowest of so many tails at the least. */
function spaceNeeded({ share, bounds }: Row, tails: number): number {
  const narrowest = share(1, tails, 1 / tails).reduce((one, other) => Math.min(one, other));
  return bounds.leastTail.width / narrowest;
}

/** The ratio farthest from 1, on the asked side and to three decimals, whose narrowest tail can still be cut. */
function gentler(row: Row, proportions: Proportions): number | undefined {
  const { request, bounds } = row;
  const { ratio, spacing } = request;
  const rule = spacing === 'graduated' ? graduated : spacing === 'mirrored' ? mirrored : undefined;
  if (rule === undefined || ratio === undefined) return undefined;
  const side = Math.sign(ratio - 1);
  const stepped = (steps: number): number => 1 + (side * steps) / 1000;
  const good = largestThat(Math.floor(Math.abs(ratio - 1) * 1000), (steps) => {
    const share = rule(stepped(steps));
    return !isNarrow(narrowestTail({ ...row, share }, proportions), bounds.leastTail);
  });
  return good > 0 ? stepped(good) : undefined;
}
