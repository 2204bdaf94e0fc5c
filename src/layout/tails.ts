import { type Finding, finding, given, isRefused, type Result, refused } from '../findings/finding.js';
import type { LayoutRequest } from '../job/types.js';
import { grooveInTails } from './groove.js';
import { tailLimits, withWishes } from './limits.js';
import { listedWidths } from './listed.js';
import { proportionsOf } from './proportions.js';
import { looksOfTails, sharingRemarks } from './remarks.js';
import { isListed, withoutEffect } from './request.js';
import { type Row, roomOf } from './row.js';
import { sharingOf } from './sharing.js';
import { layoutOf, type Widths } from './spans.js';
import { tailsThatFail } from './tails-refused.js';
import type { LaidOut, Span, TailBounds } from './types.js';

/**
 * A row of pins and tails across a joint: half-pin, tail, pin, tail, … half-pin, widths at the baseline.
 *
 * Blank fields of the request are filled in from the bounds and from proportion, each with an `ok` finding
 * that gives the reason. What can't be cut is refused, every narrow part at once.
 *
 * @param width joint width W, mm, from the reference edge
 * @param at path of the layout in the job file, e.g. `joints.tray-corner.layout`
 */
export function layTails(
  width: number,
  request: LayoutRequest,
  bounds: TailBounds,
  at: string,
): Result<LaidOut> {
  const fields = [...withoutEffect('tails', request, at), ...evenOnly(request, bounds, at)];
  if (isRefused(fields)) return refused(fields);

  const wished = withWishes(bounds, request);
  const widths = isListed(request)
    ? listedWidths('tails', width, request, tailLimits(wished), at)
    : ruledWidths({ width, request, bounds: wished, share: sharingOf(request).tails, at });
  if (!widths.ok) return refused([...fields, ...widths.findings]);

  const layout = layoutOf(width, widths.value.widths, partAt);
  const findings = [
    ...fields,
    ...widths.findings,
    // Where the pitch leaves no choice, the proportion is nobody's to change.
    ...(bounds.evenOnly === undefined ? looksOfTails(layout, at) : []),
    ...grooveInTails(layout, request.groove, wished.leastEndPin.width, at),
  ];
  if (isRefused(findings)) return refused(findings);
  return given({ layout, suitableWidths: widths.value.suitableWidths }, findings);
}

function ruledWidths(row: Row): Result<Widths> {
  const solved = proportionsOf(row);
  if (!solved.ok) return solved;
  const troubles = tailsThatFail(row, solved.value);
  if (troubles.length > 0) return refused(troubles);

  const { tails, pin, endPin, suitableWidths } = solved.value;
  const sharing = sharingOf(row.request);
  const tailWidths = sharing.tails(roomOf(row.width, solved.value), tails, row.bounds.leastTail.width);
  const innerPins = tails > 1 ? sharing.pins(pin * (tails - 1), tails - 1, row.bounds.leastPin.width) : [];
  const pins = [...innerPins, endPin];
  const widths = [endPin, ...tailWidths.flatMap((tail, i) => [tail, pins[i] ?? 0])];
  return given({ widths, suitableWidths }, [
    ...solved.findings,
    ...sharingRemarks(row.request, tails, row.at),
  ]);
}

function partAt(index: number): Span['part'] {
  return index % 2 === 0 ? 'pin' : 'tail';
}

function evenOnly(request: LayoutRequest, bounds: TailBounds, at: string): readonly Finding[] {
  if (bounds.evenOnly === undefined || request.spacing === 'even') return [];
  const { spacing } = request;
  return [finding('spacing-even-only', 'refused', `${at}.spacing`, { spacing, because: bounds.evenOnly })];
}
