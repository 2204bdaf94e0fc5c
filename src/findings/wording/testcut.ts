import type { Say } from '../say.js';

/** Sentences about the test cut: files read back, boards cut and assembled on paper. Lengths in mm. */
export const testCutWording = {
  'drawing-unreadable': (d: { because: string }) =>
    `the drawing cannot be read back: ${d.because}; make it again`,
  'drawing-units': (d: { read: string }) =>
    `the drawing does not say its units (read ${d.read}); in DXF set $INSUNITS to 4 for mm or 1 for inches, in SVG give width and height as lengths`,
  'contour-open': (d: { layer: string; x: number; y: number; apart: number }, say: Say) =>
    `a contour on layer ${d.layer} is open: its ends stand ${say.length(d.apart)} apart at x ${say.length(d.x)}, y ${say.length(d.y)}; close it`,
  'layer-empty': (d: { layer: string }) =>
    `layer ${d.layer} holds no contour; the test cut needs the plate on CUT and the board's end on STOCK`,
  'stock-differs': (d: { side: string; read: number; wanted: number }, say: Say) =>
    `the board drawn on layer STOCK has a ${d.side} of ${say.length(d.read)} where the job has ${say.length(d.wanted)}; the drawing's scale or its job is wrong`,
  'parts-clash': (d: { one: string; other: string; shared: number; x: number; y: number }, say: Say) =>
    `laid side by side, ${d.one} and ${d.other} want ${say.length(d.shared)} of the same room at x ${say.length(d.x)}, y ${say.length(d.y)}; make both again from one job`,
  'parts-apart': (d: { one: string; other: string }) =>
    `laid side by side, ${d.one} and ${d.other} do not meet at their seam; make both again from one job`,
  'board-uncut': (d: { board: string; bushing: number }, say: Say) =>
    `no bit touches board "${d.board}": its openings do not let a bushing of ${say.length(d.bushing)} in from the operator's side`,
  'joint-closes': (d: { gap: number; overlap: number }, say: Say) =>
    `cut on paper the joint closes: worst gap ${say.length(d.gap)}, worst overlap ${say.length(d.overlap)}`,
  'joint-gaps': (d: { gap: number; allowed: number; x: number; z: number; flat: boolean }, say: Say) =>
    `cut on paper the joint gapes by ${say.length(d.gap)} where ${say.length(d.allowed)} is meant, at ${say.length(d.x)} from the reference edge and ${say.length(d.z)} ${depthFrom(d.flat)}; check bit, bushing and template`,
  'joint-overlaps': (d: { overlap: number; x: number; z: number; flat: boolean }, say: Say) =>
    `cut on paper the boards want ${say.length(d.overlap)} of the same room, at ${say.length(d.x)} from the reference edge and ${say.length(d.z)} ${depthFrom(d.flat)}; check bit, bushing and template`,
  'joint-tight': (d: { play: number; slack: number; x: number; z: number }, say: Say) =>
    `cut on paper a tail, pin or finger has ${say.length(d.play)} of play where ${say.length(d.slack)} is asked, at ${say.length(d.x)} from the reference edge and ${say.length(d.z)} from the end: it is tighter than meant; check bit, bushing and template`,
  'end-proud': (d: { board: string; by: number }, say: Say) =>
    `the end of board "${d.board}" stands ${say.length(d.by)} proud of the other face: sand it flush after gluing`,
  'face-proud': (d: { board: string; by: number }, say: Say) =>
    `with the joint home, board "${d.board}" stands ${say.length(d.by)} proud of the other board's end: the sockets do not go far enough in; move the template away from you by that much, or check the stop behind the board`,
  'face-shy': (d: { board: string; by: number }, say: Say) =>
    `with the joint home, board "${d.board}" stays ${say.length(d.by)} behind the other face; check the depth of the bit and where the template lies`,
  'shoulders-open': (d: { by: number }, say: Say) =>
    `the tails are ${say.length(d.by)} longer than the sockets are deep: they meet the bottom before the shoulders close; set one depth for both boards`,
  'sockets-deep': (d: { by: number }, say: Say) =>
    `the sockets are ${say.length(d.by)} deeper than the tails are long: the joint closes over an empty bottom that holds no glue; set one depth for both boards`,
  'layout-uncut': (d: { board: string; width: number; area: number }, say: Say) =>
    `on board "${d.board}" wood still stands where the layout wants it away, up to ${say.length(d.width)} wide: the bit had room there, so the templates are not those of this layout; make them again, and look for a mirrored one`,
  'cut-through-face': (d: { lap: number }, say: Say) =>
    d.lap <= 0
      ? `the sockets come through the front's face by ${say.length(-d.lap)}; set the bit less deep or take a thicker front`
      : `only ${say.length(d.lap)} of the front's face is left over the sockets: it breaks out; set the bit less deep or take a thicker front`,
  'cut-into-lip': (d: { by: number }, say: Say) =>
    `the bit cuts ${say.length(d.by)} into the lip of the front; make the rabbet that much deeper, or set the bit less deep`,
  'cut-into-fence': (d: { board: string; by: number }, say: Say) =>
    `behind board "${d.board}" the bit goes through the backing and ${say.length(d.by)} into the fence; take a thicker backing`,
  'cut-into-plate': (d: { board: string; by: number }, say: Say) =>
    `over board "${d.board}" the bit's edge rises into the plate, where it is ${say.length(d.by)} wider than the bushing all round: it marks the template's lower edge; take a bit with a shorter edge or a larger bushing`,
  'cut-finger-thin': (d: { board: string; width: number; x: number; least: number }, say: Say) =>
    `a finger of the template for board "${d.board}" is ${say.length(d.width)} wide where ${say.length(d.least)} is the least, at ${say.length(d.x)} from the reference edge; check the file, or write least-finger as thin as the plate can bear`,
  'cut-wood-thin': (d: { board: string; width: number; x: number; least: number }, say: Say) =>
    `cut on paper, wood of board "${d.board}" is only ${say.length(d.width)} wide at its narrow end, at ${say.length(d.x)} from the reference edge; under ${say.length(d.least)} it is likely to break`,
};

/** Where z counts from: the ends of boards that cross, the upper faces of boards that lie flat. */
export const depthFrom = (flat: boolean): string => (flat ? 'below the upper face' : 'from the end');
