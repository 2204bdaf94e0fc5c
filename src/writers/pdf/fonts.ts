import { type PDFContext, PDFName, type PDFRef } from '@cantoo/pdf-lib';
import { strokeAdvance, strokesOfLetter } from '../../drawing/lettering/lettering.js';
import { FONT_SIZE, lineLength, type Run, runsOf, winAnsiCode } from '../../drawing/lettering/typeface.js';
import type { Face, TextItem } from '../../drawing/model.js';
import { letterPen } from '../../drawing/styles.js';
import { decimal } from '../../units/decimal.js';
import { formContent } from './content.js';

/**
 * The fonts of one PDF that is read: Helvetica, which every reader has, and for letters that it lacks a font of our single
 * strokes (ISO 32000-1, 9.6.5: Type 3), so that those can be searched and copied, too.
 */
export function pageFonts() {
  const faces = new Set<Face>();
  const drawn: Record<Face, string[]> = { sans: [], bold: [] };

  /** Names and codes of the strokes: a font holds 255. */
  const strokeCode = (letter: string, face: Face): readonly [font: string, code: number] => {
    const known = drawn[face];
    const place = known.includes(letter) ? known.indexOf(letter) : known.push(letter) - 1;
    return [`${STROKES[face]}${Math.floor(place / MOST)}`, (place % MOST) + 1];
  };

  const shown = ({ font, letters }: Run, face: Face, height: number): readonly string[] => {
    if (font === 'sans' || font === 'bold') {
      faces.add(font);
      return [`/${STANDARD[font]} ${number(FONT_SIZE * height)} Tf ${literal(letters.map(winAnsiCode))} Tj`];
    }
    return letters.map((letter) => {
      const [name, code] = strokeCode(letter, face);
      return `/${name} ${number(height)} Tf ${literal([code])} Tj`;
    });
  };

  return {
    /** A text object; every run is told where it begins. */
    text: ({ text, face = 'sans', at, height, angle, align }: TextItem): string => {
      const along = { start: 0, middle: 0.5, end: 1 }[align] * lineLength(text, height, face);
      const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
      const turn = [cos, sin, -sin, cos].map((one) => decimal(one, 6)).join(' ');
      let x = -along;
      const runs = runsOf(text, face).flatMap((run) => {
        const place = `${turn} ${number(at.x + x * cos)} ${number(at.y + x * sin)} Tm`;
        x += run.width * height;
        return [place, ...shown(run, face, height)];
      });
      return ['BT', ...runs, 'ET'].join('\n');
    },
    /** What pages name as their fonts. */
    register: (file: PDFContext): Readonly<Record<string, PDFRef>> => ({
      ...Object.fromEntries(
        [...faces].map((face) => [
          STANDARD[face],
          file.register(
            file.obj({ Type: 'Font', Subtype: 'Type1', BaseFont: NAMES[face], Encoding: 'WinAnsiEncoding' }),
          ),
        ]),
      ),
      ...Object.fromEntries(
        (['sans', 'bold'] as const).flatMap((face) =>
          parted(drawn[face]).map((letters, i) => [
            `${STROKES[face]}${i}`,
            strokeFont(file, letters, WEIGHT[face]),
          ]),
        ),
      ),
    }),
  };
}

const STANDARD = { sans: 'F', bold: 'B' } as const;
const NAMES = { sans: 'Helvetica', bold: 'Helvetica-Bold' } as const;
const STROKES = { sans: 'S', bold: 'T' } as const;

/** Width of the strokes' pen beside that of lettering, so that they look as heavy as the letters around them. */
const WEIGHT = { sans: 1, bold: 1.55 } as const;

/** Letters in one font of our own: codes are a byte, 0 left out. */
const MOST = 255;

const parted = (letters: readonly string[]): readonly (readonly string[])[] =>
  Array.from({ length: Math.ceil(letters.length / MOST) }, (_, i) => letters.slice(i * MOST, (i + 1) * MOST));

/** Units of a letter's own space: a thousandth of the height of capitals. */
const UNITS = 1000;

/** A Type 3 font whose size is the height of its capitals. */
function strokeFont(file: PDFContext, letters: readonly string[], weight: number): PDFRef {
  const pen = decimal(letterPen(UNITS) * weight, 0);
  const widths = letters.map((letter) => Math.round(strokeAdvance(letter) * UNITS));
  const shapes = letters.map((letter, i) => {
    const lines = strokesOfLetter({ letter, height: UNITS, angle: 0, at: { x: 0, y: 0 } });
    const box = `-${UNITS} -${UNITS} ${2 * UNITS} ${2 * UNITS}`;
    return file.register(file.stream(`${widths[i]} 0 ${box} d1\n${pen} w 1 J 1 j\n${formContent(lines)}`));
  });
  const names = letters.map((_, i) => `g${i + 1}`);
  return file.register(
    file.obj({
      Type: 'Font',
      Subtype: 'Type3',
      FontBBox: [-UNITS, -UNITS, 2 * UNITS, 2 * UNITS],
      FontMatrix: [1 / UNITS, 0, 0, 1 / UNITS, 0, 0],
      CharProcs: Object.fromEntries(names.map((name, i) => [name, shapes[i]])),
      Encoding: { Type: 'Encoding', Differences: [1, ...names.map((name) => PDFName.of(name))] },
      FirstChar: 1,
      LastChar: letters.length,
      Widths: widths,
      Resources: {},
      ToUnicode: file.register(file.flateStream(toUnicode(letters))),
    }),
  );
}

/** Which letters the codes from 1 on stand for (ISO 32000-1, 9.10.3). */
function toUnicode(letters: readonly string[]): string {
  const hex = (code: number, digits: number): string => code.toString(16).padStart(digits, '0');
  const utf16 = (letter: string): string =>
    Array.from({ length: letter.length }, (_, i) => hex(letter.charCodeAt(i), 4)).join('');
  // No more than a hundred lines may stand in one block.
  const blocks = Array.from({ length: Math.ceil(letters.length / 100) }, (_, i) => {
    const lines = letters.slice(i * 100, (i + 1) * 100);
    const rows = lines.map((letter, k) => `<${hex(i * 100 + k + 1, 2)}> <${utf16(letter)}>`);
    return [`${lines.length} beginbfchar`, ...rows, 'endbfchar'];
  });
  return [
    '/CIDInit /ProcSet findresource begin 12 dict begin begincmap',
    '/CMapName /Strokes def /CMapType 2 def',
    '1 begincodespacerange <00> <ff> endcodespacerange',
    ...blocks.flat(),
    'endcmap CMapName currentdict /CMap defineresource pop end end',
  ].join('\n');
}

/** A string of bytes (ISO 32000-1, 7.3.4.2). */
function literal(codes: readonly number[]): string {
  const written = codes.map((code) => {
    const sign = String.fromCharCode(code);
    if ('()\\'.includes(sign)) return `\\${sign}`;
    return code < 32 || code > 126 ? `\\${code.toString(8).padStart(3, '0')}` : sign;
  });
  return `(${written.join('')})`;
}

const number = (mm: number): string => decimal(mm, 4);
