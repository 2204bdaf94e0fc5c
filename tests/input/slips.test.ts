import { describe, expect, it } from 'vitest';
import { formatDiagnostic } from '../../src/diagnostics/format.js';
import { formatterFor } from '../../src/diagnostics/formatter.js';
import { readJob } from '../../src/input/read-job.js';
import { families } from '../../src/joints/list.js';
import { starterShop } from '../../src/joints/starter-shop.js';
import { soundJob } from './bad-files.js';

/** Slips of the pen as people make them: one slip, one answer, at the place that is to be mended. */

function answers(text: string, shop?: string): readonly string[] {
  const { result, locate, units } = readJob({ name: 'tray.yaml', text }, families, (path) =>
    path === 'shop.yaml' ? shop : undefined,
  );
  expect(result.ok).toBe(false);
  return result.diagnostics
    .filter(({ level }) => level === 'refused')
    .map((one) => formatDiagnostic(one, locate, formatterFor(units)));
}

function but(piece: string, put: string, text = soundJob): string {
  expect(text).toContain(piece);
  return text.replace(piece, () => put);
}

const box = `units: in
${starterShop}
joints:
  corner:
    kind: box
    width: 3-3/8
    boards: { one: { thickness: 3/8 }, two: { thickness: 3/8 } }
    layout: { finger: 3/8 }
    cutter: straight-38
    bushing: half
`;

