import type { Formatter } from '../formatter.js';

const orList = (names: readonly string[]): string =>
  names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} or ${names.at(-1)}`;

const listed = (names: readonly string[]): string =>
  names.length > 12 ? `${names.slice(0, 12).join(', ')} and ${names.length - 12} more` : names.join(', ');

/** "; of your bits a, b or c would do", or the general cure when the shop has nothing. */
const wouldDo = (what: string, names: readonly string[], otherwise: string): string =>
  names.length > 0 ? `; of your ${what}, ${orList(names)} would do` : `; ${otherwise}`;

/** What a sentence needs that says the same each time. */
type Nothing = Readonly<Record<string, never>>;

/** Where path data stands: `edging.svg, wave: ` for a file, nothing for the job itself. */
const inFile = ({ file, id }: { file?: string; id?: string }): string =>
  file === undefined ? '' : `${file}${id === undefined ? '' : `, ${id}`}: `;

const degrees = (fmt: Formatter, radians: number): string => fmt.angle(radians);

export interface PlaceOnLine {
  readonly board: string;
  /** From the reference edge, and along the line from there. */
  readonly x: number;
  readonly along: number;
  /** From the board's edge before it is cut. */
  readonly y: number;
}

const placeText = ({ x, y, along }: PlaceOnLine, fmt: Formatter): string =>
  `${fmt.length(x)} from the reference edge and ${fmt.length(y)} in from the blank's edge (${fmt.length(along)} along the line)`;

const moreSuch = (more: number): string =>
  more === 0 ? '' : ` (and ${more} more such ${more === 1 ? 'place' : 'places'})`;

