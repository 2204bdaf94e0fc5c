import {
  type Diagnostic,
  diagnostic,
  err,
  hasErrors,
  ok,
  type Result,
} from '../../diagnostics/diagnostic.js';
import type { LayoutFix } from '../../diagnostics/wording/layout-fixes.js';
import type { LayoutRequest } from '../../input/types.js';
import { fingerLimits, isNarrow, type Limits, narrowDiagnostic } from '../limits.js';
import { listedWidths } from '../listed.js';
import { sharingRemarks } from '../remarks.js';
import { isListed, withoutEffect } from '../request.js';
import { layoutOf, type Widths } from '../spans.js';
import { grooveInFingers } from '../tails/groove.js';
import { sharingOf } from '../tails/sharing.js';
import type { FingerBounds, LaidOut, Span } from '../types.js';
import { type FingerRow, fingerCount, greatestOdd, mostFingers } from './finger-count.js';

/**
 * A row of fingers and slots of board one across a box joint; board two has a finger wherever board one has a
 * slot. `start` says which board has the finger at the reference edge, board one unless asked otherwise; with
 * `start: two` the row, and a list of spans, begins with a slot of board one.
 *
 * Every spacing works: even makes all spans alike; graduated, mirrored and varied share out the whole width by
 * their rule; list and half a list are taken as given. The number is odd where it is free, so that both edges
 * look alike. What can't be cut is refused, every narrow span at once.
 *
 * @param width joint width W, mm, from the reference edge
 * @param at path of the layout in the job file, e.g. `joints.slide-box.layout`
 */
export function layFingers(
  width: number,
  request: LayoutRequest,
  bounds: FingerBounds,
  at: string,
): Result<LaidOut> {
  const fields = withoutEffect('fingers', request, at);
  const limits = fingerLimits(bounds, request.start);
  const settled: Result<Widths> = isListed(request)
    ? listedWidths('fingers', width, request, limits, at)
    : ruledWidths({ width, request, least: limits(0, 2).least, at }, limits);
  if (!settled.ok) return err([...fields, ...settled.diagnostics]);

  const { widths, suitableWidths } = settled.value;
  const layout = layoutOf(width, widths, partsFrom(request.start));
  const diagnostics = [
    ...fields,
    ...settled.diagnostics,
    ...evenNumber(widths.length, at),
    ...grooveInFingers(layout, request.groove, at),
  ];
  if (hasErrors(diagnostics)) return err(diagnostics);
  return ok({ layout, suitableWidths }, diagnostics);
}

function ruledWidths(row: FingerRow, limits: Limits): Result<Widths> {
  const chosen = fingerCount(row);
  if (!chosen.ok) return chosen;
  const { count, suitableWidths } = chosen.value;
  const share = sharingOf(row.request).tails;
  const widths = share(row.width, count, row.least.width);
  const narrow = widths.filter((finger) => isNarrow(finger, row.least)).length;
  if (narrow > 0) {
    const narrowest = widths.reduce((one, other) => Math.min(one, other));
    const limit = limits(widths.indexOf(narrowest), count);
    return err([
      narrowDiagnostic(`${row.at}.fingers`, limit, narrowest, fingerFixes(row, widths, narrowest), narrow),
    ]);
  }
  return ok({ widths, suitableWidths }, [
    ...chosen.diagnostics,
    ...sharingRemarks(row.request, count, row.at),
  ]);
}

/** Fewer fingers of the same rule, or a board on which these can be cut. */
function fingerFixes(row: FingerRow, widths: readonly number[], narrowest: number): readonly LayoutFix[] {
  const most = mostFingers(row);
  const fewer = most > 2 ? greatestOdd(most) : most;
  const { request, least } = row;
  const wanted = request.fingers === undefined ? request.finger : undefined;
  // A wider board only gets more of the same fingers.
  const tooFine = wanted !== undefined && isNarrow(wanted, least);
  return [
    ...(fewer >= 2 && fewer < widths.length
      ? [{ do: 'fewer', what: 'fingers and slots', count: fewer } as const]
      : []),
    tooFine
      ? ({ do: 'widen', what: 'finger', to: least.width } as const)
      : ({ do: 'board', width: (row.width * least.width) / narrowest } as const),
  ];
}

function partsFrom(start: LayoutRequest['start']): (index: number) => Span['part'] {
  const first = start === 'two' ? 1 : 0;
  return (index) => ((index + first) % 2 === 0 ? 'finger' : 'slot');
}

function evenNumber(count: number, at: string): readonly Diagnostic[] {
  return count % 2 === 0 ? [diagnostic('fingers-even-number', 'ok', `${at}.fingers`, { count })] : [];
}
