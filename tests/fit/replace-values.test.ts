import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { type Edit, replaceValues } from '../../src/fit/replace-values.js';

const shop = `# what is in the drawer
units: in     # bare numbers

bits:
  half-8:   { kind: dovetail,   diameter: 1/2 , angle: 8, height: 13/16 }   # sharp
  straight-38:
    kind: straight
    diameter:    3/8        # new in May
    height: 3/4
  12: { kind: straight, diameter: '12 mm', height: "30 mm" }
bushings:
  half: {outside: 1/2,bore: 13/32}
`;

function edited(text: string, ...edits: readonly Edit[]): string {
  const result = replaceValues(text, edits);
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.text;
}

const half: Edit = { path: ['bits', 'half-8', 'diameter'], to: '12.65 mm' };

describe('an edit of a YAML text', () => {
  test('changes the characters of one value and no other byte', () => {
    expect(edited(shop, half)).toBe(shop.replace('diameter: 1/2 ,', 'diameter: 12.65 mm ,'));
    const block: Edit = { path: ['bits', 'straight-38', 'diameter'], to: '9.5 mm' };
    expect(edited(shop, block)).toBe(shop.replace('diameter:    3/8   ', 'diameter:    9.5 mm   '));
    const tight: Edit = { path: ['bushings', 'half', 'outside'], to: '12.68 mm' };
    expect(edited(shop, tight)).toBe(shop.replace('{outside: 1/2,', '{outside: 12.68 mm,'));
  });

  test('keeps the quotes that stood there, and finds keys that are numbers', () => {
    const twelve = (key: string): Edit => ({ path: ['bits', '12', key], to: '11.9 mm' });
    expect(edited(shop, twelve('diameter'))).toBe(shop.replace("'12 mm'", "'11.9 mm'"));
    expect(edited(shop, twelve('height'))).toBe(shop.replace('"30 mm"', '"11.9 mm"'));
  });

  test('keeps line ends of Windows and the byte order mark', () => {
    const windows = `\u{feff}${shop.replaceAll('\n', '\r\n')}`;
    expect(edited(windows, half)).toBe(windows.replace('diameter: 1/2 ,', 'diameter: 12.65 mm ,'));
  });

  test('leaves JSON', () => {
    const json = '{ "bits": { "half-8": { "diameter": 0.5, "angle": 8 } } }\n';
    const after = edited(json, half);
    expect(after).toBe('{ "bits": { "half-8": { "diameter": "12.65 mm", "angle": 8 } } }\n');
    expect(JSON.parse(after)).toEqual({ bits: { 'half-8': { diameter: '12.65 mm', angle: 8 } } });
  });

  test('makes several edits whatever their order, and says the lines', () => {
    const other: Edit = { path: ['bushings', 'half', 'outside'], to: '12.68 mm' };
    expect(edited(shop, half, other)).toBe(edited(shop, other, half));
    const result = replaceValues(shop, [other, half]);
    expect(result.ok && result.lines).toEqual([12, 5]);
  });

  test('is refused whole where a value is not there or is shared', () => {
    const shared =
      'bits:\n  a: &a { diameter: &d 5 }\n  b: { diameter: *d }\n  c: *a\n  e: { diameter: 6 }\n';
    const at = (name: string): Edit => ({ path: ['bits', name, 'diameter'], to: '7 mm' });
    for (const [name, line] of [
      ['a', 2],
      ['b', 3],
      ['c', 4],
    ] as const) {
      expect(replaceValues(shared, [at('e'), at(name)])).toEqual({
        ok: false,
        problems: [{ path: ['bits', name, 'diameter'], why: 'shared', line }],
      });
    }
    expect(replaceValues(shared, [at('f')])).toEqual({
      ok: false,
      problems: [{ path: ['bits', 'f', 'diameter'], why: 'absent' }],
    });
    expect(replaceValues(shared, [{ path: ['bits'], to: '1' }]).ok).toBe(false);
  });

  test('of any text: the value reads back, all else is as it was', () => {
    const space = fc.stringMatching(/^ {0,3}$/);
    const remark = fc.option(fc.stringMatching(/^[a-z :{}#&*'"]{0,20}$/), { nil: undefined });
    const value = fc.constantFrom('1/2', '12', '0.5 in', "'1/2'", '"12 mm"', '1-3/8');
    const line = fc.tuple(space, remark, value).map(([blank, said, text]) => ({ blank, said, text }));
    fc.assert(
      fc.property(
        fc.array(line, { minLength: 1, maxLength: 8 }),
        fc.nat(),
        fc.boolean(),
        (rows, pick, flow) => {
          const index = pick % rows.length;
          const write = (at: number, replaced?: string) =>
            rows
              .map(({ blank, said, text }, row) => {
                const here = row === at && replaced !== undefined ? replaced : text;
                const entry = flow ? `{ size:${blank} ${here}${blank} }` : `\n    size: ${blank}${here}`;
                return `  tool-${row}: ${entry}${said === undefined ? '' : ` # ${said}`}\n`;
              })
              .join('');
          const before = `bits:\n${write(-1)}`;
          const quote = /^['"]/.exec(rows[index]?.text ?? '')?.[0] ?? '';
          const after = edited(before, { path: ['bits', `tool-${index}`, 'size'], to: '7.25 mm' });
          expect(after).toBe(`bits:\n${write(index, `${quote}7.25 mm${quote}`)}`);
          expect(parse(after).bits[`tool-${index}`]).toEqual({ size: '7.25 mm' });
        },
      ),
    );
  });
});