/** Sentences about joint lines from drawings: files, path data, and what a bit can follow. Lengths in mm. */
export const edgeWording = {
  // The file and the element.
  'text-file-unreadable': (d: { read: string; opened: string }) =>
    `read ${d.read}, and no text file can be read at ${d.opened}; check the path, which starts from the job's folder`,
  'svg-unreadable': (d: { file: string; because: string; line: number; column: number }) =>
    `${d.file}, line ${d.line}, column ${d.column}: ${d.because}; save the drawing again as SVG`,
  'svg-no-line': (d: { file: string }) =>
    `${d.file} holds no path, line, polyline or polygon; turn the joint line into a path and save again`,
  'svg-lines-many': (d: { file: string; count: number; ids: readonly string[] }) =>
    `${d.file} holds ${d.count} lines; ${d.ids.length > 0 ? `say which one, such as id: ${d.ids[0]} (there are ${listed(d.ids)})` : 'give the one that is meant an id, and name it with id'}`,
  'svg-id-unknown': (d: { file: string; id: string; known: readonly string[] }) =>
    `${d.file} has no element with the id ${d.id}; ${d.known.length > 0 ? `its lines are ${listed(d.known)}` : 'give the line this id in the drawing'}`,
  'svg-id-twice': (d: { file: string; id: string; count: number }) =>
    `${d.file} has ${d.count} elements with the id ${d.id}; give each its own`,
  'svg-id-no-line': (d: { file: string; id: string; element: string; known: readonly string[] }) =>
    `${d.id} in ${d.file} is a ${d.element}, which is no line; ${d.known.length > 0 ? `name one of its lines: ${listed(d.known)}` : 'turn it into a path'}`,
  'svg-transform-unread': (d: { file: string; element: string; read: string }) =>
    `${d.file}: read ${d.read}, which is no transform or size that can be worked out; write matrix, translate, scale, rotate, skewX or skewY with numbers, or let the drawing program apply it`,
  'svg-transform-flat': (d: { file: string; element: string }) =>
    `${d.file}: a transform squeezes the ${d.element} into nothing; take the scale of 0 out`,
  'svg-unsized': (d: { file: string }) =>
    `${d.file} does not say how large it is, so its units are taken for px, 96 to the inch; give the svg element a width and height in mm or in to be sure`,
  'line-missing': (_: Nothing) =>
    'names no line; write svg: FILE (and id: ID), or d: "M ..." with unit: mm, in or px',
  'line-twice': (_: Nothing) => 'a line is given twice, by a file and by d; keep one of them',
  'line-unit-missing': (_: Nothing) => 'path data has no unit of its own; write unit: mm, in or px beside it',
  'line-unit-of-file': (_: Nothing) =>
    'a file says its own unit; take unit out, or give the path itself with d',
  'line-id-without-file': (_: Nothing) => 'an id names a line in a file; take it out, or write svg: FILE',
  'cutter-twice': (_: Nothing) =>
    'both cutter and cutters are given; keep cutter for one bit, cutters for one on each board',

  // Path data.
  'path-empty': (d: { file?: string; id?: string }) =>
    `${inFile(d)}the path draws nothing; it needs an M and at least one line or curve`,
  'path-unreadable': (d: {
    file?: string;
    id?: string;
    position: number;
    read: string;
    expected: readonly string[];
  }) =>
    `${inFile(d)}the path cannot be read at character ${d.position}: ${d.read === '' ? 'it ends there' : `read ${d.read}`}${d.expected.length > 0 ? ` where ${orList(d.expected)} would do` : ''}`,
  'path-far': (d: { file?: string; id?: string; position: number; read: string; endless: boolean }) =>
    `${inFile(d)}the path holds ${d.read} at character ${d.position}, ${d.endless ? 'a number without end' : 'which goes farther out than any board'}; write the size that is meant`,
  'path-in-parts': (d: { file?: string; id?: string; parts: number }) =>
    `${inFile(d)}the path is drawn in ${d.parts} parts (it has more than one M); join them into one line, or split them into paths of their own`,
  'path-closed': (d: { file?: string; id?: string }) =>
    `${inFile(d)}the path is closed; a joint line begins at one edge of the board and ends at the other`,

  // The line along the board.
  'line-upright': (d: { reach: number }, fmt: Formatter) =>
    `the line gets only ${fmt.length(d.reach)} along the board from its beginning to its end; it must run from one edge to the other, so draw it lying, from left to right`,
  'line-short': (d: { reach: number; width: number; count: number; repeated: boolean }, fmt: Formatter) =>
    `the line ends ${fmt.length(d.reach)} from the reference edge and the board is ${fmt.length(d.width)} wide; ${d.repeated ? `write count: ${d.count}, or leave count out` : `draw it longer, scale it, lessen line.lead, or write repeat: { count: ${d.count} }`}`,
  'line-many': (d: { pieces: number; most: number }) =>
    `the line comes to ${d.pieces} pieces, and ${d.most} are the most; simplify the drawing or repeat it less often`,
  'line-steep': (d: { edge: 'reference' | 'far'; angle: number; most: number }, fmt: Formatter) =>
    `at the ${d.edge} edge the line leaves the board at ${degrees(fmt, d.angle)} from square across it; draw it to leave at less than ${degrees(fmt, d.most)}, best at 0°`,
  'line-crosses-itself': (d: { x: number; y: number }, fmt: Formatter) =>
    `the line meets itself ${fmt.length(d.x)} from the reference edge, ${fmt.length(Math.abs(d.y))} ${d.y < 0 ? 'below' : 'above'} its beginning; two boards cannot meet along a loop, so draw it without`,
  'repeat-pitch-short': (d: { pitch: number; own: number }, fmt: Formatter) =>
    `the line is ${fmt.length(d.own)} long along the board and cannot be repeated every ${fmt.length(d.pitch)}; write ${fmt.length(d.own)} or more, or leave pitch out`,
  'repeat-step': (d: { rise: number }, fmt: Formatter) =>
    `the line ends ${fmt.length(Math.abs(d.rise))} ${d.rise > 0 ? 'higher' : 'lower'} than it begins, so its repetitions do not join; bring both ends to one height`,
  'repeat-kink': (d: { angle: number; bridged: boolean }, fmt: Formatter) =>
    `where a repetition joins the next the line would turn by ${degrees(fmt, d.angle)} at once, a corner that no round bit can cut; ${d.bridged ? 'end the line level at both ends, or leave pitch out' : 'let it end in the direction in which it begins'}`,

  // What the bit and the bushing can follow.
  'bend-tight': (
    d: PlaceOnLine & {
      radius: number;
      bit: string;
      largest: number;
      more: number;
      others: readonly string[];
    },
    fmt: Formatter,
  ) =>
    `board ${d.board}: the line bends to a radius of ${fmt.length(d.radius)} at ${placeText(d, fmt)}, where ${d.bit} must enter; the largest bit that would do is ${fmt.length(d.largest)}${moreSuch(d.more)}${wouldDo('bits', d.others, 'draw the bend wider')}`,
  'bend-nearly-tight': (
    d: PlaceOnLine & { radius: number; bit: string; largest: number; left: number },
    fmt: Formatter,
  ) =>
    `board ${d.board}: the line bends to a radius of ${fmt.length(d.radius)} at ${placeText(d, fmt)}, a little tighter than ${d.bit}; what the bit leaves there is ${fmt.length(d.left)} thick, too thin to matter; it takes ${fmt.length(d.largest)} or less to leave nothing`,
  'corner-sharp': (
    d: PlaceOnLine & { bit: string; radius: number; angle?: number; more: number },
    fmt: Formatter,
  ) =>
    `board ${d.board}: a corner at ${placeText(d, fmt)}; no round bit cuts into a corner: round it by at least ${fmt.length(d.radius)} for ${d.bit}${moreSuch(d.more)}`,
  'gap-narrow': (
    d: PlaceOnLine & { bit: string; largest: number; others: readonly string[] },
    fmt: Formatter,
  ) =>
    `board ${d.board}: two parts of the line stand too near to one another for ${d.bit} at ${placeText(d, fmt)}; ${d.largest > 0 ? `the largest bit that passes is about ${fmt.length(d.largest)}` : 'no bit passes'}${wouldDo('bits', d.others, 'draw them farther apart')}`,
  'bump-tight': (
    d: PlaceOnLine & {
      radius: number;
      bit: string;
      bushing: string;
      largest: number;
      others: readonly string[];
    },
    fmt: Formatter,
  ) =>
    `board ${d.board}: the line bends to a radius of ${fmt.length(d.radius)} at ${placeText(d, fmt)}; guided by ${d.bushing}, ${d.bit} would cut the wood away there, since the template has nothing left to guide it; the largest bushing that would do with this bit is ${fmt.length(d.largest)}${wouldDo('bushings', d.others, 'take a larger bit or draw the bend wider')}`,
  'neck-thin': (d: PlaceOnLine & { bit: string; bushing: string }, fmt: Formatter) =>
    `board ${d.board}: near ${placeText(d, fmt)} the template has nothing left to guide ${d.bushing} round, and ${d.bit} would cut into the wood; take a smaller bushing or a larger bit, or draw that part wider`,
  'plate-thin': (d: PlaceOnLine & { least: number }, fmt: Formatter) =>
    `board ${d.board}: the template is thinner than the ${fmt.length(d.least)} that its sheet holds, at ${placeText(d, fmt)}; a smaller bushing makes it stronger, or draw that part of the line wider`,
  'board-short': (d: { board: string; length: number; least: number }, fmt: Formatter) =>
    `board ${d.board} is ${fmt.length(d.length)} long across the line, and the line takes ${fmt.length(d.least)} of it; take a longer board or a flatter line`,
  'edge-blanks': (d: { height: number; trim: number; sum: number; byHand: boolean }, fmt: Formatter) =>
    `the line is ${fmt.length(d.height)} high and ${fmt.length(d.trim)} of each board's edge is cut off besides, so the joined panel is ${fmt.length(d.sum)} narrower than the two blanks together${d.byHand ? '' : '; lay board two face down, so that both reference edges go against the same stop'}`,
};
