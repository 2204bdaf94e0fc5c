import type { LengthProblem } from '../../units/length.js';
import { type Fix, type FixContext, fixable, instead, takeOut } from '../fix.js';
import type { Formatter } from '../formatter.js';

/**
 * Sentences about the job and shop files: what was read, what is wrong, what would do. Lengths in mm,
 * angles in radians; `read` is what stands in the file, as `quoted` in job/read-value.ts writes it.
 */
export const jobWording = {
  // The file as a whole.
  'text-empty': (d: { base: string }) =>
    d.base === ''
      ? 'the file holds nothing; `halfpin new box` writes a job to start from'
      : 'the file holds nothing; a shop file names bits, bushings and the plate',
  'text-long': (d: { length: number; most: number }) =>
    `${d.length} characters are more than the ${d.most} that a file may have; take out what is not about this job, or split it`,
  'text-binary': (d: { code: number }) =>
    `a character of code ${d.code} that no text holds; save the file as plain text in UTF-8`,
  'yaml-unreadable': (d: { what: string; cure: string }) => `${d.what}; ${d.cure}`,
  'yaml-nested': (d: { most: number }) =>
    `maps and lists stand more than ${d.most} deep in one another; a job needs six, so take the extra ones out`,
  'yaml-documents': (_: Nothing) =>
    'a second document begins here; keep one job to a file and leave out the line `---`',
  'values-many': (d: { most: number }) =>
    `the file holds more than ${d.most} values, with every alias (*name) written out; use fewer`,
  'alias-unknown': (d: { name: string }) =>
    `*${d.name} stands for a value marked &${d.name}, and there is none above; write the value out, or put the text in quotes`,
  'alias-in-itself': (d: { name: string }) =>
    `*${d.name} stands inside the value marked &${d.name}; write the inner value out`,
  'key-odd': (_: Nothing) =>
    'a key that is no plain word; write `key: value`, with the key in quotes if need be',
  'key-twice': (d: { key: string; line: number }) =>
    `${name(d.key)} is written a second time, first on line ${d.line}; keep one of them`,
  'findings-more': (d: { count: number }) =>
    `${count(d.count, 'more problem')} found; mend those above first and check again`,

  // Keys.
  'key-missing': (d: { what: string; example: string }) =>
    `is missing; write it as ${d.what}, such as ${d.example}`,
  'key-unknown': fixable(
    (d: { key: string; nearest?: string; known: readonly string[] }) =>
      `${name(d.key)} is not known here; ${d.nearest === undefined ? `known are ${listed(d.known)}` : `did you mean ${name(d.nearest)}?`}`,
    (d, { at }) =>
      d.nearest === undefined
        ? []
        : [{ label: `write ${d.nearest}`, edits: [{ rename: at, to: d.nearest }] }],
  ),
  'comma-split': (d: { read: string; meant?: string }) =>
    `read ${d.read} in braces, where a comma ends a value; ${d.meant === undefined ? 'write decimals with a point and thousands without a comma' : `write ${d.meant}, or put "${d.read}" in quotes`}`,
  'key-elsewhere': (d: { key: string; belongs: string }) =>
    `${name(d.key)} does not belong here; write it under ${name(d.belongs)}`,
  'key-of-joint': (d: { key: string; under: string }) =>
    `${name(d.key)} does not belong under ${name(d.under)}; write it beside ${name(d.under)}, in the joint itself`,
  'key-of-kind': fixable(
    (d: { key: string; kind: string; kinds: readonly string[] }) =>
      `${name(d.key)} belongs to ${either(d.kinds)}, not to ${d.kind}; take it out or change kind`,
    (_, to) => takeOut(to),
  ),

  // Values.
  'value-missing': (d: { what: string; example: string }) =>
    `nothing is written here; write ${d.what}, such as ${d.example}, or take the key out`,
  'value-unfit': (d: { read: string; what: string; example: string }) =>
    `read ${d.read}, but this takes ${d.what}; ${d.example} would do`,
  'value-unsaid': (d: { read: string; because: string }) =>
    `read ${d.read}: ${d.because}; see \`halfpin schema\``,
  'value-unlisted': fixable(
    (d: { read: string; nearest?: string; known: readonly string[] }) =>
      `read ${d.read}, which is not known here; ${d.nearest === undefined ? '' : `did you mean ${d.nearest}? `}known are ${listed(d.known)}`,
    (d, to) => instead(d.nearest === undefined ? d.known : [d.nearest], to),
  ),
  'number-range': fixable(
    (d: { read: string; least: number; most: number; whole: boolean }) =>
      `read ${d.read}, but this takes ${d.whole ? 'a whole number' : 'a number'} from ${d.least} to ${d.most}; ${d.least} or ${d.most} would do, and anything between`,
    (d, to) => instead([String(d.least), String(d.most)], to),
  ),
  'text-unfit': (d: { read: string; most: number }) =>
    `read ${d.read}; write text of 1 to ${d.most} characters, on one line and without control characters`,
  'list-length': (d: { read: number; least: number; most: number; what: string; example: string }) =>
    `${count(d.read, 'value')} read, but this takes ${d.least === d.most ? d.what : `${d.least} to ${d.most} ${d.what}`}; ${d.example} would do`,
  'colour-unquoted': (_: Nothing) =>
    'nothing is left here, since # begins a remark unless it stands in quotes; write the colour in quotes, such as "#D55E00"',

  // Lengths and angles.
  'length-unclear': fixable(
    (d: { read: string; trouble: LengthProblem; wouldDo: readonly string[] }) =>
      `read ${d.read}, ${lengthProblems[d.trouble]}; ${orAs(d.wouldDo, '3/4 in, 1-3/8" or 19.05 mm')}`,
    (d, to) => instead(d.wouldDo, to),
  ),
  'length-not-positive': (d: { read: string; zero: boolean }) =>
    d.zero
      ? `read ${d.read}, but this may not be under zero; 0 or more would do`
      : `read ${d.read}, but this must be more than zero; write the size as measured`,
  'length-small': (d: { read: string; least: number }, fmt: Formatter) =>
    `read ${d.read}, which is under ${fmt.length(d.least)}, finer than anything is measured or cut; write the size as measured, and check its unit`,
  'length-great': fixable(
    (d: { read: string; length: number; most: number; because: string; meant?: string }, fmt: Formatter) =>
      `read ${d.read}, which is ${fmt.length(d.length)}, over the greatest of ${fmt.length(d.most)}: ${d.because}; check the number and its unit${d.meant === undefined ? '' : `: ${d.meant} would do where millimetres are meant`}`,
    (d, to) => instead(d.meant === undefined ? [] : [d.meant], to),
  ),
  'angle-unclear': fixable(
    (d: { read: string; wouldDo: readonly string[] }) =>
      `read ${d.read}, which isn't an angle; ${orAs(d.wouldDo, '8, 14 degrees or, as a slope, 1:8')}`,
    (d, to) => d.wouldDo.flatMap((one) => angleFix(one, to)),
  ),
  'angle-range': (d: { read: string; radians: number; least: number; under: number }, fmt: Formatter) =>
    `read ${d.read}, which is ${fmt.angle(d.radians)}; an angle from square is ${d.least}° or more and under ${d.under}°, such as 8 or 14`,

  // The shop.
  'shop-unreadable': (d: { path: string; opened: string }) =>
    `read ${d.path}, and no text file can be read at ${d.opened}; check the path, which starts from the job's folder, or write the shop here`,
  'shop-itself': (d: { path: string }) =>
    `read ${d.path}, which is this job; name a file with bits and bushings, or write the shop here`,
  'shop-is-job': (d: { path: string }) =>
    `${d.path} holds joints, so it is a job; a shop file holds bits, bushings and the plate`,
  'plate-missing': (d: { joint: string }) =>
    `the shop has no plate, and the templates of ${name(d.joint)} need one: the bit extension hangs on its thickness; ` +
    'write plate: { material: plywood, thickness: 1/2 in }',
  'tool-unknown': fixable(
    (d: { tool: string; read: string; nearest?: string; known: readonly string[] }) =>
      d.known.length === 0
        ? `read ${d.read}, but the shop has no ${d.tool}s; write it under shop: ${d.tool}s`
        : `read ${d.read}, which is no ${d.tool} of the shop; ${d.nearest === undefined ? '' : `did you mean ${d.nearest}? `}the shop has ${listed(d.known)}`,
    (d, to) => instead(d.nearest === undefined ? d.known : [d.nearest], to),
  ),
  'bit-wrong-kind': fixable(
    (d: { read: string; kind: string; wanted: string; known: readonly string[] }) =>
      `read ${d.read}, a ${d.kind} bit, where a ${d.wanted} bit cuts; ${
        d.known.length === 0
          ? `the shop has none, so write one under shop: bits`
          : `${either(d.known)} would do`
      }`,
    (d, to) => instead(d.known, to),
  ),
  'bit-angle-missing': (_: Nothing) =>
    'a dovetail bit needs its angle from the axis; write angle: 8 (degrees) or slope: 1:8 as the maker of the bit gives it',
  'bit-angle-twice': (_: Nothing) => 'angle and slope both say how a bit tapers; keep one of them',
  'bit-angle-straight': fixable(
    (d: { key: string }) => `a straight bit has no taper; take ${d.key} out, or write kind: dovetail`,
    (_, to) => takeOut(to),
  ),
  'bit-pointed': (d: { diameter: number; height: number; angle: number; most: number }, fmt: Formatter) =>
    `a bit of ${fmt.length(d.diameter)} at ${fmt.angle(d.angle)} comes to a point ${fmt.length(d.most)} above its tip, under its height of ` +
    `${fmt.length(d.height)}; measure diameter, height and angle again: a height under ${fmt.length(d.most)} would do`,
  'bushing-bore': (d: { bore: number; outside: number }, fmt: Formatter) =>
    `a bore of ${fmt.length(d.bore)} leaves no wall in a bushing of ${fmt.length(d.outside)} outside; measure both again: ` +
    'the bore is commonly 1/16 to 3/32 in less than the outside',
  'paper-margins': (d: { margin: number; side: number }, fmt: Formatter) =>
    `margins of ${fmt.length(d.margin)} leave nothing of a paper side of ${fmt.length(d.side)}; a margin of 10 mm would do`,

  'shop-nested': (_: Nothing) =>
    'a shop holds units, bits and bushings themselves; take this line out and begin the lines under it two columns further left',
  'job-is-shop': (_: Nothing) =>
    'this is a shop file: it holds bits, bushings or a plate and no joints; give a job file, which names this one with shop: FILE, or add joints and write these keys under shop:',
  'fractions-in-mm': (d: { count: number; read: string; line: number; wouldDo: readonly string[] }) =>
    `${d.count} lengths of this file are fractions without a unit, the first ${d.read} in line ${d.line}, and its units are mm; write units: in, or give each its unit, such as ${d.wouldDo[0]}`,

  // Joints.
  'joints-none': (_: Nothing) =>
    'no joint is given; write at least one, as in joints: { corner: { kind: box, ... } }',
  'joints-many': (d: { read: number; most: number }) =>
    `${d.read} joints are more than the ${d.most} that one job may have; split it into several jobs`,
  'name-unfit': (d: { read: string; trouble: NameProblem; instead: string }) =>
    `read ${d.read} as a joint's name, which also names its folder: ${nameProblems[d.trouble]}; ${d.instead} would do`,
  'name-alike': (d: { name: string; other: string; instead: string }) =>
    `${name(d.name)} and ${name(d.other)} would share one folder where capitals don't count; ${d.instead} would do`,
  'bushing-missing': (_: Nothing) =>
    'cutters are given but no bushing; write bushing: and the name of one, or leave the cutters out for a joint cut by hand',
  'cutters-missing': (d: { key: string; example: string }) =>
    `a bushing is given but no ${d.key}; write ${d.example}, or leave the bushing out for a joint cut by hand`,
  'slope-missing': (_: Nothing) =>
    'a joint without cutters is cut by hand and needs the slope of its tails; write slope: 1:8, or name cutters and a bushing',
  'slope-twice': fixable(
    (_: Nothing) =>
      "the dovetail bit's angle sets the slope of the tails; take slope out, or take cutters and bushing out",
    (_, to) => takeOut(to),
  ),
  'field-of-spacing': fixable(
    (d: { key: string; spacing: string; spacings: readonly string[] }) =>
      `${d.key} has no meaning with ${d.spacing} spacing; take it out, or write spacing: ${either(d.spacings)}`,
    (_, to) => takeOut(to),
  ),
};

