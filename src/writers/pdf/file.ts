import { PDFContext, PDFHexString, PDFWriter } from '@cantoo/pdf-lib';
import type { Extents } from '../../geometry/types.js';
import { points } from './content.js';

/** One page: its paper in mm, and the streams that are drawn on it in turn. Equal texts are kept once. */
export interface PdfPage {
  readonly width: number;
  readonly height: number;
  readonly contents: readonly string[];
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

/** PDF 1.7 of the pages, asking for print at 100 %; no fonts, no dates, no random ids. */
export async function pdfFile(
  pages: readonly PdfPage[],
  { title, subject }: { readonly title: string; readonly subject: string },
  forms: readonly PdfForm[] = [],
): Promise<Uint8Array> {
  const file = PDFContext.create();
  const tree = file.nextRef();
  const streams = new Map<string, ReturnType<typeof file.register>>();
  const content = (text: string) => {
    const known = streams.get(text) ?? file.register(file.stream(text));
    streams.set(text, known);
    return known;
  };
  const resources = forms.length === 0 ? {} : { XObject: drawnForms(file, forms) };
  const kids = pages.map(({ width, height, contents }) => {
    const drawn = contents.map(content);
    return file.register(
      file.obj({
        Type: 'Page',
        Parent: tree,
        MediaBox: [0, 0, points(width), points(height)],
        Resources: resources,
        Contents: drawn,
      }),
    );
  });
  file.assign(tree, file.obj({ Type: 'Pages', Kids: kids, Count: kids.length }));
  file.trailerInfo.Root = file.register(
    file.obj({
      Type: 'Catalog',
      Pages: tree,
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