describe('one slip has one answer', () => {
  it.each([
    // Lines, colons, commas and brackets.
    ['a joint without its colon', but('  corner:', '  corner'), '11:3: a line without a colon'],
    ['bits without their colon', but('  bits:', '  bits'), '4:3: a line without a colon'],
    ['a number without its colon', but('width: 3-1/2', 'width 3-1/2'), '13:5: '],
    ['no space behind a colon', but('width: 3-1/2', 'width:3-1/2'), '13:5: '],
    ['no colon before a brace', but('plate: {', 'plate {'), '9:3: a line without a colon and a space'],
    ['no space before a brace', but('seven: {', 'seven:{'), '8:5: a line without a colon and a space'],
    [
      'a line one column out',
      but('  bushings:', '   bushings:'),
      '7:1: this line begins in column 4, and the lines that it may belong with in columns 1, 3 or 5',
    ],
    [
      'no comma',
      but('diameter: 1/2, angle', 'diameter: 1/2 angle'),
      '5:41: two keys with no comma between them; write { key: value, key: value }',
    ],
    ['a bracket left open', but('pin: 1/2 }', 'pin: 1/2'), '15:13: the bracket { here is not closed'],
    [
      'a colour that begins a remark',
      but('  plate:', '  colours: { CUT: #ff0000 }\n  plate:'),
      '9:12: the bracket { here is not closed; write } where it ends; text with # in it stands in quotes',
    ],
    [
      'a quotation mark left open',
      but('diameter: 1/2', 'diameter: "1/2'),
      '5:41: the quotation mark " here is not closed',
    ],
    ['the wrong bracket', but('pin: 1/2 }', 'pin: 1/2 ]'), '15:49: a bracket ] where { is open; write } in'],
    // Keys.
    ['shop mistyped', but('shop:', 'Shop:'), '3:1: Shop: "Shop" is not known here; did you mean "shop"?'],
    ['bits mistyped', but('bits:', 'bit:'), '4:3: shop.bit: "bit" is not known here; did you mean "bits"?'],
    ['bushings mistyped', but('bushings:', 'bushing:'), '7:3: shop.bushing: '],
    ['joints mistyped', but('joints:', 'joint:'), '10:1: joint: "joint" is not known here; did you mean'],
    ['kind mistyped', but('kind: through', 'knid: through'), '12:5: joints.corner.knid: "knid" is not known'],
    ['angle mistyped', but('angle: 8', 'angel: 8'), '5:46: shop.bits.half-8.angel: '],
    ['cutters mistyped', but('cutters:', 'cuters:'), '16:5: joints.corner.cuters: '],
    ['bushing mistyped', but('bushing: seven', 'busing: seven'), '17:5: joints.corner.busing: '],
    // Numbers.
    [
      'a decimal comma',
      but('diameter: 1/2', 'diameter: 0,5'),
      '5:31: shop.bits.half-8.diameter: read 0,5 in braces, where a comma ends a value; write 0.5, or',
    ],
    [
      'a decimal comma with a unit',
      but('pins: { thickness: 1/2 }', 'pins: { thickness: 19,05 mm }'),
      '14:50: joints.corner.boards.pins.thickness: read 19,05 mm in braces, where a comma ends a value; write 19.05 mm, or put "19,05 mm" in quotes',
    ],
    [
      'a board of 12 mm in inches',
      but('tails: { thickness: 1/2 }', 'tails: { thickness: 12 }'),
      '14:24: joints.corner.boards.tails.thickness: read 12, which is 12 in (304.8 mm), over the greatest of 5-29/32 in - 0.0007 (150 mm): no board for these joints is so thick; check the number and its unit: 12 mm would do',
    ],
    [
      'a bit of 12.7 mm in inches',
      but('diameter: 1/2', 'diameter: 12.7'),
      '5:31: shop.bits.half-8.diameter: ',
    ],
    [
      'a bushing of 11 mm in inches',
      but('outside: 7/16', 'outside: 11'),
      '8:14: shop.bushings.seven.outside: ',
    ],
    ['a sheet of 12 mm in inches', but('thickness: 1/2 }\njoints', 'thickness: 12 }\njoints'), '9:31: '],
    [
      'a paper in mm in inches',
      but('  plate:', '  printer: { paper: [8.5, 297] }\n  plate:'),
      '9:27: shop.printer.paper.1: read 297',
    ],
    [
      'inches in a file that says mm',
      but('units: in', 'units: mm'),
      '2:1: units: 11 lengths of this file are fractions without a unit, the first "1/2" in line 5, and its units are mm; write units: in, or give each its unit, such as 1/2 in',
    ],
    // Examples that can be written as they stand.
    [
      'a map for a straight bit',
      but('cutter: straight-38', 'cutter: { one: straight-38 }', box),
      'joints.corner.cutter: read a map, but this takes the name of a straight bit in the shop; straight-38 would do',
    ],
    [
      'a board that is a number',
      but('tails: { thickness: 1/2 }', 'tails: 1/2'),
      '14:15: joints.corner.boards.tails: read "1/2", but this takes a map of thickness, length, material; { thickness: ... } would do',
    ],
    [
      'a joint alone that is to line up',
      but('    bushing: seven', '    align: front\n    bushing: seven'),
      '17:5: joints.corner.align: there is no other joint called "front" to line up with; this job has only one joint, so take align out',
    ],
  ])('%s', (_, text, answer) => {
    const said = answers(text);
    expect(said).toHaveLength(1);
    expect(said[0]).toContain(answer);
  });

  it('when two bed sizes are in mm and one list holds them, each is named', () => {
    const said = answers(but('  plate:', '  laser: { bed: [600, 400] }\n  plate:'));
    expect(said).toHaveLength(2);
    expect(said[0]).toContain('600 mm would do');
  });

  const job = soundJob.replace(/shop:\n(?: {2}.*\n)+/, () => 'shop: ./shop.yaml\n');
  const shop = `units: in\n${/ {2}bits:\n(?: {2}.*\n)+/.exec(soundJob)?.[0].replace(/^ {2}/gm, '')}`;

  it.each([
    [
      'fractions',
      shop.replace('units: in', 'units: mm'),
      'shop.yaml:1:1: shop.units: 7 lengths of this file',
    ],
    ['bits mistyped', shop.replace('bits:', 'bit:'), 'shop.yaml:2:1: shop.bit: '],
    [
      'a shop inside the shop',
      `units: in\nshop:\n${shop.replace(/^units: in\n/, '').replace(/^(?=.)/gm, '  ')}`,
      'shop.yaml:2:1: shop.shop: a shop holds units, bits and bushings themselves',
    ],
  ])('in a shop file: %s', (_, text, answer) => {
    const said = answers(job, text);
    expect(said).toHaveLength(1);
    expect(said[0]).toContain(answer);
  });

  it('a shop file given as a job is called one', () => {
    const said = answers(shop).filter((one) => one.includes('this is a shop file'));
    expect(said).toHaveLength(1);
  });
});
