import { sentence } from '../diagnostics/catalogue.js';
import { type Diagnostic, diagnostic } from '../diagnostics/diagnostic.js';
import { fitToSet } from '../units/to-set.js';
import type { Table } from './document.js';
import type { CorrectionRow, SheetInput } from './input.js';

/**
 * What to change when the trial joint does not fit: the sentences that `refit` says to the same, or that nothing
 * is known of how this joint's fit changes.
 */
export function correctionTable(input: SheetInput): Table {
  const { fit, name, kind, setUp } = input.solved;
  const own = setUp.at === 'boards' ? (setUp.corrections ?? []) : [];
  const rows = distinct(input.corrections.map((row) => correctionRow(row, input)));
  const unknown = diagnostic('refit-kind', 'refused', `joints.${name}`, { kind });
  return {
    kind: 'table',
    columns: [
      { title: 'The trial joint', share: 0.34 },
      { title: 'What to change; more in proportion', share: 0.66 },
    ],
    rows: [
      ...(fit || own.length > 0 ? [] : [['does not fit', sentence(unknown, input.fmt)]]),
      ...own,
      ...rows,
    ],
  };
}

/** Diagnostics that a row of the table has no room for: what was measured, and new sizes of tools. */
const leftOut: readonly Diagnostic['code'][] = ['refit-looser', 'refit-size', 'refit-new-plate'];

function correctionRow({ seen, diagnostics }: CorrectionRow, { fmt, units }: SheetInput): readonly string[] {
  const isExample = seen.what !== 'loose' && seen.what !== 'tight';
  const length = isExample ? (mm: number) => asMuch(mm, seen.by) : (mm: number) => fitToSet(mm, units);
  const said = diagnostics
    .filter(({ code }) => !leftOut.includes(code))
    .map((one) => sentence(one, { ...fmt, length }));
  return [seenWords({ seen, diagnostics }, units), said.join('; ')];
}

/** Rows that say the same of the same are one. */
function distinct(rows: readonly (readonly string[])[]): readonly (readonly string[])[] {
  const keys = rows.map((row) => row.join());
  return rows.filter((_, i) => keys.indexOf(keys[i] ?? '') === i);
}

/** What is done goes by what is seen, in a plain share of it. */
function asMuch(mm: number, seen: number): string {
  const share = mm / seen;
  if (Math.abs(share - 1) < 1e-9) return 'as much';
  return Math.abs(share - 1 / 2) < 1e-9 ? 'half as much' : `${share.toFixed(2)} times as much`;
}

function seenWords({ seen, diagnostics }: CorrectionRow, units: 'mm' | 'in'): string {
  switch (seen.what) {
    case 'loose':
    case 'tight':
      return diagnostics.some(({ code }) => code === 'refit-no-setting')
        ? 'too loose or too tight'
        : `each pair ${fitToSet(seen.by, units)} too ${seen.what}`;
    case 'past':
      return 'reference edges out of line';
    default:
      return seen.board === 'side'
        ? `side ${seen.what === 'proud' ? 'proud of' : 'below'} the end of the pin board`
        : `ends of a board too ${seen.what === 'proud' ? 'far out' : 'far back'}`;
  }
}
