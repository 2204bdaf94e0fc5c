import {
  type Diagnostic,
  diagnostic,
  err,
  hasErrors,
  ok,
  type Result,
} from '../../diagnostics/diagnostic.js';
import type { LayoutRequest } from '../../input/types.js';
import { tailLimits, withWishes } from '../limits.js';
import { listedWidths } from '../listed.js';
import { looksOfTails, sharingRemarks } from '../remarks.js';
import { isListed, withoutEffect } from '../request.js';
import { layoutOf, type Widths } from '../spans.js';
import type { LaidOut, Span, TailBounds } from '../types.js';
import { grooveInTails } from './groove.js';
import { tailsThatFail } from './impossible.js';
import { proportionsOf } from './proportions.js';
import { type Row, spaceOf } from './row.js';
import { sharingOf } from './sharing.js';

/**
 * A row of pins and tails across a joint: half-pin, tail, pin, tail, … half-pin, widths at the baseline.
 *
 * Blank fields of the request are filled in from the bounds and from proportion, each with an `ok` diagnostic
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
  if (hasErrors(fields)) return err(fields);

  const wished = withWishes(bounds, request);
  const widths = isListed(request)
    ? listedWidths('tails', width, request, tailLimits(wished), at)
    : ruledWidths({ width, request, bounds: wished, share: sharingOf(request).tails, at });
  if (!widths.ok) return err([...fields, ...widths.diagnostics]);

  const layout = layoutOf(width, widths.value.widths, partAt);
  const diagnostics = [
    ...fields,
    ...widths.diagnostics,
    // Where the pitch leaves no choice, the proportion is nobody's to change.
    ...(bounds.evenOnly === undefined ? looksOfTails(layout, at) : []),
    ...grooveInTails(layout, request.groove, wished.leastEndPin.width, at),
  ];
  if (hasErrors(diagnostics)) return err(diagnostics);
  return ok({ layout, suitableWidths: widths.value.suitableWidths }, diagnostics);
}

function ruledWidths(row: Row): Result<Widths> {
  const solved = proportionsOf(row);
  if (!solved.ok) return solved;
  const troubles = tailsThatFail(row, solved.value);
  if (troubles.length > 0) return err(troubles);

  const { tails, pin, endPin, suitableWidths } = solved.value;
  const sharing = sharingOf(row.request);
  const tailWidths = sharing.tails(spaceOf(row.width, solved.value), tails, row.bounds.leastTail.width);
  const innerPins = tails > 1 ? sharing.pins(pin * (tails - 1), tails - 1, row.bounds.leastPin.width) : [];
  const pins = [...innerPins, endPin];
  const widths = [endPin, ...tailWidths.flatMap((tail, i) => [tail, pins[i] ?? 0])];
  return ok({ widths, suitableWidths }, [
    ...solved.diagnostics,
    ...sharingRemarks(row.request, tails, row.at),
  ]);
}

function partAt(index: number): Span['part'] {
  return index % 2 === 0 ? 'pin' : 'tail';
}

function evenOnly(request: LayoutRequest, bounds: TailBounds, at: string): readonly Diagnostic[] {
  if (bounds.evenOnly === undefined || request.spacing === 'even') return [];
  const { spacing } = request;
  return [diagnostic('spacing-even-only', 'refused', `${at}.spacing`, { spacing, because: bounds.evenOnly })];
}
