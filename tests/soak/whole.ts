/** How a file of each format begins and ends when all of it is there. */
const marks: Readonly<Record<string, readonly [RegExp, RegExp]>> = {
  svg: [/^<\?xml|^<svg/, /<\/svg>\s*$/],
  dxf: [/^\s*(0|999)\r?\n/, /\n\s*0\r?\nEOF\s*$/],
  pdf: [/^%PDF-/, /%%EOF\s*$/],
  html: [/^<!doctype html>/i, /<\/html>\s*$/],
  json: [/^\{/, /\}\s*$/],
  ngc: [/^[%(;A-Z]/, /\n(M0?2|M30|%)\s*$/],
  '3mf': [/^PK/, /PK[\s\S]{20}$/],
  stl: [/^/, /$/],
};

/** A number that is none, where a drawing has to have one. */
const noNumber =
  /\b(d|x|y|cx|cy|r|x1|y1|x2|y2|width|height|viewBox|points|transform)="[^"]*(NaN|Infinity|undefined)/;
const noDxfNumber = /\n\s*(10|20|30|40|41|42|50|51)\r?\n\s*(NaN|-?Infinity|undefined)\r?\n/;

/** What shows that a file is not whole, or holds a number that is none; undefined for a whole file. */
export function halfWritten(path: string, content: Uint8Array): string | undefined {
  if (content.length === 0) return `${path} is empty`;
  const ending = path.split('.').at(-1) ?? '';
  const [begins, ends] = marks[ending] ?? [];
  if (!begins || !ends) return `${path} has an unknown ending`;
  const text = Buffer.from(content).toString('latin1');
  if (!begins.test(text.slice(0, 200)) || !ends.test(text.slice(-400))) return `${path} is not whole`;
  if (ending === 'json' && !isJson(text)) return `${path} is no JSON`;
  if (noNumber.test(text) || (ending === 'dxf' && noDxfNumber.test(text))) return `${path} holds no number`;
  return undefined;
}

function isJson(text: string): boolean {
  try {
    JSON.parse(text);
    return true;
  } catch {
    return false;
  }
}
