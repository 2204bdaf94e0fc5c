import { type Diagnostic, diagnostic, hasErrors } from '../diagnostics/diagnostic.js';
import type { TestCut } from './assemble.js';
import { breakthroughDiagnostics } from './cut/breakthrough.js';
import { seatDiagnostics } from './cut/seat.js';
import { strengthDiagnostics } from './cut/strength.js';
import { unreachedDiagnostics } from './cut/unreached.js';

/** Room beyond the asked slack in which a joint still counts as closed, mm: the project's promise. */
export const CLOSED_WITHIN = 0.005;

/**
 * What the test cut says about the joint: closed, or refused with the worst gap or overlap, or with the play of
 * the tightest pin, tail or finger, or with ends that are not flush, a bit that comes through or fingers too thin
 * to hold. Each pair has two glue lines, so half of its slack may show as a gap on
 * each: that limits how loose it may be as well.
 */
export function judgeTestCut(cut: TestCut, slack: number, at: string): readonly Diagnostic[] {
  const allowed = slack / 2;
  const flat = cut.way === 'placed';
  const diagnostics: Diagnostic[] = [];
  if (cut.worstGap > allowed + CLOSED_WITHIN) {
    const { x = 0, z = 0 } = cut.gapAt ?? {};
    diagnostics.push(diagnostic('joint-gaps', 'refused', at, { gap: cut.worstGap, allowed, x, z, flat }));
  }
  if (cut.worstOverlap > CLOSED_WITHIN) {
    const { x = 0, z = 0 } = cut.overlapAt ?? {};
    diagnostics.push(diagnostic('joint-overlaps', 'refused', at, { overlap: cut.worstOverlap, x, z, flat }));
  }
  const { tightest } = cut;
  const said = (code: Diagnostic['code']): boolean => diagnostics.some((one) => one.code === code);
  if (!said('joint-overlaps') && tightest && tightest.play < slack - CLOSED_WITHIN) {
    diagnostics.push(
      diagnostic('joint-tight', 'refused', at, { play: tightest.play, slack, ...tightest.at }),
    );
  }
  diagnostics.push(
    ...seatDiagnostics(cut, slack, at, cut.way),
    ...unreachedDiagnostics(cut.unreached, at),
    ...breakthroughDiagnostics(cut.breakthrough, at),
    ...strengthDiagnostics(cut.strength, slack, at),
  );
  if (!hasErrors(diagnostics)) {
    diagnostics.unshift(
      diagnostic('joint-closes', 'ok', at, { gap: cut.worstGap, overlap: cut.worstOverlap }),
    );
  }
  return diagnostics;
}
