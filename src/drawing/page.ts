import type { Item } from './model.js';

/** A page that is composed already, mm from the lower left corner of its paper, x right, y up. */
export interface ComposedPage {
  readonly width: number;
  readonly height: number;
  /** In the order in which they are read. */
  readonly parts: readonly PagePart[];
}

/** What stands together: a line of a list, a cell of a table, a picture. Without a tag it is there for the eye alone. */
export interface PagePart {
  readonly items: readonly Item[];
  readonly tag?: Tag;
}

/**
 * What a part of a page is to a reader that doesn't see it (ISO 32000-1, 14.8.4: standard structure types). Parts with
 * one and the same tag are one element, on however many pages they stand.
 */
export interface Tag {
  readonly role: Role;
  readonly within?: Tag;
  /** What is to be seen, of a picture; what it says, of a heading. */
  readonly words?: string;
}

export type Role =
  | ('H1' | 'H2' | 'H3' | 'P' | 'Figure')
  | ('L' | 'LI' | 'Lbl' | 'LBody')
  | ('Table' | 'TR' | 'TH' | 'TD');

export const itemsOn = ({ parts }: ComposedPage): readonly Item[] => parts.flatMap(({ items }) => items);
