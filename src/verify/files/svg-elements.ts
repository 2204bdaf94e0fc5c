/** The start tags of an SVG file in order, each with its attributes and the layer of the group around it. */
export interface SvgElement {
  readonly tag: string;
  readonly attributes: Readonly<Record<string, string>>;
  /** `id` (or a label that drawing programs keep) of the innermost named group around it, upper case; '' for none. */
  readonly layer: string;
}

/** Attributes that may carry a layer's name, the likeliest first. */
const LAYER_ATTRIBUTES = ['data-layer', 'inkscape:label', 'id', 'class'] as const;

/**
 * Reads the tags of well-formed SVG: comments, CDATA and declarations are passed over, the five named
 * entities and numeric ones are replaced. It is no XML validator; what it cannot read gives no elements,
 * which the caller reports.
 */
export function elementsOf(text: string): readonly SvgElement[] {
  const elements: SvgElement[] = [];
  const layers: string[] = [];
  const markup =
    /<!--[\s\S]*?-->|<!\[CDATA\[[\s\S]*?\]\]>|<[?!][^>]*>|<(\/?)([\w:.-]+)((?:\s+[\w:.-]+\s*=\s*(?:"[^"]*"|'[^']*'))*)\s*(\/?)>/g;
  for (const [, closing, tag, list = '', empty] of text.matchAll(markup)) {
    if (tag === undefined) continue;
    if (closing) {
      if (tag === 'g') layers.pop();
      continue;
    }
    const attributes = attributesOf(list);
    const own = layerIn(attributes);
    const around = layers[layers.length - 1] ?? '';
    elements.push({ tag, attributes, layer: tag === 'g' || around !== '' ? around : own });
    if (tag === 'g' && !empty) layers.push(own === '' ? around : own);
  }
  return elements;
}

function attributesOf(list: string): Readonly<Record<string, string>> {
  const attributes: Record<string, string> = {};
  for (const [, key = '', double, single] of list.matchAll(/([\w:.-]+)\s*=\s*(?:"([^"]*)"|'([^']*)')/g)) {
    attributes[key] = unescaped(double ?? single ?? '');
  }
  return attributes;
}

function layerIn(attributes: Readonly<Record<string, string>>): string {
  for (const key of LAYER_ATTRIBUTES) {
    const value = attributes[key];
    if (value !== undefined) return value.toUpperCase();
  }
  return '';
}

const NAMED: Readonly<Record<string, string>> = { amp: '&', lt: '<', gt: '>', quot: '"', apos: "'" };

function unescaped(text: string): string {
  return text.replace(/&(#x[0-9a-f]+|#\d+|\w+);/gi, (whole, name: string) => {
    if (name.startsWith('#x')) return String.fromCodePoint(Number.parseInt(name.slice(2), 16));
    if (name.startsWith('#')) return String.fromCodePoint(Number(name.slice(1)));
    return NAMED[name] ?? whole;
  });
}
