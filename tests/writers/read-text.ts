import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';

/** What a program that reads aloud, searches or copies finds in a PDF: read by pdf.js. */
export interface ReadText {
  /** All text of all pages, lines joined by blanks. */
  readonly text: string;
  readonly language: string | undefined;
  readonly title: string | undefined;
  readonly outline: readonly string[];
  /** Roles of the structure in the order in which they are read, as `Table`, `TR`, `TD`; words of pictures in `pictures`. */
  readonly roles: readonly string[];
  readonly pictures: readonly string[];
}

interface Node {
  readonly role?: string;
  readonly alt?: string;
  readonly children?: readonly Node[];
}

export async function readText(bytes: Uint8Array): Promise<ReadText> {
  const document = await getDocument({ data: bytes.slice(), verbosity: 0 }).promise;
  const lines: string[] = [];
  const nodes: Node[] = [];
  for (let i = 1; i <= document.numPages; i++) {
    const page = await document.getPage(i);
    const { items } = await page.getTextContent();
    lines.push(...items.flatMap((item) => ('str' in item ? [item.str] : [])));
    const tree = (await page.getStructTree()) as Node | null;
    if (tree) nodes.push(tree);
  }
  const { info } = await document.getMetadata();
  const outline = (await document.getOutline()) as readonly Entry[] | null;
  await document.destroy();
  const found = nodes.flatMap(below);
  const { Title, Language } = info as { Title?: string; Language?: string };
  return {
    text: plain(lines.join(' ')),
    language: Language,
    title: Title,
    outline: (outline ?? []).flatMap(titles),
    roles: found.flatMap(({ role }) => role ?? []),
    pictures: found.flatMap(({ alt }) => alt ?? []),
  };
}

/** One blank where there are several, or a line feed. */
export const plain = (text: string): string => text.replace(/\s+/g, ' ').trim();

const below = (node: Node): readonly Node[] => [node, ...(node.children ?? []).flatMap(below)];

interface Entry {
  readonly title: string;
  readonly items: readonly Entry[];
}

const titles = ({ title, items }: Entry): readonly string[] => [title, ...items.flatMap(titles)];
