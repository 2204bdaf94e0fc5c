/**
 * Job files that must be refused, each with the code of the diagnostic, the path and the place (line:column) it
 * names, and words that its sentence must hold: what was read, and what would do.
 */
export interface BadFile {
  readonly name: string;
  readonly text: string;
  readonly code: string;
  readonly at: string;
  readonly place: string;
  readonly says: readonly string[];
  /** Text of a shop file that the job names, by the path it is opened at. */
  readonly shop?: { readonly path: string; readonly text: string };
}

/** A sound job; each bad file below is this one with a single change, unless it is written out. */
export const soundJob = `title: Specimen tray
units: in
shop:
  bits:
    half-8: { kind: dovetail, diameter: 1/2, angle: 8, height: 13/16 }
    straight-38: { kind: straight, diameter: 3/8, height: 1-1/4 }
  bushings:
    seven: { outside: 7/16, bore: 3/8 }
  plate: { material: plywood, thickness: 1/2 }
joints:
  corner:
    kind: through-dovetail
    width: 3-1/2
    boards: { tails: { thickness: 1/2 }, pins: { thickness: 1/2 } }
    layout: { spacing: even, tails: 3, pin: 1/2 }
    cutters: { tails: half-8, pins: straight-38 }
    bushing: seven
`;

const soundShop = `units: in
bits:
  half-8: { kind: dovetail, diameter: 1/2, angle: 8, height: 13/16 }
  straight-38: { kind: straight, diameter: 3/8, height: 1-1/4 }
bushings:
  seven: { outside: 7/16, bore: 3/8 }
plate: { material: plywood, thickness: 1/2 }
`;

/** The sound job with one piece of text changed. */
function but(piece: string, put: string): string {
  if (!soundJob.includes(piece)) throw new Error(`the sound job has no ${piece}`);
  return soundJob.replace(piece, () => put);
}

/** The sound job with its shop in a file of its own; the shop there has one piece changed. */
function shopBut(piece: string, put: string) {
  if (!soundShop.includes(piece)) throw new Error(`the sound shop has no ${piece}`);
  return {
    text: shopAt('shop.yaml'),
    shop: { path: 'cabinet/shop.yaml', text: soundShop.replace(piece, () => put) },
  };
}

function shopAt(path: string): string {
  return soundJob.replace(/shop:\n(?: {2}.*\n)+/, () => `shop: ${path}\n`);
}

const width = (put: string) => ({
  text: but('width: 3-1/2', `width: ${put}`),
  at: 'joints.corner.width',
  place: '13:5',
});
const named = (name: string) => ({ text: but('  corner:', `  ${name}:`), code: 'name-unfit', place: '11:3' });
const layout = (put: string) => but('{ spacing: even, tails: 3, pin: 1/2 }', put);
const handCut = (put: string) =>
  but('    cutters: { tails: half-8, pins: straight-38 }\n    bushing: seven\n', put);

const multiplying = ['a: &a [x, x, x, x, x, x, x, x, x]']
  .concat(
    [...'bcdefghi'].map(
      (key, index) => `${key}: &${key} [${Array(9).fill(`*${'abcdefgh'[index]}`).join(', ')}]`,
    ),
  )
  .join('\n');

