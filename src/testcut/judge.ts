import { type Finding, finding, isRefused } from '../findings/finding.js';
import type { TestCut } from './assemble.js';
import { breakthroughFindings } from './breakthrough.js';
import { seatFindings } from './seat.js';
import { strengthFindings } from './strength.js';
import { unreachedFindings } from './unreached.js';

/** Room beyond the asked slack in which a joint still counts as closed, mm: the project's promise. */
export const CLOSED_WITHIN = 0.005;

/**
 * What the test cut says about the joint: closed, or refused with the worst gap or overlap, or with the play of
 * the tightest pin, tail or finger, or with ends that are not flush, a bit that comes through or fingers too thin
 * to hold. Each pair has two glue lines, so half of its slack may show as a gap on
 * each: that limits how loose it may be as well.
 */
export function judgeTestCut(cut: TestCut, slack: number, at: string): readonly Finding[] {
  const allowed = slack / 2;
  const flat = cut.way === 'placed';
  const findings: Finding[] = [];
  if (cut.worstGap > allowed + CLOSED_WITHIN) {
    const { x = 0, z = 0 } = cut.gapAt ?? {};
    findings.push(finding('joint-gaps', 'refused', at, { gap: cut.worstGap, allowed, x, z, flat }));
  }
  if (cut.worstOverlap > CLOSED_WITHIN) {
    const { x = 0, z = 0 } = cut.overlapAt ?? {};
    findings.push(finding('joint-overlaps', 'refused', at, { overlap: cut.worstOverlap, x, z, flat }));
  }
  const { tightest } = cut;
  const said = (code: Finding['code']): boolean => findings.some((one) => one.code === code);
  if (!said('joint-overlaps') && tightest && tightest.play < slack - CLOSED_WITHIN) {
    findings.push(finding('joint-tight', 'refused', at, { play: tightest.play, slack, ...tightest.at }));
  }
  findings.push(
    ...seatFindings(cut, slack, at, cut.way),
    ...unreachedFindings(cut.unreached, at),
    ...breakthroughFindings(cut.breakthrough, at),
    ...strengthFindings(cut.strength, slack, at),
  );
  if (!isRefused(findings)) {
    findings.unshift(finding('joint-closes', 'ok', at, { gap: cut.worstGap, overlap: cut.worstOverlap }));
  }
  return findings;
}
