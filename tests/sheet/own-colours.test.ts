import { expect, test } from 'vitest';
import { type Colours, operations } from '../../shared/operations.js';
import { itemsOn } from '../../src/drawing/page.js';
import { paintOrder, styleOf } from '../../src/drawing/styles.js';
import { families } from '../../src/joints/list.js';
import { sheetPage, sheetPaper } from '../../src/outputs/set-up.js';
import { layPages } from '../../src/sheet/pages.js';
import { writePages } from '../../src/writers/pdf/pages.js';
import { readText } from '../support/jobs.js';
import { makeSheets } from './sheets.js';

/** A colour that a shop gives to an operation is for what is done to the sheet, and for nothing else on paper. */
const OWN = '#123456';
const all = (one: string): Colours => ({ ENGRAVE: one, SCORE: one, CUT: one, REF: one, STOCK: one });
const shop = all(OWN);

const pages = layPages(
  {
    title: 'Set-up sheet',
    subtitle: 'Tray corner',
    blocks: [
      { kind: 'steps', steps: [{ text: 'Set the depth.', caution: 'Unplug the router.' }] },
      { kind: 'table', columns: [{ title: 'bit', share: 1 }], rows: [['half-8'], ['straight-38']] },
      { kind: 'form', fields: [{ label: 'gap' }] },
    ],
  },
  { width: 210, height: 297, margin: 10 },
);

test('only operations have the colours of a shop', () => {
  for (const medium of ['picture', 'paper', 'print', 'map'] as const) {
    const owned = paintOrder.filter((name) => styleOf(name, medium, shop).colour === OWN);
    expect([...owned].sort()).toEqual([...operations].sort());
  }
});

test('rules, cautions and fields of a sheet are no operations', () => {
  const lines = pages.flatMap(itemsOn).filter(({ kind }) => kind !== 'text');
  // A bar beside the caution, a rule under the head and under each row, a field.
  expect(lines.map(({ style }) => style)).toEqual(['caution', 'head', 'rule', 'rule', 'field']);
  for (const { style } of lines) expect(style && styleOf(style, 'paper', shop).colour).not.toBe(OWN);
});

test('the same sheet, whatever colours the shop has', async () => {
  const about = { title: 'Set-up sheet', subject: '' };
  const [one, two] = await Promise.all(
    [shop, all('#FF0000')].map((colours) => writePages(pages, about, { colours })),
  );
  expect(Buffer.from(one ?? []).equals(Buffer.from(two ?? []))).toBe(true);
});

test.each(['through-dovetail', 'half-blind-dovetail', 'box', 'edge'])(
  'the whole sheet of a joint too, figures and all, on paper and on a screen: %s',
  async (kind) => {
    const job = readText(families.find((one) => one.kind === kind)?.starter ?? '');
    const [sheet] = makeSheets(job);
    if (!sheet) throw new Error('the starter has a sheet');
    const [one, two] = [shop, all('#FF0000')].map((colours) => ({ ...job, shop: { ...job.shop, colours } }));
    if (!one || !two) return;
    expect(sheetPage(sheet.document, one)).toBe(sheetPage(sheet.document, two));
    const [paper, other] = await Promise.all([one, two].map((each) => sheetPaper(sheet.document, each)));
    expect(Buffer.from(paper ?? []).equals(Buffer.from(other ?? []))).toBe(true);
  },
);
