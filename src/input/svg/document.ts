import { SaxesParser } from 'saxes';
import { type Diagnostic, diagnostic, err, ok, type Result } from '../../diagnostics/diagnostic.js';
import { MM_PER_INCH } from '../../units/length.js';
import type { TextFile } from '../types.js';
import { composed, IDENTITY, readTransform, type SvgMatrix, viewport } from './transform.js';

/** One line of an SVG document. */
export interface SvgLine {
  readonly id?: string;
  /** Path data, in the units and axes of its element. */
  readonly d: string;
  /** Takes the element's coordinates to mm on the sheet, y still running down. */
  readonly toMm: SvgMatrix;
}

/** CSS Values 3: 1 in = 96 px; SVG's user unit is the px. */
export const MM_PER_PX = MM_PER_INCH / 96;

/**
 * Finds one line in an SVG document: the path, line, polyline or polygon with the id, or the only one that is
 * drawn. Every transform above it, the document's size and its viewBox are worked into `toMm`. Diagnostics are
 * placed at `at`. No entity is expanded and nothing outside of the text is read.
 */
export function findSvgLine(file: TextFile, id: string | undefined, at: string): Result<SvgLine> {
  const refuse = (...diagnostics: readonly Diagnostic[]): Result<SvgLine> => err(diagnostics);
  const { elements, trouble, sized } = readElements(file.text);
  if (trouble) return refuse(diagnostic('svg-unreadable', 'refused', at, { file: file.path, ...trouble }));
  const lines = elements.filter((one) => one.d !== undefined);
  const known = lines.flatMap((one) => (one.id === undefined ? [] : [one.id]));
  if (id === undefined) {
    const drawn = lines.filter(({ isDrawn }) => isDrawn);
    const [only] = drawn;
    if (only === undefined) return refuse(diagnostic('svg-no-line', 'refused', at, { file: file.path }));
    if (drawn.length > 1) {
      const ids = drawn.flatMap((one) => (one.id === undefined ? [] : [one.id]));
      const data = { file: file.path, count: drawn.length, ids };
      return refuse(diagnostic('svg-lines-many', 'refused', at, data));
    }
    return lineOf(only, file, sized, at);
  }
  const named = elements.filter((one) => one.id === id);
  const [one] = named;
  const data = { file: file.path, id, known };
  if (one === undefined) return refuse(diagnostic('svg-id-unknown', 'refused', at, data));
  if (named.length > 1) {
    return refuse(diagnostic('svg-id-twice', 'refused', at, { file: file.path, id, count: named.length }));
  }
  if (one.d === undefined) {
    return refuse(diagnostic('svg-id-no-line', 'refused', at, { ...data, element: one.element }));
  }
  return lineOf(one, file, sized, at);
}

function lineOf(one: Element, file: TextFile, sized: boolean, at: string): Result<SvgLine> {
  const { d = '', id, bad, toMm, element } = one;
  if (bad !== undefined) {
    return err([diagnostic('svg-transform-unread', 'refused', at, { file: file.path, element, read: bad })]);
  }
  const [a, b, c, e] = toMm;
  if (Math.abs(a * e - b * c) < FLAT) {
    return err([diagnostic('svg-transform-flat', 'refused', at, { file: file.path, element })]);
  }
  const unsized = sized ? [] : [diagnostic('svg-unsized', 'caution', at, { file: file.path })];
  return ok({ d, toMm, ...(id === undefined ? {} : { id }) }, unsized);
}

/** A transform that leaves less than this of an area, mm² for a unit, has squeezed the drawing into a line. */
const FLAT = 1e-9;

// The document, element by element

interface Element {
  readonly element: string;
  readonly id?: string;
  /** Of elements that are one line. */
  readonly d?: string;
  readonly toMm: SvgMatrix;
  /** A transform above it, or its own, that could not be read. */
  readonly bad?: string;
  /** false below defs and the like. */
  readonly isDrawn: boolean;
}

