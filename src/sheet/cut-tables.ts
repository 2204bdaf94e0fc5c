import { type LengthUnit, MM_PER_INCH } from '../units/length.js';
import type { CutPart, StockTotal } from './cut-list.js';
import type { Block, Table } from './document.js';

/** The cut list and the stock that it takes, as tables. */

/** The list, the stock, and what the sizes allow for; `sanding` of each piece, mm. */
export function cutTables(
  parts: readonly CutPart[],
  totals: readonly StockTotal[],
  sanding: readonly number[],
  { fmt, units }: { readonly fmt: (mm: number) => string; readonly units: LengthUnit },
): readonly Block[] {
  return [
    cutTable(parts, fmt),
    stockTable(totals, fmt, units),
    { kind: 'words', paragraphs: [allowanceWords(sanding, fmt)] },
  ];
}

function cutTable(parts: readonly CutPart[], fmt: (mm: number) => string): Table {
  return {
    kind: 'table',
    columns: [
      { title: 'Part, letters', share: 0.25 },
      { title: 'Make', share: 0.12 },
      { title: 'Thick', share: 0.13 },
      { title: 'Wide', share: 0.15 },
      { title: 'Long', share: 0.35 },
    ],
    rows: parts.map((part) => [
      `${part.piece}: ${part.part} ${part.letters}${part.material ? `, ${part.material}` : ''}`,
      part.spare > 0 ? `${part.count} + ${part.spare} spare` : `${part.count}`,
      fmt(part.thickness),
      fmt(part.width),
      `${fmt(part.length)}: ${part.because}`,
    ]),
  };
}

/** Bought over what the parts take, for waste and defects: common practice, no source. */
const WASTE = 1.2;

function stockTable(totals: readonly StockTotal[], fmt: (mm: number) => string, units: LengthUnit): Table {
  return {
    kind: 'table',
    columns: [
      { title: 'Stock', share: 0.25 },
      { title: 'Thick', share: 0.12 },
      { title: 'Parts and spares', share: 0.28 },
      { title: 'Area; with a fifth for waste', share: 0.35 },
    ],
    rows: totals.map(({ material = 'as you choose', thickness, parts, area }) => [
      material,
      fmt(thickness),
      `${parts}`,
      `${areaWords(area, units)}; ${areaWords(WASTE * area, units)}`,
    ]),
  };
}

/** Square feet to a tenth, square metres to a hundredth. */
function areaWords(mm2: number, units: LengthUnit): string {
  const foot = 12 * MM_PER_INCH;
  return units === 'in' ? `${(mm2 / foot ** 2).toFixed(1)} sq ft` : `${(mm2 / 1e6).toFixed(2)} m²`;
}

/** Off each face: 1/64 in, common practice, no source, mm. */
const USUAL_SANDING = 25.4 / 64;

function allowanceWords(sanding: readonly number[], fmt: (mm: number) => string): string {
  const [first = 0] = sanding;
  return first > 0 && sanding.every((one) => one === first)
    ? `Lengths have ${fmt(first)} at each end for sanding the outside faces.`
    : `Sanding takes about ${fmt(USUAL_SANDING)} off each outside face; nothing is added for it unless sanding under pieces asks for it.`;
}