export const badFiles: readonly BadFile[] = [
  // The file as a whole.
  {
    name: 'empty',
    text: '',
    code: 'text-empty',
    at: '',
    place: '1:1',
    says: ['holds nothing', 'halfpin new'],
  },
  {
    name: 'remarks only',
    text: '# tray\n',
    code: 'text-empty',
    at: '',
    place: '1:1',
    says: ['holds nothing'],
  },
  {
    name: 'a list at the top',
    text: '- corner\n- tray\n',
    code: 'value-unfit',
    at: '',
    place: '1:1',
    says: ['a list of 2', 'a map of title, units, shop, joints'],
  },
  {
    name: 'a word at the top',
    text: 'dovetail\n',
    code: 'value-unfit',
    at: '',
    place: '1:1',
    says: ['"dovetail"', 'a map of'],
  },
  {
    name: 'bytes of a picture',
    text: '\u{fffd}PNG\r\n\u001a\n\u0000\u0000',
    code: 'text-binary',
    at: '',
    place: '1:1',
    says: ['65533', 'plain text in UTF-8'],
  },
  {
    name: 'a control character',
    text: but('Specimen tray', 'Specimen\u0007'),
    code: 'text-binary',
    at: '',
    place: '1:16',
    says: ['code 7'],
  },
  {
    name: 'two documents',
    text: `${soundJob}---\n${soundJob}`,
    code: 'yaml-documents',
    at: '',
    place: '18:1',
    says: ['second document', '---'],
  },
  {
    name: '1 MB of nesting',
    text: '['.repeat(1_000_000),
    code: 'text-long',
    at: '',
    place: '1:1',
    says: ['1000000', '200000'],
  },
  {
    name: 'nesting as long as a file may be',
    text: `a: ${'['.repeat(190_000)}`,
    code: 'yaml-nested',
    at: '',
    place: '1:43',
    says: ['more than 40 deep'],
  },
  {
    name: 'nesting of maps in one line',
    text: 'a: '.repeat(60_000),
    code: 'yaml-nested',
    at: '',
    place: '1:119',
    says: ['more than 40 deep'],
  },
  {
    name: 'anchors that multiply',
    text: multiplying,
    code: 'values-many',
    at: '',
    place: '1:1',
    says: ['50000 values', 'alias'],
  },
  {
    name: 'an alias inside its own value',
    text: `${soundJob}extra: &x [*x]\n`,
    code: 'alias-in-itself',
    at: 'extra.0',
    place: '18:12',
    says: ['*x', '&x'],
  },
  {
    name: 'an alias of nothing',
    text: but('seven\n', '*seven\n'),
    code: 'alias-unknown',
    at: 'joints.corner.bushing',
    place: '17:14',
    says: ['*seven', 'in quotes'],
  },
  {
    name: 'a tag',
    text: but('width: 3-1/2', 'width: !inch 3'),
    code: 'yaml-unreadable',
    at: '',
    place: '13:12',
    says: ['! tag', 'leave'],
  },
  {
    name: 'a tab for indentation',
    text: but('    width', '\twidth'),
    code: 'yaml-unreadable',
    at: '',
    place: '13:1',
    says: ['tab', 'spaces'],
  },
  {
    name: 'an open bracket',
    text: but('pin: 1/2 }', 'pin: 1/2'),
    code: 'yaml-unreadable',
    at: '',
    place: '15:13',
    says: ['bracket {', 'write }'],
  },
  {
    name: 'an open quotation mark',
    text: but('title: Specimen', 'title: "Specimen'),
    code: 'yaml-unreadable',
    at: '',
    place: '1:8',
    says: ['quotation mark', 'not closed'],
  },
  {
    name: 'ragged indentation',
    text: but('    width', '   width'),
    code: 'yaml-unreadable',
    at: '',
    place: '13:1',
    says: ['column'],
  },
  {
    name: 'two colons in a line',
    text: but('title: Specimen', 'title: tray: Specimen'),
    code: 'yaml-unreadable',
    at: '',
    place: '1:8',
    says: ['colon', 'quotes'],
  },
  {
    name: 'a key written twice',
    text: but('    width', '    width: 4\n    width'),
    code: 'key-twice',
    at: 'joints.corner.width',
    place: '14:5',
    says: ['"width"', 'line 13', 'keep one'],
  },
  {
    name: 'a joint written twice',
    text: `${soundJob}  corner: { kind: box }\n`,
    code: 'key-twice',
    at: 'joints.corner',
    place: '18:3',
    says: ['"corner"', 'line 11'],
  },
  {
    name: 'a list for a key',
    text: `${soundJob}? [a, b]\n: 1\n`,
    code: 'key-odd',
    at: '',
    place: '18:3',
    says: ['no plain word'],
  },

  // Keys and kinds of value.
  {
    name: 'no units',
    text: but('units: in\n', ''),
    code: 'key-missing',
    at: 'units',
    place: '1:1',
    says: ['missing', 'mm'],
  },
  {
    name: 'unknown units',
    text: but('units: in', 'units: inches'),
    code: 'value-unlisted',
    at: 'units',
    place: '2:1',
    says: ['"inches"', 'did you mean in?'],
  },
  {
    name: 'units in feet',
    text: but('units: in', 'units: ft'),
    code: 'value-unlisted',
    at: 'units',
    place: '2:1',
    says: ['"ft"', 'mm and in'],
  },
  {
    name: 'a map for units',
    text: but('units: in', 'units: { of: in }'),
    code: 'value-unlisted',
    at: 'units',
    place: '2:1',
    says: ['a map', 'mm and in'],
  },
  {
    name: 'no joints',
    text: 'units: in\n',
    code: 'key-missing',
    at: 'joints',
    place: '1:1',
    says: ['missing', 'kind: box'],
  },
  {
    name: 'an empty map of joints',
    text: 'units: in\njoints: {}\n',
    code: 'joints-none',
    at: 'joints',
    place: '2:1',
    says: ['at least one'],
  },
  {
    name: 'joints as a list',
    text: 'units: in\njoints:\n  - kind: box\n',
    code: 'value-unfit',
    at: 'joints',
    place: '2:1',
    says: ['a list of 1', 'map of names'],
  },
  {
    name: 'a joint that is a word',
    text: 'units: in\njoints: { corner: box }\n',
    code: 'value-unfit',
    at: 'joints.corner',
    place: '2:11',
    says: ['"box"', 'kind: through-dovetail'],
  },
  {
    name: 'more joints than a job holds',
    text: `units: in\njoints:\n${Array.from({ length: 201 }, (_, i) => `  j${i}: { kind: box }\n`).join('')}`,
    code: 'joints-many',
    at: 'joints',
    place: '2:1',
    says: ['201', '200', 'split'],
  },
  {
    name: 'a mistyped key',
    text: but('width: 3-1/2', 'widht: 3-1/2'),
    code: 'key-unknown',
    at: 'joints.corner.widht',
    place: '13:5',
    says: ['"widht"', 'did you mean "width"?'],
  },
  {
    name: 'a key in camel case',
    text: layout('{ tails: 3, endPin: 1/4 }'),
    code: 'key-unknown',
    at: 'joints.corner.layout.endPin',
    place: '15:25',
    says: ['did you mean "end-pin"?'],
  },
  {
    name: 'an unknown key at the top',
    text: `${soundJob}colour: red\n`,
    code: 'key-unknown',
    at: 'colour',
    place: '18:1',
    says: ['"colour"', 'known are title, units, shop, joints and pieces'],
  },
  {
    name: 'a key of the shop at the top',
    text: `${soundJob}laser: { kerf: 0.1 mm }\n`,
    code: 'key-elsewhere',
    at: 'laser',
    place: '18:1',
    says: ['under "shop"'],
  },
  {
    name: 'a key of another kind of joint',
    text: but('bushing: seven', 'bushing: seven\n    cutter: straight-38'),
    code: 'key-of-kind',
    at: 'joints.corner.cutter',
    place: '18:5',
    says: ['"cutter"', 'box', 'through-dovetail'],
  },
  {
    name: 'a key one level too high',
    text: but('    width', '    tails: 3\n    width'),
    code: 'key-elsewhere',
    at: 'joints.corner.tails',
    place: '13:5',
    says: ['under "boards"'],
  },
  {
    name: 'a key one level too low',
    text: layout('{ tails: 3, width: 3 }'),
    code: 'key-of-joint',
    at: 'joints.corner.layout.width',
    place: '15:25',
    says: ['beside "layout"'],
  },
  {
    name: 'a decimal comma in braces',
    text: layout('{ tails: 3, pin: 0,5 }'),
    code: 'comma-split',
    at: 'joints.corner.layout.pin',
    place: '15:25',
    says: ['0,5', 'write 0.5'],
  },
  {
    name: 'no kind',
    text: but('    kind: through-dovetail\n', ''),
    code: 'key-missing',
    at: 'joints.corner.kind',
    place: '11:3',
    says: ['missing', 'through-dovetail or box'],
  },
  {
    name: 'an unknown kind',
    text: but('through-dovetail', 'thru-dovetail'),
    code: 'value-unlisted',
    at: 'joints.corner.kind',
    place: '12:5',
    says: ['"thru-dovetail"', 'did you mean through-dovetail?'],
  },
  {
    name: 'a value left out',
    text: but('width: 3-1/2', 'width:'),
    code: 'value-missing',
    at: 'joints.corner.width',
    place: '13:5',
    says: ['nothing is written', '3/4'],
  },
  {
    name: 'a board without thickness',
    text: but('pins: { thickness: 1/2 }', 'pins: {}'),
    code: 'key-missing',
    at: 'joints.corner.boards.pins.thickness',
    place: '14:42',
    says: ['missing', 'a length'],
  },
  {
    name: 'a list for a length',
    text: width('[3, 4]').text,
    code: 'value-unfit',
    at: 'joints.corner.width',
    place: '13:5',
    says: ['a list of 2', 'a length over zero'],
  },
  {
    name: 'a title over many lines',
    text: but('title: Specimen tray', 'title: "a\\nb"'),
    code: 'text-unfit',
    at: 'title',
    place: '1:1',
    says: ['one line'],
  },

  // Lengths.
  {
    name: 'a dash for a slash',
    ...width('3-1-2'),
    code: 'length-unclear',
    says: ['"3-1-2"', 'more than one dash', 'write 3-1/2 in'],
  },
  { name: 'division by zero', ...width('3/0'), code: 'length-unclear', says: ['"3/0"', 'zero'] },
  {
    name: 'a comma that may divide thousands',
    ...width('3,500'),
    code: 'length-unclear',
    says: ['"3,500"', 'decimals with a point'],
  },
  {
    name: 'two slashes',
    ...width('1/2/3'),
    code: 'length-unclear',
    says: ['"1/2/3"', 'slash'],
  },
  { name: 'feet and mm', ...width('5 ft 3 mm'), code: 'length-unclear', says: ['"5 ft 3 mm"'] },
  {
    name: 'decimals mixed with a fraction',
    ...width('1-1.5'),
    code: 'length-unclear',
    says: ['"1-1.5"', 'decimals'],
  },
  {
    name: 'a fraction over one',
    ...width('1-9/8'),
    code: 'length-unclear',
    says: ['write 2-1/8 in'],
  },
  {
    name: 'an unknown unit',
    ...width('90 thou'),
    code: 'length-unclear',
    says: ['"90 thou"', 'mm, cm, m, in or ft'],
  },
  { name: 'hexadecimal', ...width('0x10'), code: 'length-unclear', says: ['"0x10"'] },
  { name: 'no number', ...width('wide'), code: 'length-unclear', says: ['"wide"', '3/4'] },
  {
    name: 'not a number',
    ...width('.nan'),
    code: 'length-unclear',
    says: ['NaN', 'more than anything measures'],
  },
  {
    name: 'infinity',
    ...width('.inf'),
    code: 'length-unclear',
    says: ['Infinity', 'more than anything measures'],
  },
  { name: 'a number beyond all numbers', ...width('1e999'), code: 'length-unclear', says: ['Infinity'] },
  { name: 'a negative width', ...width('-3'), code: 'length-not-positive', says: ['-3', 'more than zero'] },
  { name: 'no width', ...width('0'), code: 'length-not-positive', says: ['read 0', 'more than zero'] },
  {
    name: 'a board longer than a house',
    ...width('3500'),
    code: 'length-great',
    says: ['3500', '88900 mm', '2540 mm', 'unit'],
  },
  {
    name: 'a width in mm in a file in inches',
    ...width('300'),
    code: 'length-great',
    says: ['300', '2540 mm', '300 mm'],
  },
  {
    name: 'a board thinner than anything is measured',
    ...width('1e-9'),
    code: 'length-small',
    says: ['1e-9', '0.01 mm', 'unit'],
  },
  {
    name: 'a fraction in a file in mm',
    text: 'units: mm\njoints: { a: { kind: box, width: 3/4, boards: { one: { thickness: 9 }, two: { thickness: 9 } } } }\n',
    code: 'length-unclear',
    at: 'joints.a.width',
    place: '2:27',
    says: ['fraction without a unit', 'write 3/4 in'],
  },
  {
    name: 'negative slack',
    text: `${soundJob}    fit: { slack: -0.1 }\n`,
    code: 'length-not-positive',
    at: 'joints.corner.fit.slack',
    place: '18:12',
    says: ['-0.1', '0 or more'],
  },
  {
    name: 'slack as wide as a finger',
    text: `${soundJob}    fit: { slack: 0.5 }\n`,
    code: 'length-great',
    at: 'joints.corner.fit.slack',
    place: '18:12',
    says: ['0.5', '2 mm', 'unit'],
  },

  // Layouts.
  {
    name: 'ten thousand tails',
    text: layout('{ tails: 10000 }'),
    code: 'number-range',
    at: 'joints.corner.layout.tails',
    place: '15:15',
    says: ['10000', '1 to 1000'],
  },
  {
    name: 'two and a half tails',
    text: layout('{ tails: 2.5 }'),
    code: 'number-range',
    at: 'joints.corner.layout.tails',
    place: '15:15',
    says: ['2.5', 'whole number'],
  },
  {
    name: 'minus three tails',
    text: layout('{ tails: -3 }'),
    code: 'number-range',
    at: 'joints.corner.layout.tails',
    place: '15:15',
    says: ['-3', '1 to 1000'],
  },
  {
    name: 'an unknown spacing',
    text: layout('{ spacing: evn }'),
    code: 'value-unlisted',
    at: 'joints.corner.layout.spacing',
    place: '15:15',
    says: ['"evn"', 'did you mean even?'],
  },
  {
    name: 'a list spacing without spans',
    text: layout('{ spacing: list }'),
    code: 'spans-missing',
    at: 'joints.corner.layout.spans',
    place: '15:5',
    says: ['list', 'spans'],
  },
  {
    name: 'a ratio in even spacing',
    text: layout('{ spacing: even, ratio: 1.2 }'),
    code: 'field-of-spacing',
    at: 'joints.corner.layout.ratio',
    place: '15:30',
    says: ['ratio', 'even', 'graduated or mirrored'],
  },
  {
    name: 'a seed in even spacing',
    text: layout('{ seed: 7 }'),
    code: 'field-of-spacing',
    at: 'joints.corner.layout.seed',
    place: '15:15',
    says: ['seed', 'spacing: varied'],
  },
  {
    name: 'a span that is no length',
    text: layout('{ spacing: list, spans: [1/2, wide, 1/2] }'),
    code: 'length-unclear',
    at: 'joints.corner.layout.spans.1',
    place: '15:43',
    says: ['"wide"'],
  },

  // Tools and the shop.
  {
    name: 'a mistyped bit',
    text: but('tails: half-8', 'tails: half8'),
    code: 'tool-unknown',
    at: 'joints.corner.cutters.tails',
    place: '16:16',
    says: ['"half8"', 'did you mean half-8?', 'straight-38'],
  },
  {
    name: 'an unknown bushing',
    text: but('bushing: seven', 'bushing: large'),
    code: 'tool-unknown',
    at: 'joints.corner.bushing',
    place: '17:5',
    says: ['"large"', 'the shop has seven'],
  },
  {
    name: 'a straight bit for tails',
    text: but('tails: half-8', 'tails: straight-38'),
    code: 'bit-wrong-kind',
    at: 'joints.corner.cutters.tails',
    place: '16:16',
    says: ['a straight bit', 'half-8 would do'],
  },
  {
    name: 'cutters without a shop',
    text: soundJob.replace(/shop:\n(?: {2}.*\n)+/, ''),
    code: 'tool-unknown',
    at: 'joints.corner.bushing',
    place: '10:5',
    says: ['no bushings', 'shop: bushings'],
  },
  {
    name: 'cutters without a bushing',
    text: but('    bushing: seven\n', ''),
    code: 'bushing-missing',
    at: 'joints.corner.cutters',
    place: '16:5',
    says: ['no bushing', 'by hand'],
  },
  {
    name: 'a bushing without cutters',
    text: but('    cutters: { tails: half-8, pins: straight-38 }\n', ''),
    code: 'cutters-missing',
    at: 'joints.corner.bushing',
    place: '16:5',
    says: ['no cutters', 'by hand'],
  },
  {
    name: 'hand work without a slope',
    text: handCut(''),
    code: 'slope-missing',
    at: 'joints.corner.slope',
    place: '11:3',
    says: ['by hand', 'slope: 1:8'],
  },
  {
    name: 'a slope beside cutters',
    text: `${soundJob}    slope: 1:8\n`,
    code: 'slope-twice',
    at: 'joints.corner.slope',
    place: '18:5',
    says: ['take slope out'],
  },
  {
    name: 'a slope written as a fraction',
    text: handCut('    slope: 1/8\n'),
    code: 'angle-unclear',
    at: 'joints.corner.slope',
    place: '16:5',
    says: ['"1/8"', 'write 1:8'],
  },
  {
    name: 'a slope of 45 degrees',
    text: handCut('    slope: 1:1\n'),
    code: 'angle-range',
    at: 'joints.corner.slope',
    place: '16:5',
    says: ['"1:1"', '45°'],
  },
  {
    name: 'a dovetail bit without angle',
    text: but(' angle: 8,', ''),
    code: 'bit-angle-missing',
    at: 'shop.bits.half-8.angle',
    place: '5:5',
    says: ['angle: 8', 'slope: 1:8'],
  },
  {
    name: 'a dovetail bit with angle and slope',
    text: but('angle: 8', 'angle: 8, slope: 1:7'),
    code: 'bit-angle-twice',
    at: 'shop.bits.half-8.slope',
    place: '5:56',
    says: ['keep one'],
  },
  {
    name: 'a straight bit with an angle',
    text: but('kind: straight,', 'kind: straight, angle: 8,'),
    code: 'bit-angle-straight',
    at: 'shop.bits.straight-38.angle',
    place: '6:36',
    says: ['no taper', 'take angle out'],
  },
  {
    name: 'an angle of 60 degrees',
    text: but('angle: 8', 'angle: 60'),
    code: 'angle-range',
    at: 'shop.bits.half-8.angle',
    place: '5:46',
    says: ['60°', 'under 45°'],
  },
  {
    name: 'an angle of zero',
    text: but('angle: 8', 'angle: 0'),
    code: 'angle-range',
    at: 'shop.bits.half-8.angle',
    place: '5:46',
    says: ['0°', '0.5° or more'],
  },
  {
    name: 'a slope under angle',
    text: but('angle: 8', 'angle: 1:8'),
    code: 'angle-unclear',
    at: 'shop.bits.half-8.angle',
    place: '5:46',
    says: ['"1:8"', 'write slope: 1:8'],
  },
  {
    name: 'a dovetail bit that comes to a point',
    text: but('height: 13/16', 'height: 2'),
    code: 'bit-pointed',
    at: 'shop.bits.half-8.height',
    place: '5:56',
    says: ['point', '2 in (50.8 mm)', 'measure'],
  },
  {
    name: 'a bushing without a wall',
    text: but('bore: 3/8', 'bore: 7/16'),
    code: 'bushing-bore',
    at: 'shop.bushings.seven.bore',
    place: '8:29',
    says: ['no wall', '7/16 in'],
  },
  {
    name: 'an unknown kind of bit',
    text: but('kind: dovetail', 'kind: dovtail'),
    code: 'value-unlisted',
    at: 'shop.bits.half-8.kind',
    place: '5:15',
    says: ['did you mean dovetail?'],
  },
  {
    name: 'routed work without a plate',
    text: but('  plate: { material: plywood, thickness: 1/2 }\n', ''),
    code: 'plate-missing',
    at: 'shop.plate',
    place: '3:1',
    says: ['no plate', 'thickness: 1/2 in'],
  },
  {
    name: 'an unknown paper',
    text: but('  plate:', '  printer: { paper: A44 }\n  plate:'),
    code: 'value-unlisted',
    at: 'shop.printer.paper',
    place: '9:14',
    says: ['"A44"', 'did you mean a4?'],
  },
  {
    name: 'margins wider than the paper',
    text: but('  plate:', '  printer: { margin: 5 }\n  plate:'),
    code: 'paper-margins',
    at: 'shop.printer.margin',
    place: '9:14',
    says: ['127 mm', '10 mm would do'],
  },
  {
    name: 'a printer scale in percent',
    text: but('  plate:', '  printer: { scale-x: 99.5 }\n  plate:'),
    code: 'number-range',
    at: 'shop.printer.scale-x',
    place: '9:14',
    says: ['99.5', '0.8 to 1.25'],
  },
  {
    name: 'a kerf in the wrong unit',
    text: but('  plate:', '  laser: { kerf: 0.15 }\n  plate:'),
    code: 'length-great',
    at: 'shop.laser.kerf',
    place: '9:12',
    says: ['0.15', '3.81 mm', 'unit'],
  },
  {
    name: 'a clearance of keys in the wrong unit',
    text: but('thickness: 1/2 }\njoints', 'thickness: 1/2, key-clearance: 0.1 }\njoints'),
    code: 'length-great',
    at: 'shop.plate.key-clearance',
    place: '9:47',
    says: ['0.1', '2.54 mm', 'shift'],
  },
  {
    name: 'a bed of one length',
    text: but('  plate:', '  laser: { bed: [600 mm] }\n  plate:'),
    code: 'list-length',
    at: 'shop.laser.bed',
    place: '9:12',
    says: ['1 value', 'two lengths', '[600 mm, 300 mm]'],
  },
  {
    name: 'pages that share more than they show',
    text: but('  plate:', '  files: { pdf: { overlap: 2 } }\n  plate:'),
    code: 'length-great',
    at: 'shop.files.pdf.overlap',
    place: '9:19',
    says: ['40 mm', 'waste paper'],
  },
  {
    name: 'lines as wide as fingers',
    text: but('  plate:', '  files: { svg: { stroke-width: 1/4 } }\n  plate:'),
    code: 'length-great',
    at: 'shop.files.svg.stroke-width',
    place: '9:19',
    says: ['1/4', '1 mm', 'hides'],
  },
  {
    name: 'a release of DXF that is not written',
    text: but('  plate:', '  files: { dxf: { version: r14 } }\n  plate:'),
    code: 'value-unlisted',
    at: 'shop.files.dxf.version',
    place: '9:19',
    says: ['"r14"', 'r12'],
  },
  {
    name: 'a colour without quotes',
    text: but('  plate:', '  colours:\n    CUT: #D55E00\n  plate:'),
    code: 'colour-unquoted',
    at: 'shop.colours.CUT',
    place: '10:5',
    says: ['in quotes', '"#D55E00"'],
  },
  {
    name: 'a colour by name',
    text: but('  plate:', '  colours: { CUT: red }\n  plate:'),
    code: 'value-unfit',
    at: 'shop.colours.CUT',
    place: '9:14',
    says: ['"red"', '"#D55E00" would do'],
  },
  {
    name: 'a layer in small letters',
    text: but('  plate:', '  colours: { cut: "#D55E00" }\n  plate:'),
    code: 'key-unknown',
    at: 'shop.colours.cut',
    place: '9:14',
    says: ['did you mean "CUT"?'],
  },
  {
    name: 'a shop as a list',
    text: soundJob.replace(/shop:\n(?: {2}.*\n)+/, 'shop: [bits]\n'),
    code: 'value-unfit',
    at: 'shop',
    place: '3:1',
    says: ['a list of 1', 'a map of'],
  },

  // A shop in a file of its own.
  {
    name: 'a shop file that is not there',
    text: shopAt('./shpo.yaml'),
    code: 'shop-unreadable',
    at: 'shop',
    place: '3:1',
    says: ['./shpo.yaml', 'cabinet/shpo.yaml', 'check the path'],
  },
  {
    name: 'a folder for a shop file',
    text: shopAt('..'),
    code: 'shop-unreadable',
    at: 'shop',
    place: '3:1',
    says: ['..', 'check the path'],
  },
  {
    name: 'the job as its own shop',
    text: shopAt('./tray.yaml'),
    code: 'shop-itself',
    at: 'shop',
    place: '3:1',
    says: ['./tray.yaml', 'this job'],
  },
  {
    name: 'another job as the shop',
    text: shopAt('other.yaml'),
    shop: { path: 'cabinet/other.yaml', text: soundJob },
    code: 'shop-is-job',
    at: 'shop',
    place: '3:1',
    says: ['other.yaml', 'joints'],
  },
  {
    name: 'a shop file without units',
    ...shopBut('units: in\n', ''),
    code: 'key-missing',
    at: 'shop.units',
    place: 'cabinet/shop.yaml:1:1',
    says: ['missing', 'mm'],
  },
  {
    name: 'an empty shop file',
    text: shopAt('shop.yaml'),
    shop: { path: 'cabinet/shop.yaml', text: '' },
    code: 'text-empty',
    at: 'shop',
    place: 'cabinet/shop.yaml:1:1',
    says: ['holds nothing'],
  },
  {
    name: 'a fault in a shop file',
    ...shopBut('diameter: 3/8', 'diameter: 3-8'),
    code: 'length-unclear',
    at: 'shop.bits.straight-38.diameter',
    place: 'cabinet/shop.yaml:4:34',
    says: ['"3-8"'],
  },
  {
    name: 'punctuation in a shop file',
    ...shopBut('angle: 8,', 'angle: 8, ]'),
    code: 'yaml-unreadable',
    at: 'shop',
    place: 'cabinet/shop.yaml:3:54',
    says: ['bracket'],
  },

  // Names of joints, which name folders.
  {
    ...named('../corner'),
    name: 'a name that climbs out',
    at: 'joints.../corner',
    says: ['"../corner"', 'path', 'corner would do'],
  },
  { ...named('..'), name: 'the folder above', at: 'joints...', says: ['path'] },
  {
    ...named('/etc/corner'),
    name: 'an absolute name',
    at: 'joints./etc/corner',
    says: ['path', 'etc-corner would do'],
  },
  { ...named('"C:\\\\corner"'), name: 'a name with a drive', at: 'joints.C:\\corner', says: ['path'] },
  { ...named('C:'), name: 'a drive', at: 'joints.C:', says: ['path'] },
  {
    ...named('tray\\corner'),
    name: 'a name with a backslash',
    at: 'joints.tray\\corner',
    says: ['path', 'tray-corner would do'],
  },
  { ...named('CON'), name: 'a device', at: 'joints.CON', says: ['"CON"', 'device', 'CON-joint would do'] },
  { ...named('nul.yaml'), name: 'a device with an ending', at: 'joints.nul.yaml', says: ['device'] },
  { ...named('com1.tar.gz'), name: 'a port with two endings', at: 'joints.com1.tar.gz', says: ['device'] },
  {
    ...named('corner.'),
    name: 'a dot at the end',
    at: 'joints.corner.',
    says: ['end in a dot', 'corner would do'],
  },
  {
    ...named('"corner "'),
    name: 'a space at the end',
    at: 'joints.corner ',
    says: ['end in a dot or a space'],
  },
  { ...named('""'), name: 'an empty name', at: 'joints.', says: ['empty', 'joint would do'] },
  {
    ...named('x'.repeat(300)),
    name: 'a very long name',
    at: `joints.${'x'.repeat(300)}`,
    says: ['60 characters'],
  },
  { ...named('.hidden'), name: 'a hidden folder', at: 'joints..hidden', says: ['begin with a letter'] },
  {
    ...named('corner?'),
    name: 'a question mark',
    at: 'joints.corner?',
    says: ['letters, digits', 'corner would do'],
  },
  {
    name: 'names equal but for capitals',
    text: soundJob + soundJob.slice(soundJob.indexOf('  corner')).replace('corner', 'Corner'),
    code: 'name-alike',
    at: 'joints.Corner',
    place: '18:3',
    says: ['"Corner"', '"corner"', 'capitals'],
  },
];
