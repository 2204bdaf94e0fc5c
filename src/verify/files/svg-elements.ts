import { type Matrix, matrixOf, NO_CHANGE, times } from './svg-transform.js';

/** The start tags of an SVG file in order, each with its attributes and what the groups around it say. */
export interface SvgElement {
  /** Without the prefix of SVG's namespace; a tag of another namespace keeps its own. */
  readonly tag: string;
  readonly attributes: Readonly<Record<string, string>>;
  /** The innermost of the layers around it; '' for none. */
  readonly layer: string;
  /** Its own transform and all of those around it; what was read where one can't be worked out. */
  readonly matrix: Matrix | string;
  /** Not drawn where it stands: in definitions, or hidden. */
  readonly isHidden: boolean;
}

/** The layers that halfpin writes; groups of other names in or around them mean nothing. */
export const LAYERS: readonly string[] = ['CUT', 'SCORE', 'ENGRAVE', 'REF', 'STOCK'];

/** Attributes that may carry a layer's name. */
const LAYER_ATTRIBUTES = ['data-layer', 'inkscape:label', 'id', 'class'] as const;

/** What stands in these is drawn where it is used, if at all. */
const DEFINITIONS = ['defs', 'symbol', 'clipPath', 'mask', 'pattern', 'marker', 'metadata'];

type Around = Pick<SvgElement, 'tag' | 'layer' | 'matrix' | 'isHidden'>;

/**
 * Reads the tags of well-formed SVG: comments, CDATA and declarations are passed over, the five named
 * entities and numeric ones are replaced. It is no XML validator; what it cannot read gives no elements,
 * which the caller reports.
 */
export function elementsOf(text: string): readonly SvgElement[] {
  const elements: SvgElement[] = [];
  const open: Around[] = [];
  const prefix = /xmlns:([\w.-]+)\s*=\s*["']http:\/\/www\.w3\.org\/2000\/svg["']/.exec(text)?.[1];
  const markup =
    /<!--[\s\S]*?-->|<!\[CDATA\[[\s\S]*?\]\]>|<[?!][^>]*>|<(\/?)([\w:.-]+)((?:\s+[\w:.-]+\s*=\s*(?:"[^"]*"|'[^']*'))*)\s*(\/?)>/g;
  for (const [, closing, name, list = '', empty] of text.matchAll(markup)) {
    if (name === undefined) continue;
    const tag = prefix !== undefined && name.startsWith(`${prefix}:`) ? name.slice(prefix.length + 1) : name;
    if (closing) {
      const last = open.map((one) => one.tag).lastIndexOf(tag);
      if (last >= 0) open.length = last;
      continue;
    }
    const attributes = attributesOf(list);
    const around = open.at(-1) ?? { layer: '', matrix: NO_CHANGE, isHidden: false };
    const element = {
      tag,
      attributes,
      layer: layerIn(attributes) ?? around.layer,
      matrix: within(around.matrix, attributes),
      isHidden: around.isHidden || DEFINITIONS.includes(tag) || isHidden(attributes),
    };
    elements.push(element);
    if (!empty) open.push(element);
  }
  return elements;
}

function within(around: Matrix | string, { transform, style = '' }: SvgElement['attributes']) {
  if (typeof around === 'string') return around;
  if (/(^|[;\s])(transform|translate|rotate|scale)\s*:/.test(style)) return `style="${style}"`;
  const own = matrixOf(transform ?? '');
  return own ? times(around, own) : `transform="${transform}"`;
}

const isHidden = ({ display, visibility, style = '' }: SvgElement['attributes']): boolean =>
  display === 'none' || visibility === 'hidden' || /display\s*:\s*none|visibility\s*:\s*hidden/.test(style);

function attributesOf(list: string): Readonly<Record<string, string>> {
  const attributes: Record<string, string> = {};
  for (const [, key = '', double, single] of list.matchAll(/([\w:.-]+)\s*=\s*(?:"([^"]*)"|'([^']*)')/g)) {
    attributes[key] = unescaped(double ?? single ?? '');
  }
  return attributes;
}

function layerIn(attributes: SvgElement['attributes']): string | undefined {
  const names = LAYER_ATTRIBUTES.map((key) => attributes[key]?.toUpperCase() ?? '');
  return names.find((name) => LAYERS.includes(name));
}

const NAMED: Readonly<Record<string, string>> = { amp: '&', lt: '<', gt: '>', quot: '"', apos: "'" };

function unescaped(text: string): string {
  return text.replace(/&(#x[0-9a-f]+|#\d+|\w+);/gi, (whole, name: string) => {
    if (name.startsWith('#x')) return String.fromCodePoint(Number.parseInt(name.slice(2), 16));
    if (name.startsWith('#')) return String.fromCodePoint(Number(name.slice(1)));
    return NAMED[name] ?? whole;
  });
}
