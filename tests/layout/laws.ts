import fc from 'fast-check';
import { expect } from 'vitest';
import { sentence } from '../../src/diagnostics/catalogue.js';
import type { Diagnostic, Result } from '../../src/diagnostics/diagnostic.js';
import { formatterFor } from '../../src/diagnostics/formatter.js';
import type { LaidOut, Layout, Span } from '../../src/layout/types.js';

/** Laws that a layout of any spacing keeps, written without the solver's own code. */

/** Jobs per spacing and law. */
export const RUNS = 1000;

/** Arithmetic only: the sum of a thousand widths of a metre is surer than this, mm. */
export const EXACT = 1e-9;

export const widthOf = (span: Span): number => span.to - span.from;

export function widthsOf(layout: Layout, part?: Span['part']): readonly number[] {
  return layout.spans.filter((span) => part === undefined || span.part === part).map(widthOf);
}

/** The greatest difference of two rows of numbers, place by place. */
export function worst(row: readonly number[], other: readonly number[]): number {
  expect(row.length).toBe(other.length);
  return Math.max(0, ...row.map((one, i) => Math.abs(one - (other[i] ?? Infinity))));
}

/** Each number divided by the one before it. */
export function ratios(row: readonly number[]): readonly number[] {
  return row.slice(1).map((one, i) => one / (row[i] ?? 0));
}

/** Pins between tails, without the half-pins at the edges. */
export function innerPins(layout: Layout): readonly number[] {
  return layout.spans
    .slice(1, -1)
    .filter((span) => span.part === 'pin')
    .map(widthOf);
}

/** Spans run end to end from the reference edge to the far edge and alternate. */
export function fillsTheBoard(layout: Layout, width: number): void {
  const { spans } = layout;
  expect(layout.width).toBe(width);
  expect(spans[0]?.from).toBe(0);
  expect(spans.at(-1)?.to).toBe(width);
  const joined = spans
    .slice(1)
    .every((span, i) => span.from === spans[i]?.to && span.part !== spans[i]?.part);
  expect(joined).toBe(true);
  const sum = widthsOf(layout).reduce((total, one) => total + one, 0);
  expect(Math.abs(sum - width)).toBeLessThan(EXACT);
}

/** Every diagnostic can be read aloud: no hole where a number or a name should stand. */
export function canBeRead(diagnostics: readonly Diagnostic[]): void {
  for (const one of diagnostics) {
    expect(sentence(one, formatterFor('mm'))).not.toMatch(
      /undefined|NaN|Infinity|\bnull\b| {2}|,,|; would do/,
    );
  }
}

/** Refusals say why and by how much; nothing else is refused. */
export function saysWhy(diagnostics: readonly Diagnostic[]): void {
  const refusals = diagnostics.filter((one) => one.level === 'refused');
  expect(refusals.length).toBeGreaterThan(0);
  for (const one of refusals) {
    if (one.code !== 'span-narrow') continue;
    expect(one.data.width).toBeLessThan(one.data.least);
    expect(one.data.because).not.toBe('');
    expect(one.data.cures.length).toBeGreaterThan(0);
  }
}

/**
 * Runs the law over random jobs that were laid out; refused ones must say why. Not vacuous: of all jobs more
 * than `share` must have been laid out.
 */
export function overAccepted<J>(
  jobs: fc.Arbitrary<J>,
  lay: (job: J) => Result<LaidOut>,
  law: (job: J, laid: LaidOut, diagnostics: readonly Diagnostic[]) => void,
  share = 0.3,
): void {
  let accepted = 0;
  fc.assert(
    fc.property(jobs, (job) => {
      const result = lay(job);
      if (!result.ok) return saysWhy(result.diagnostics);
      accepted += 1;
      expect(result.diagnostics.some((one) => one.level === 'refused')).toBe(false);
      law(job, result.value, result.diagnostics);
    }),
    { numRuns: RUNS, seed: 20 },
  );
  expect(accepted / RUNS).toBeGreaterThan(share);
}
