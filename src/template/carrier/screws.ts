import { machineScrews } from '../../../shared/screws.js';
import type { Formatter } from '../../diagnostics/formatter.js';
import type { FittingScrew, RegisterScrews } from './types.js';

/** The largest metric and the largest inch screw that pass a hole, mm; none through one that is narrower than all. */
export function screwsFor(hole: number): RegisterScrews {
  const fitting = (['metric', 'inch'] as const).flatMap((kind): readonly FittingScrew[] => {
    const passing = machineScrews.filter((one) => one.kind === kind && one.most <= hole + 1e-9);
    const largest = passing.toSorted((a, b) => b.most - a.most)[0];
    if (!largest) return [];
    const { name, head, least } = largest;
    return [{ name, kind, head, play: hole - least }];
  });
  return { hole, fitting };
}

/** The holes and their screws, for a file's metadata. */
export function screwsNote({ hole, fitting }: RegisterScrews, fmt: Formatter): string {
  const named = fitting.map(({ name }) => name);
  const screws =
    named.length > 0
      ? ` for machine screws ${named.join(' or ')}, heads sunk below the plate’s upper face`
      : '';
  return `Holes of ${fmt.length(hole)}${screws}: they hold the carrier’s parts in their places.`;
}
