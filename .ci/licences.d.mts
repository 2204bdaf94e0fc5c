export interface LockedPackage {
  readonly name: string;
  readonly version: string;
  readonly licence: string;
  /** Its folder, from the project's. */
  readonly place: string;
}
export const mayBeInside: readonly string[];
export const mayBeUsed: readonly string[];
export function isAllowed(licence: string, allowed: readonly string[]): boolean;
export function packagesInside(metafiles: readonly object[]): readonly string[];
export function licenceTexts(folders: readonly string[]): string;
export function licenceTable(): string;
export function packagesByPlace(): Readonly<Record<'inside' | 'beside' | 'tools', readonly LockedPackage[]>>;
