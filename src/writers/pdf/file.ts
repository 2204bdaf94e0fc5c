import { PDFContext, PDFHexString, type PDFRef, PDFString, PDFWriter } from '@cantoo/pdf-lib';
import type { Tag } from '../../drawing/page.js';
import type { Extents } from '../../geometry/types.js';
import { points } from './content.js';
import { LANGUAGE, outlineOf, structureOf, type TaggedPage } from './structure.js';

/** One page: its paper in mm, and the streams that are drawn on it in turn. Equal texts are kept once. */
export interface PdfPage {
  readonly width: number;
  readonly height: number;
  readonly contents: readonly string[];
  /** What the content that is marked with number i is, and how high on the page it begins, mm; of pages that are read. */
  readonly tags?: readonly { readonly tag: Tag; readonly top: number }[];
}

/** What pages of drawings, and pages that are read, bring with them. */
export interface PdfParts {
  readonly forms?: readonly PdfForm[];
  readonly fonts?: (file: PDFContext) => Readonly<Record<string, PDFRef>>;
}

/** What pages draw by its name, as often as they like (ISO 32000-1, 8.10: form XObjects), in the pages' own units. */
export interface PdfForm {
  readonly name: string;
  /** All that it draws lies in here, line widths and all; the rest would be cut off. */
  readonly box: Extents;
  readonly content: string;
}

/** Objects are written without letting other work in between. */
const WITHOUT_PAUSE = Number.MAX_SAFE_INTEGER;

/** PDF 1.7 of the pages, asking for print at 100 %; no dates, no random ids. */
export async function pdfFile(
  pages: readonly PdfPage[],
  { title, subject }: { readonly title: string; readonly subject: string },
  { forms = [], fonts }: PdfParts = {},
): Promise<Uint8Array> {
  const file = PDFContext.create();
  const tree = file.nextRef();
  const streams = new Map<string, ReturnType<typeof file.register>>();
  // Pages that are read are packed; those of drawings stay plain, as machines' programs have them.
  const content = (text: string, tagged: boolean) => {
    const known = streams.get(text) ?? file.register(tagged ? file.flateStream(text) : file.stream(text));
    streams.set(text, known);
    return known;
  };
  const resources = {
    ...(forms.length > 0 && { XObject: drawnForms(file, forms) }),
    ...(fonts && { Font: fonts(file) }),
  };
  const kids = pages.map(({ width, height, contents, tags }, i) => {
    const drawn = contents.map((one) => content(one, tags !== undefined));
    return file.register(
      file.obj({
        Type: 'Page',
        Parent: tree,
        MediaBox: [0, 0, points(width), points(height)],
        Resources: resources,
        Contents: drawn,
        ...(tags && { StructParents: i, Tabs: 'S' }),
      }),
    );
  });
  file.assign(tree, file.obj({ Type: 'Pages', Kids: kids, Count: kids.length }));
  file.trailerInfo.Root = file.register(
    file.obj({
      Type: 'Catalog',
      Pages: tree,
      ...readingOf(file, pages, kids),
      // ISO 32000-1, Table 150: presets the print dialogue only, hence the printed instruction.
      ViewerPreferences: { PrintScaling: 'None', DisplayDocTitle: true },
    }),
  );
  file.trailerInfo.Info = file.register(
    file.obj({
      Title: PDFHexString.fromText(title),
      Subject: PDFHexString.fromText(subject),
      Producer: PDFHexString.fromText('halfpin'),
    }),
  );
  return PDFWriter.forContext(file, WITHOUT_PAUSE).serializeToBuffer();
}

/** What a reader's program asks for: language, structure, outline; nothing of pages without tags. */
function readingOf(file: PDFContext, pages: readonly PdfPage[], kids: readonly PDFRef[]) {
  const tagged = pages.flatMap(({ tags }, i): readonly TaggedPage[] => {
    const page = kids[i];
    return tags && page ? [{ page, tags }] : [];
  });
  if (tagged.length === 0) return {};
  const outline = outlineOf(file, tagged);
  return {
    Lang: PDFString.of(LANGUAGE),
    MarkInfo: { Marked: true },
    StructTreeRoot: structureOf(file, tagged),
    ...(outline && { Outlines: outline, PageMode: 'UseOutlines' }),
  };
}

function drawnForms(file: PDFContext, forms: readonly PdfForm[]) {
  return Object.fromEntries(
    forms.map(({ name, box, content }) => {
      const BBox = [box.minX, box.minY, box.maxX, box.maxY];
      return [
        name,
        file.register(file.stream(content, { Type: 'XObject', Subtype: 'Form', BBox, Resources: {} })),
      ];
    }),
  );
}
