import type { Formatter } from '../formatter.js';

/** Sentences about the test cut: files read back, boards cut and assembled on paper. Lengths in mm. */
export const testCutWording = {
  'drawing-unreadable': (d: { because: string }) =>
    `the drawing cannot be read back: ${d.because}; make it again`,
  'drawing-units': (d: { read: string }) =>
    `the drawing does not say its units (read ${d.read}); in DXF set $INSUNITS to 4 for mm or 1 for inches, in SVG give width and height as lengths`,
  'contour-open': (d: { layer: string; x: number; y: number; apart: number }, fmt: Formatter) =>
    `a contour on layer ${d.layer} is open: its ends stand ${fmt.length(d.apart)} apart at x ${fmt.length(d.x)}, y ${fmt.length(d.y)}; close it`,
  'contour-twice': (d: { layer: string; x: number; y: number }, fmt: Formatter) =>
    `layer ${d.layer} has the same contour twice at x ${fmt.length(d.x)}, y ${fmt.length(d.y)}: a machine would cut it twice; delete one of them`,
  'drawing-unread': (d: { what: string; layer: string }) =>
    `${d.what} on ${d.layer === '' ? 'no layer' : `layer ${d.layer}`} isn't read by the test cut, and a machine may cut it; turn it into plain lines, arcs or polylines, or take it out`,
  'layer-empty': (d: { layer: string }) =>
    `layer ${d.layer} holds no contour; the test cut needs the plate on CUT and the board's end on STOCK`,
  'stock-differs': (d: { side: string; read: number; wanted: number }, fmt: Formatter) =>
    `the board drawn on layer STOCK has a ${d.side} of ${fmt.length(d.read)} where the job has ${fmt.length(d.wanted)}; the drawing's scale or its job is wrong`,
  'parts-clash': (d: { one: string; other: string; shared: number; x: number; y: number }, fmt: Formatter) =>
    `laid side by side, ${d.one} and ${d.other} want ${fmt.length(d.shared)} of the same room at x ${fmt.length(d.x)}, y ${fmt.length(d.y)}; make both again from one job`,
  'parts-apart': (d: { one: string; other: string }) =>
    `laid side by side, ${d.one} and ${d.other} do not meet at their seam; make both again from one job`,
  'board-uncut': (d: { board: string; bushing: number }, fmt: Formatter) =>
    `no bit touches board "${d.board}": its openings do not let a bushing of ${fmt.length(d.bushing)} in from the operator's side`,
  'joint-closes': (d: { gap: number; overlap: number }, fmt: Formatter) =>
    `cut on paper the joint closes: worst gap ${fmt.length(d.gap)}, worst overlap ${fmt.length(d.overlap)}`,
  'joint-gaps': (d: { gap: number; allowed: number; x: number; z: number; flat: boolean }, fmt: Formatter) =>
    `cut on paper the joint gapes by ${fmt.length(d.gap)} where ${fmt.length(d.allowed)} is meant, at ${fmt.length(d.x)} from the reference edge and ${fmt.length(d.z)} ${depthFrom(d.flat)}; check bit, bushing and template`,
  'joint-overlaps': (d: { overlap: number; x: number; z: number; flat: boolean }, fmt: Formatter) =>
    `cut on paper the boards want ${fmt.length(d.overlap)} of the same room, at ${fmt.length(d.x)} from the reference edge and ${fmt.length(d.z)} ${depthFrom(d.flat)}; check bit, bushing and template`,
  'joint-tight': (d: { play: number; slack: number; x: number; z: number }, fmt: Formatter) =>
    `cut on paper a tail, pin or finger has ${fmt.length(d.play)} of play where ${fmt.length(d.slack)} is asked, at ${fmt.length(d.x)} from the reference edge and ${fmt.length(d.z)} from the end: it is tighter than meant; check bit, bushing and template`,
  'end-proud': (d: { board: string; by: number }, fmt: Formatter) =>
    `the end of board "${d.board}" stands ${fmt.length(d.by)} proud of the other face: sand it flush after gluing`,
  'face-proud': (d: { board: string; by: number }, fmt: Formatter) =>
    `with the joint home, board "${d.board}" stands ${fmt.length(d.by)} proud of the other board's end: the sockets do not go far enough in; move the template away from you by that much, or check the stop behind the board`,
  'face-shy': (d: { board: string; by: number }, fmt: Formatter) =>
    `with the joint home, board "${d.board}" stays ${fmt.length(d.by)} behind the other face; check the depth of the bit and where the template lies`,
  'shoulders-open': (d: { by: number }, fmt: Formatter) =>
    `the tails are ${fmt.length(d.by)} longer than the sockets are deep: they meet the bottom before the shoulders close; set one depth for both boards`,
  'sockets-deep': (d: { by: number }, fmt: Formatter) =>
    `the sockets are ${fmt.length(d.by)} deeper than the tails are long: the joint closes over an empty bottom that holds no glue; set one depth for both boards`,
  'wall-off': (
    d: { board: string; cut: 'too far' | 'too little'; by: number; x: number; y: number },
    fmt: Formatter,
  ) =>
    `on board "${d.board}" the bit cuts ${fmt.length(d.by)} ${d.cut} at x ${fmt.length(d.x)}, y ${fmt.length(d.y)}: this isn't the plate that the job asks for; make it again`,
  'layout-uncut': (d: { board: string; width: number; area: number }, fmt: Formatter) =>
    `on board "${d.board}" wood still stands where the layout wants it away, up to ${fmt.length(d.width)} wide: the bit had room there, so the templates are not those of this layout; make them again, and look for a mirrored one`,
  'set-up-wrong': (d: SetUpWrong, fmt: Formatter) => {
    const where = d.corner === undefined ? `board ${d.piece}` : `board ${d.piece} at corner ${d.corner}`;
    const more = d.count > 1 ? ` (and ${d.count - 1} more)` : '';
    return `cut and closed as the set-up says, the piece comes out wrong: ${where}: ${SET_UP_WRONG[d.what](fmt.length(Math.abs(d.by)))}${more}`;
  },
  'cut-through-face': (d: { lap: number }, fmt: Formatter) =>
    d.lap <= 0
      ? `the sockets come through the front's face by ${fmt.length(-d.lap)}; set the bit less deep or take a thicker front`
      : `only ${fmt.length(d.lap)} of the front's face is left over the sockets: it breaks out; set the bit less deep or take a thicker front`,
  'cut-into-lip': (d: { by: number }, fmt: Formatter) =>
    `the bit cuts ${fmt.length(d.by)} into the lip of the front; make the rabbet that much deeper, or set the bit less deep`,
  'cut-into-fence': (d: { board: string; by: number }, fmt: Formatter) =>
    `behind board "${d.board}" the bit goes through the backing and ${fmt.length(d.by)} into the fence; take a thicker backing`,
  'cut-into-plate': (d: { board: string; by: number }, fmt: Formatter) =>
    `over board "${d.board}" the bit's edge rises into the plate, where it is ${fmt.length(d.by)} wider than the bushing all round: it marks the template's lower edge; take a bit with a shorter edge or a larger bushing`,
  'cut-finger-thin': (d: { board: string; width: number; x: number; least: number }, fmt: Formatter) =>
    `a finger of the template for board "${d.board}" is ${fmt.length(d.width)} wide where ${fmt.length(d.least)} is the least, at ${fmt.length(d.x)} from the reference edge; check the file, or write least-finger as thin as the plate can bear`,
  'cut-wood-thin': (d: { board: string; width: number; x: number; least: number }, fmt: Formatter) =>
    `cut on paper, wood of board "${d.board}" is only ${fmt.length(d.width)} wide at its narrow end, at ${fmt.length(d.x)} from the reference edge; under ${fmt.length(d.least)} it is likely to break`,
};

export interface SetUpWrong {
  readonly what: keyof typeof SET_UP_WRONG;
  readonly piece: string;
  readonly corner?: number;
  readonly by: number;
  readonly count: number;
}

/** What is wrong with a stand; `by` is a length in words. */
const SET_UP_WRONG = {
  numbers: () => 'bit, bushing, depth, extension and passes do not agree',
  order: () => 'the order of work has a gap, or two boards at once',
  board: (by: string) => `the part under the plate is not the board's size, by ${by}`,
  face: () => 'face and reference edge ask for its mirror image',
  letters: () => 'its letter is on another board, too',
  corner: () => 'another end is missing at that corner',
  stop: () => 'stop, spacer and mark do not agree',
  gap: (by: string) => `a gap of ${by}`,
  overlap: (by: string) => `an overlap of ${by}`,
  size: (by: string) => `the outside size is off by ${by}`,
} as const;

/** Where z counts from: the ends of boards that cross, the upper faces of boards that lie flat. */
export const depthFrom = (flat: boolean): string => (flat ? 'below the upper face' : 'from the end');
