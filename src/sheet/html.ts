import type { Drawing } from '../drawing/model.js';
import { escaped } from '../drawing/xml.js';
import {
  type Bench,
  type Block,
  type Card,
  type Figure,
  type SetNumber,
  type SheetDocument,
  scaleWords,
  trialWords,
} from './document.js';
import { fittedFigure } from './page-pieces.js';

/** Draws one picture as SVG text; given by the caller, as sheets know no writers. */
export type PictureOf = (drawing: Drawing) => string;

/** Width of a figure on the page, mm, and how much higher than on paper it may be. */
const PAGE = 184;
const MORE_SPACE = 1.25;

/** The sheet as one HTML page that needs no other file: words as text, figures as inline SVG. */
export function sheetHtml(document: SheetDocument, pictureOf: PictureOf): string {
  const body = document.blocks.map((block) => blockHtml(block, pictureOf));
  return htmlPage(document.title, [
    `<h1>${escaped(document.title)}</h1>`,
    `<p class="sub">${escaped(document.subtitle)}</p>`,
    ...body,
  ]);
}

export function htmlPage(title: string, body: readonly string[]): string {
  return [
    '<!DOCTYPE html>',
    '<html lang="en">',
    '<head>',
    '<meta charset="utf-8">',
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    `<title>${escaped(title)}</title>`,
    `<style>${STYLE}</style>`,
    '</head>',
    '<body>',
    ...body,
    '</body>',
    '</html>',
    '',
  ].join('\n');
}

/** Read at arm's length, on a phone at the bench and on paper. */
const STYLE = [
  'body{font:18px/1.4 system-ui,sans-serif;color:#000;background:#fff;max-width:200mm;margin:1rem auto;padding:0 1rem}',
  'h1{font-size:1.6rem;margin:.2em 0}h2{font-size:1.2rem;margin:1.4em 0 .4em}',
  '.sub{margin:.1em 0 1em}',
  'table{border-collapse:collapse;width:100%;font-size:.95rem}',
  'th,td{text-align:left;vertical-align:top;padding:.3em .6em .3em 0;border-bottom:1px solid #999}',
  'th{border-bottom:2px solid #000}',
  'ol{padding-left:1.6em}li{margin:.4em 0}',
  '.caution{display:block;border-left:4px solid #D55E00;padding-left:.6em;margin-top:.2em;font-size:.95rem}',
  '.row{display:flex;flex-wrap:wrap;gap:1rem;align-items:flex-start}',
  'figure{margin:.8em 0;flex:1 1 20rem;min-width:0}figcaption{font-weight:600;margin-bottom:.3em}',
  'svg{max-width:100%;height:auto}',
  '.form{display:grid;grid-template-columns:repeat(auto-fill,minmax(11rem,1fr));gap:.8rem}',
  '.form span{display:block;border:1px solid #000;height:2.2rem}',
  '.numbers{display:grid;grid-template-columns:repeat(auto-fit,minmax(9rem,1fr));gap:.4rem 1rem;border:solid #000;border-width:2px 0;padding:.5em 0;margin:1em 0;font-size:.9rem}',
  '.numbers strong{display:block;font-size:1.5rem;line-height:1.2}',
  '.cards{display:grid;grid-template-columns:repeat(auto-fill,minmax(15rem,1fr));gap:.8rem}',
  '.card{border:1px solid #999;margin:0;padding:.6em}.card figcaption{font-size:1.2rem}.card p{margin:.2em 0;font-size:1rem}',
  '.wide{overflow-x:auto}',
  '@media print{body{font-size:12pt;margin:0}figure,li,tr{break-inside:avoid}}',
].join('');

function blockHtml(block: Block, pictureOf: PictureOf): string {
  switch (block.kind) {
    case 'heading':
      return `<h2>${escaped(block.text)}</h2>`;
    case 'words':
      return block.paragraphs.map((words) => `<p>${escaped(words)}</p>`).join('\n');
    case 'steps':
      return `<ol>\n${block.steps.map(({ text, caution }) => `<li>${escaped(text)}${caution === undefined ? '' : `<span class="caution">Caution: ${escaped(caution)}</span>`}</li>`).join('\n')}\n</ol>`;
    case 'table':
      return tableHtml(
        block.columns.map(({ title }) => escaped(title)),
        block.rows.map((row) => row.map(escaped)),
      );
    case 'figures':
      return `<div class="row">\n${block.figures.map((figure) => figureHtml(figure, pictureOf)).join('\n')}\n</div>`;
    case 'bench':
      return benchHtml(block, pictureOf);
    case 'form':
      return `<div class="form">\n${block.fields.map(({ label }) => `<div>${escaped(label)}<span></span></div>`).join('\n')}\n</div>`;
  }
}

/** Width and height of a card's picture on the page, mm. */
const CARD = { width: 70, height: 60 } as const;

function benchHtml({ settings, trial }: Bench, pictureOf: PictureOf): string {
  const numbers = ({ label, value, detail = '' }: SetNumber) =>
    `<div>${escaped(label)}<strong>${escaped(value)}</strong>${escaped(detail)}</div>`;
  const card = ({ number, title, place, ticks, lines, picture }: Card) => {
    const items = picture.draw(CARD.width, CARD.height);
    const drawn = inlined(pictureOf({ title, notes: [picture.words], items }), picture.words);
    const boxes = Array.from({ length: ticks }, () => '<input type="checkbox" aria-label="cut">').join('');
    return `<figure class="card"><figcaption>${number} ${escaped(title)} ${boxes}<br><small>${escaped(place)}</small></figcaption>\n${drawn}\n${lines.map((one) => `<p>${escaped(one)}</p>`).join('')}</figure>`;
  };
  return [
    `<p><strong>${escaped(trialWords(trial))}</strong></p>`,
    ...settings.flatMap((one) => [
      `<div class="numbers">${one.numbers.map(numbers).join('')}</div>`,
      `<div class="cards">\n${one.cards.map(card).join('\n')}\n</div>`,
    ]),
  ].join('\n');
}

/** Cells are HTML already. */
export function tableHtml(head: readonly string[], rows: readonly (readonly string[])[]): string {
  return [
    '<div class="wide"><table>',
    `<thead><tr>${head.map((cell) => `<th>${cell}</th>`).join('')}</tr></thead>`,
    '<tbody>',
    ...rows.map((row) => `<tr>${row.map((cell) => `<td>${cell}</td>`).join('')}</tr>`),
    '</tbody></table></div>',
  ].join('\n');
}

function figureHtml(figure: Figure, pictureOf: PictureOf): string {
  const { items, scale } = fittedFigure(figure, PAGE * figure.share, figure.room * MORE_SPACE);
  const caption = `${figure.title} (${figure.scaled ? scaleWords(scale) : 'not to scale'})`;
  const picture = inlined(pictureOf({ title: figure.title, notes: [figure.words], items }), figure.words);
  return `<figure><figcaption>${escaped(caption)}</figcaption>\n${picture}\n</figure>`;
}

/** An SVG file as a part of a page: no prolog, no ids that another picture has too, and words for who sees none. */
export function inlined(svg: string, words: string): string {
  return svg
    .replace(/^<\?xml[^>]*\?>\s*/, '')
    .replace(/ id="[^"]*"/g, '')
    .replace(/^<svg /, `<svg role="img" aria-label="${escaped(words)}" `)
    .trimEnd();
}
