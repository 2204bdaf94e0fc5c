import { type PDFContext, type PDFDict, PDFHexString, type PDFRef } from '@cantoo/pdf-lib';
import type { Role, Tag } from '../../drawing/page.js';
import { points } from './content.js';

/** Language of every sentence that halfpin writes. */
export const LANGUAGE = 'en';

/** Tags on one page: the content that is marked with number i belongs to tag i. */
export interface TaggedPage {
  readonly page: PDFRef;
  readonly tags: readonly { readonly tag: Tag; readonly top: number }[];
}

interface Element {
  readonly ref: PDFRef;
  readonly tag: Tag;
  readonly kids: unknown[];
}

/**
 * The structure of a document (ISO 32000-1, 14.7 and 14.8): what is a heading, a list, a table, a picture with its words, in
 * the order in which it is read. Gives what stands in the catalogue.
 */
export function structureOf(file: PDFContext, pages: readonly TaggedPage[]): PDFRef {
  const root = file.nextRef();
  const whole: Element = { ref: file.nextRef(), tag: { role: 'P' }, kids: [] };
  const elements = new Map<Tag, Element>();
  const elementOf = (tag: Tag): Element => {
    const known = elements.get(tag);
    if (known) return known;
    const parent = tag.within ? elementOf(tag.within) : whole;
    const made: Element = { ref: file.nextRef(), tag, kids: [] };
    elements.set(tag, made);
    parent.kids.push(made.ref);
    return made;
  };
  const parents = pages.map(({ page, tags }) =>
    tags.map(({ tag }, id) => {
      const element = elementOf(tag);
      element.kids.push({ Type: 'MCR', Pg: page, MCID: id });
      return element.ref;
    }),
  );
  for (const { ref, tag, kids } of elements.values()) {
    const parent = tag.within ? elementOf(tag.within).ref : whole.ref;
    file.assign(ref, elementDict(file, tag, parent, kids));
  }
  file.assign(whole.ref, file.obj({ Type: 'StructElem', S: 'Document', P: root, K: whole.kids as [] }));
  const numbers = parents.flatMap((refs, i) => [i, refs]);
  file.assign(
    root,
    file.obj({
      Type: 'StructTreeRoot',
      K: [whole.ref],
      ParentTree: { Nums: numbers },
      ParentTreeNextKey: pages.length,
    }),
  );
  return root;
}

function elementDict(
  file: PDFContext,
  { role, words }: Tag,
  parent: PDFRef,
  kids: readonly unknown[],
): PDFDict {
  return file.obj({
    Type: 'StructElem',
    S: role,
    P: parent,
    K: kids as [],
    ...(role === 'TH' && { A: { O: 'Table', Scope: 'Column' } }),
    ...(role === 'Figure' && words !== undefined && { Alt: PDFHexString.fromText(words) }),
  });
}

const DEPTH: Readonly<Partial<Record<Role, number>>> = { H1: 1, H2: 2, H3: 3 };

interface Entry {
  readonly ref: PDFRef;
  readonly title: string;
  readonly page: PDFRef;
  readonly top: number;
  readonly entries: Entry[];
}

/** Headings as an outline that stands beside the pages (ISO 32000-1, 12.3.3); nothing where there is none. */
export function outlineOf(file: PDFContext, pages: readonly TaggedPage[]): PDFRef | undefined {
  const root = file.nextRef();
  const first: Entry = { ref: root, title: '', page: root, top: 0, entries: [] };
  const open = [first];
  const seen = new Set<Tag>();
  for (const { page, tags } of pages) {
    for (const { tag, top } of tags) {
      const depth = DEPTH[tag.role];
      if (depth === undefined || tag.words === undefined || seen.has(tag)) continue;
      seen.add(tag);
      const entry: Entry = { ref: file.nextRef(), title: tag.words, page, top, entries: [] };
      open.length = Math.min(open.length, depth);
      open.at(-1)?.entries.push(entry);
      open.push(entry);
    }
  }
  if (first.entries.length === 0) return undefined;
  writeEntries(file, first);
  return root;
}

function writeEntries(file: PDFContext, { ref, title, page, top, entries }: Entry, parent?: Entry): void {
  const at = parent ? parent.entries.findIndex((one) => one.ref === ref) : -1;
  const [before, after] = parent ? [parent.entries[at - 1], parent.entries[at + 1]] : [];
  file.assign(
    ref,
    file.obj({
      ...(parent
        ? {
            Title: PDFHexString.fromText(title),
            Parent: parent.ref,
            Dest: [page, 'XYZ', null, points(top), null],
          }
        : { Type: 'Outlines' }),
      ...(before && { Prev: before.ref }),
      ...(after && { Next: after.ref }),
      ...(entries[0] && { First: entries[0].ref, Last: entries.at(-1)?.ref, Count: countOf(entries) }),
    }),
  );
  for (const entry of entries) writeEntries(file, entry, { ref, title, page, top, entries });
}

const countOf = (entries: readonly Entry[]): number =>
  entries.reduce((sum, one) => sum + 1 + countOf(one.entries), 0);
