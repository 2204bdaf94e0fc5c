import { PDFContext, PDFHexString, PDFWriter } from '@cantoo/pdf-lib';
import { points } from './pdf-content.js';

/** One page: its paper in mm, and the streams that are drawn on it in turn. Equal texts are kept once. */
export interface PdfPage {
  readonly width: number;
  readonly height: number;
  readonly contents: readonly string[];
}

/** Objects are written without letting other work in between. */
const WITHOUT_PAUSE = Number.MAX_SAFE_INTEGER;

/** PDF 1.7 of the pages, asking for print at 100 %; no fonts, no dates, no random ids. */
export async function pdfFile(
  pages: readonly PdfPage[],
  { title, subject }: { readonly title: string; readonly subject: string },
): Promise<Uint8Array> {
  const file = PDFContext.create();
  const tree = file.nextRef();
  const streams = new Map<string, ReturnType<typeof file.register>>();
  const content = (text: string) => {
    const known = streams.get(text) ?? file.register(file.stream(text));
    streams.set(text, known);
    return known;
  };
  const kids = pages.map(({ width, height, contents }) => {
    const drawn = contents.map(content);
    return file.register(
      file.obj({
        Type: 'Page',
        Parent: tree,
        MediaBox: [0, 0, points(width), points(height)],
        Resources: {},
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