/** An angle, or a slope under the key of slopes: `slope: 1:8`. */
function angleFix(words: string, to: FixContext): readonly Fix[] {
  const slope = /^slope: (.*)$/.exec(words)?.[1];
  if (slope === undefined) return instead([words], to);
  const { at } = to;
  const edits = [
    { rename: at, to: 'slope' },
    { set: [...at.slice(0, -1), 'slope'], to: slope },
  ];
  return [{ label: `write ${words}`, edits }];
}

/** For sentences that need no numbers. */
type Nothing = Readonly<Record<never, never>>;

/** Why a word can't name a folder on every system. */
export type NameProblem = 'empty' | 'long' | 'path' | 'character' | 'start' | 'end' | 'device';

const nameProblems: Readonly<Record<NameProblem, string>> = {
  empty: 'it is empty',
  long: 'it is over 60 characters long',
  path: 'it is a path',
  character: 'only letters, digits, spaces and - _ . may stand in it',
  start: 'it must begin with a letter or a digit',
  end: 'it may not end in a dot or a space',
  device: 'some systems keep it for a device',
};

const lengthProblems: Readonly<Record<LengthProblem, string>> = {
  empty: "which isn't a length",
  'not-finite': 'which is more than anything measures',
  'fraction-without-unit': 'a fraction without a unit in a file in mm',
  'comma-unclear':
    'where a comma may stand for a point or divide thousands; write decimals with a point and thousands without a comma',
  'zero-denominator': 'which divides by zero',
  'two-slashes': 'with more than one slash',
  'two-dashes': 'with more than one dash',
  'decimal-in-fraction': 'which mixes decimals with a fraction',
  'fraction-over-one': 'where a fraction of one or more follows a whole number',
  'two-numbers': 'which may be two numbers or a subtraction',
  'unknown-unit': "whose unit isn't mm, cm, m, in or ft",
  'not-a-length': "which isn't a length",
};

/** What was meant, ready to use; else how such values are written. */
function orAs(meant: readonly string[], examples: string): string {
  return meant.length > 0 ? `write ${either(meant)}` : `it is written like ${examples}`;
}

function name(key: string): string {
  return `"${key.length > 40 ? `${key.slice(0, 40)}…` : key}"`;
}

/** All of a few words, and the number of the rest. */
function listed(words: readonly string[]): string {
  if (words.length === 0) return 'none';
  const shown = words.slice(0, 12);
  const rest = words.length - shown.length;
  return rest > 0 ? `${shown.join(', ')} and ${rest} more` : joinedWords(shown, 'and');
}

function either(words: readonly string[]): string {
  return joinedWords(words.slice(0, 12), 'or');
}

function joinedWords(words: readonly string[], last: 'and' | 'or'): string {
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} ${last} ${words.at(-1)}`;
}

function count(number: number, what: string): string {
  return `${number} ${what}${number === 1 ? '' : 's'}`;
}
