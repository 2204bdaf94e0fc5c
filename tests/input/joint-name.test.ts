import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { nameDiagnostics } from '../../src/input/joint-name.js';

const fits = (name: string) => nameDiagnostics(name, 'joints').length === 0;

describe('a joint’s name', () => {
  it.each([
    'corner',
    'drawer 2',
    'tray-corner',
    'šuplík_3',
    '標本箱',
    'a.b',
    'console',
    'com',
    'com10',
    'null',
  ])('%j names a folder', (name) => expect(fits(name)).toBe(true));

  it.each([
    '',
    ' ',
    '.',
    '..',
    '../x',
    'a/b',
    'a\\b',
    'C:',
    'C:x',
    '/x',
    '-x',
    '_x',
    'x.',
    'x ',
    'a*b',
    'a"b',
    'a|b',
    'a\u0000b',
    'con',
    'PRN',
    'Aux.txt',
    'nul',
    'com1',
    'LPT9.x',
    'com¹',
    'con .x',
    'a\nb',
    'x'.repeat(61),
  ])('%j does not', (name) => expect(fits(name)).toBe(false));

  it('that is taken stays inside the output folder on every system', () => {
    const parts = fc.constantFrom(
      'a',
      'B',
      '.',
      '..',
      '/',
      '\\',
      ':',
      ' ',
      '-',
      '_',
      'con',
      'nul',
      '1',
      'é',
      '~',
      '*',
      '\n',
    );
    let taken = 0;
    fc.assert(
      fc.property(fc.array(parts, { maxLength: 6 }), (some) => {
        const name = some.join('');
        if (!fits(name)) return;
        taken++;
        expect(name).not.toMatch(/[/\\:*?"<>|\p{Cc}~]|^[. ]|[. ]$/u);
        expect(name.split('.')[0]?.trim().toLowerCase()).not.toMatch(/^(con|prn|aux|nul|com\d|lpt\d)$/);
      }),
      { numRuns: 3000 },
    );
    expect(taken).toBeGreaterThan(100);
  });

  it('that is refused comes with one that will do', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', maxLength: 80 }), (name) => {
        for (const { data } of nameDiagnostics(name, 'joints')) {
          expect(fits((data as { instead: string }).instead)).toBe(true);
        }
      }),
      { numRuns: 1000 },
    );
  });
});
