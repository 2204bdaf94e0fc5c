/** Paper sizes, mm, upright: the width is the short edge. */
export interface PaperSize {
  readonly width: number;
  readonly height: number;
}

/** A paper by its name in this table, or by its size in mm. */
export type PaperChoice = { readonly name: string } | PaperSize;

/**
 * Source: CSS Paged Media Module Level 3, page size keywords: A5, A4 and A3 in mm (ISO 216); letter 8.5 × 11,
 * legal 8.5 × 14 and ledger 11 × 17 in, here in mm at 25.4 mm to the inch. `tabloid` is the trade's name for
 * a ledger sheet held upright (common practice, no source).
 */
export const paperSizes: Readonly<Record<string, PaperSize>> = {
  a5: { width: 148, height: 210 },
  a4: { width: 210, height: 297 },
  a3: { width: 297, height: 420 },
  letter: { width: 215.9, height: 279.4 },
  legal: { width: 215.9, height: 355.6 },
  tabloid: { width: 279.4, height: 431.8 },
  ledger: { width: 279.4, height: 431.8 },
};

/** Names to choose from, in the order of the table. */
export const paperNames: readonly string[] = Object.keys(paperSizes);

/**
 * The size of a paper as it leaves the printer, held upright: a size of one's own is turned so that its width
 * is the short edge. undefined for a name that is not in the table; capitals don't matter.
 */
export function paperSize(paper: PaperChoice): PaperSize | undefined {
  if (!('name' in paper)) {
    return { width: Math.min(paper.width, paper.height), height: Math.max(paper.width, paper.height) };
  }
  const key = paper.name.trim().toLowerCase();
  return Object.hasOwn(paperSizes, key) ? paperSizes[key] : undefined;
}