interface Elements {
  readonly elements: readonly Element[];
  readonly trouble?: { readonly because: string; readonly line: number; readonly column: number };
  /** Whether the document says how large it is. */
  readonly sized: boolean;
}

/** What holds lines to be used elsewhere, not lines that are drawn where they stand. */
const notDrawn = new Set(['defs', 'symbol', 'clipPath', 'mask', 'marker', 'pattern']);

function readElements(text: string): Elements {
  const parser = new SaxesParser<{ xmlns: false; position: true }>({ xmlns: false, position: true });
  const elements: Element[] = [];
  const open: Pick<Element, 'toMm' | 'bad' | 'isDrawn'>[] = [];
  let trouble: Elements['trouble'];
  let sized = false;
  const stop = (because: string): void => {
    trouble ??= { because, line: parser.line, column: parser.column + 1 };
  };
  parser.on('error', ({ message }) => {
    const because = message.replace(/^\d+:\d+: /, '').replace(/\.$/, '');
    // A name space written as an entity of the document's own, as some drawing programs do; no line needs it.
    if (because !== 'undefined entity') stop('it is no whole SVG drawing');
  });
  parser.on('opentag', ({ name, attributes }) => {
    const element = name.replace(/^[^:]*:/, '');
    const above = open.at(-1);
    if (above === undefined && element !== 'svg') stop(`the outermost element is ${element}, not svg`);
    const outer = above ?? { toMm: [MM_PER_PX, 0, 0, MM_PER_PX, 0, 0], isDrawn: true };
    const own = ownTransform(element, attributes, above === undefined);
    if (above === undefined) sized = own.sized;
    const bad = outer.bad ?? own.bad;
    const here = {
      toMm: composed(outer.toMm, own.matrix),
      isDrawn: outer.isDrawn && !notDrawn.has(element),
      ...(bad === undefined ? {} : { bad }),
    };
    open.push(here);
    const d = pathData(element, attributes);
    const { id } = attributes;
    elements.push({ element, ...here, ...(d === undefined ? {} : { d }), ...(id ? { id } : {}) });
  });
  parser.on('closetag', () => {
    open.pop();
  });
  parser.write(text.replace(/^\u{feff}/u, '')).close();
  return { elements, sized, ...(trouble ? { trouble } : {}) };
}

type Attributes = Readonly<Record<string, string>>;

/** The `transform` of an element, and what an svg element's viewBox adds to it. */
function ownTransform(element: string, attributes: Attributes, outermost: boolean) {
  const written = attributes.transform ?? '';
  const inStyle = /(?:^|;)\s*(transform\s*:[^;]*)/.exec(attributes.style ?? '')?.[1];
  const transform = readTransform(written);
  const port = element === 'svg' ? viewport(attributes, outermost) : { matrix: IDENTITY, sized: true };
  const bad =
    inStyle ?? (transform === undefined ? written : port === undefined ? sizeOf(attributes) : undefined);
  return {
    matrix: composed(transform ?? IDENTITY, port?.matrix ?? IDENTITY),
    sized: port?.sized ?? false,
    ...(bad === undefined ? {} : { bad }),
  };
}

function sizeOf({ width = '', height = '', viewBox = '' }: Attributes): string {
  return `width="${width}" height="${height}" viewBox="${viewBox}"`;
}

/** The element as path data, SVG 2 "Basic shapes": undefined for what is no single line. */
function pathData(element: string, attributes: Attributes): string | undefined {
  const { d, points = '', x1 = '0', y1 = '0', x2 = '0', y2 = '0' } = attributes;
  if (element === 'path') return d ?? '';
  if (element === 'line') return `M${x1} ${y1}L${x2} ${y2}`;
  if (element !== 'polyline' && element !== 'polygon') return undefined;
  return points.trim() === '' ? '' : `M${points}${element === 'polygon' ? 'Z' : ''}`;
}
