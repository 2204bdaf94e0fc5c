import { Encodings, Font, FontNames } from '@cantoo/pdf-lib/standard-fonts';
import { describe, expect, test } from 'vitest';
import { helvetica, helveticaBold } from '../../shared/helvetica.js';
import { lineLength, runsOf, winAnsiCode } from '../../src/drawing/lettering/typeface.js';
import type { TextItem } from '../../src/drawing/model.js';
import type { PagePart, Tag } from '../../src/drawing/page.js';
import { writePages } from '../../src/writers/pdf/pages.js';
import { colours } from './pdf-samples.js';
import { readText } from './read-text.js';

const words = (text: string, y: number, face: 'sans' | 'bold' = 'sans'): TextItem => ({
  kind: 'text',
  layer: 'ENGRAVE',
  text,
  face,
  at: { x: 20, y },
  height: 3,
  angle: 0,
  align: 'start',
});

const written = (parts: readonly PagePart[], pages = 1) =>
  writePages(
    Array.from({ length: pages }, () => ({ width: 210, height: 297, parts })),
    { title: 'Tray', subject: 'Set-up' },
    { colours },
  );

/** Adobe's Core 14 AFM files, as the library that writes the PDF has them. */
describe('widths of the standard fonts', () => {
  test.each([
    [helvetica, FontNames.Helvetica],
    [helveticaBold, FontNames.HelveticaBold],
  ] as const)('$name', ({ letters, capitals }, name) => {
    const font = Font.load(name);
    const rows = Object.entries(letters).flatMap(([width, row]) =>
      [...row].map((letter) => [letter, width] as const),
    );
    expect(rows).toHaveLength(Encodings.WinAnsi.supportedCodePoints.length);
    expect(capitals).toBe(font.CapHeight);
    for (const [letter, width] of rows) {
      const glyph = Encodings.WinAnsi.encodeUnicodeCodePoint(letter.codePointAt(0) ?? 0);
      expect(Number(width), letter).toBe(font.getWidthOfGlyph(glyph.name));
      expect(winAnsiCode(letter), letter).toBe(glyph.code);
    }
  });

  test('a line is as long as its letters; one that the font lacks is set in strokes', () => {
    // H and I: 722 and 278 thousandths of a font whose capitals are 718 thousandths high.
    expect(lineLength('HI', 718, 'sans')).toBeCloseTo(1000, 9);
    expect(runsOf('5⅝ in', 'sans').map(({ font, letters }) => [font, letters.join('')])).toEqual([
      ['sans', '5'],
      ['strokes', '⅝'],
      ['sans', ' in'],
    ]);
  });
});

describe('text of pages', () => {
  test('is found letter by letter, whatever font has it', async () => {
    const line = 'Größe (5⅝ in) ≤ ½ \\ Ø → θ “so”';
    const { text } = await readText(await written([{ items: [words(line, 100), words(line, 90, 'bold')] }]));
    expect(text.replaceAll(' ', '')).toBe(`${line}${line}`.replaceAll(' ', ''));
  });

  test('has a language, a title, headings, lists, tables and pictures with words', async () => {
    const list: Tag = { role: 'L' };
    const table: Tag = { role: 'Table' };
    const row: Tag = { role: 'TR', within: table };
    const parts: readonly PagePart[] = [
      { items: [words('Tray', 200, 'bold')], tag: { role: 'H1', words: 'Tray' } },
      { items: [words('Steps', 190, 'bold')], tag: { role: 'H2', words: 'Steps' } },
      { items: [words('Set the depth.', 180)], tag: { role: 'LI', within: list } },
      { items: [words('half-8', 170)], tag: { role: 'TD', within: row } },
      { items: [words('plate', 160)], tag: { role: 'Figure', words: 'The plate from above.' } },
      { items: [words('page 1', 10)] },
    ];
    const { language, title, outline, roles, pictures } = await readText(await written(parts));
    expect([language, title]).toEqual(['en', 'Tray']);
    expect(outline).toEqual(['Tray', 'Steps']);
    for (const role of ['Document', 'H1', 'H2', 'L', 'LI', 'Table', 'TR', 'TD', 'Figure']) {
      expect(roles).toContain(role);
    }
    expect(pictures).toEqual(['The plate from above.']);
  });

  test('more letters of our own than one font holds', async () => {
    const bases = 'bcdfghjkmpqtvwxBCDFGHJKMPQTVWX';
    const marks = '\u0301\u0302\u0303\u0304\u0306\u0307\u0308\u030a\u030c\u0323';
    const letters = [...bases].flatMap((base) => [...marks].map((mark) => `${base}${mark}`.normalize('NFC')));
    const set = letters.filter((one) => runsOf(one, 'sans')[0]?.font === 'strokes');
    expect(set.length).toBeGreaterThan(255);
    const rows = Array.from({ length: Math.ceil(set.length / 20) }, (_, i) =>
      set.slice(i * 20, i * 20 + 20).join(''),
    );
    const { text } = await readText(
      await written([{ items: rows.map((row, i) => words(row, 250 - 8 * i)) }]),
    );
    expect(text.replaceAll(' ', '').normalize('NFC')).toBe(rows.join('').normalize('NFC'));
  });

  test('the same pages, the same bytes', async () => {
    const parts: readonly PagePart[] = [{ items: [words('⅝ in', 100)], tag: { role: 'P' } }];
    expect(await written(parts, 2)).toEqual(await written(parts, 2));
  });
});
