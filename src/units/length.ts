/** Placeholder until units lands: the signatures are the contract. */
export type LengthUnit = 'mm' | 'in';

/** A length in mm as text in the reader's unit with the other beside it. */
export function formatLength(mm: number, units: LengthUnit): string {
  return units === 'mm' ? `${mm} mm` : `${mm / 25.4} in`;
}
