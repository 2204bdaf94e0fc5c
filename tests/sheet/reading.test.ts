import { describe, expect, test } from 'vitest';
import { setUpDocument, sheetPaper } from '../../src/outputs/set-up.js';
import { type Block, type SheetDocument, trialWords } from '../../src/sheet/document.js';
import { readSample } from '../support/jobs.js';
import { plain, readText } from '../writers/read-text.js';
import { madeJoints } from './sheets.js';

/** Every sentence of a sheet, as it was meant to be read. */
function sentencesOf({ title, subtitle, blocks }: SheetDocument): readonly string[] {
  const ofBlock = (block: Block): readonly string[] => {
    switch (block.kind) {
      case 'heading':
        return [block.text];
      case 'words':
        return block.paragraphs;
      case 'steps':
        return block.steps.flatMap(({ text, caution }) => [
          text,
          ...(caution === undefined ? [] : [caution]),
        ]);
      case 'table':
        return [...block.columns.map((one) => one.title), ...block.rows.flat()];
      case 'figures':
        return block.figures.map((one) => one.title);
      case 'bench':
        return [
          trialWords(block.trial),
          ...block.settings.flatMap(({ numbers, cards }) => [
            ...numbers.flatMap(({ label, value, detail = '' }) => [label, value, detail]),
            ...cards.flatMap(({ title, place, lines }) => [title, place, ...lines]),
          ]),
        ];
      case 'form':
        return block.fields.map(({ label }) => label);
    }
  };
  return [title, subtitle, ...blocks.flatMap(ofBlock)];
}

describe('a set-up sheet is text', () => {
  test.each(['cabinet.yaml', 'slide-box.yaml', 'edge-drawer-edging.yaml', 'herbarium-press.yaml'])(
    '%s: every sentence is found, words in order; headings, lists, tables, pictures are told apart',
    async (name) => {
      const job = readSample(name);
      const all = madeJoints(job);
      for (const made of all.slice(0, 3)) {
        const document = setUpDocument(job, made, all);
        const read = await readText(await sheetPaper(document, job));
        for (const one of sentencesOf(document)) expect(read.text).toContain(plain(one));
        expect(read.language).toBe('en');
        expect(read.title).toBe(document.title);
        const { blocks } = document;
        const headings = blocks.flatMap((one) => (one.kind === 'heading' ? [one.text] : []));
        const cards = blocks
          .flatMap((one) => (one.kind === 'bench' ? one.settings : []))
          .flatMap((one) => one.cards);
        const titles = cards.map(({ number, title }) => `${number}: ${title}`);
        expect(read.outline).toEqual([document.title, ...titles, ...headings]);
        expect(read.roles).toContain('H1');
        const figures = blocks.flatMap((one) => (one.kind === 'figures' ? one.figures : []));
        expect(read.pictures).toEqual(
          [...cards.map(({ picture }) => picture), ...figures].map(({ words }) => words),
        );
      }
    },
  );
});
