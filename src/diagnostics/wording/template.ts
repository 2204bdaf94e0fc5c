import { boardName, theBoard } from '../board-names.js';
import { fixable, leaveOut, setKey } from '../fix.js';
import type { Formatter } from '../formatter.js';

/** Sentences about the plate: openings, fingers, size. Lengths in mm. */
export const templateWording = {
  'bushing-room': (
    d: { board: string; bushing: string; room: number; least: number; onePass: boolean },
    fmt: Formatter,
  ) =>
    d.onePass
      ? `the narrowest opening for ${theBoard(d.board)} is one pass, as wide as ${d.bushing}: measure bit and bushing before the plate is cut, for a bushing 0.05 mm over its size doesn't go in`
      : `the narrowest opening for ${theBoard(d.board)} is only ${fmt.length(d.room)} wider than ${d.bushing}; with small errors of bushing and kerf it doesn't go in: leave ${fmt.length(d.least)} or more, with wider spans or a smaller bit`,
  'finger-thin': (
    d: { template: string; width: number; least: number; from: number; to: number; tapers: boolean },
    fmt: Formatter,
  ) =>
    `${d.template}: a finger is ${fmt.length(d.width)} wide${d.tapers ? ' at its tip' : ''}, ${fmt.length(d.from)} to ${fmt.length(d.to)} from the reference edge; the sheet holds down to ${fmt.length(d.least)}: a smaller bushing${d.tapers ? ' or a shorter template.nose' : ''} makes it wider, stronger sheet lets it be thin`,
  'plate-in-parts': (d: { template: string; parts: number }) =>
    `${d.template} would fall into ${d.parts} parts; widen the spans or lengthen template.spine`,
  'bit-cannot-reach': (
    d: { template: string; bit: string; area: number; x: number; y: number },
    fmt: Formatter,
  ) =>
    `${d.template}: ${d.bit} cannot reach ${d.area.toFixed(2)} mm² of the waste near ${fmt.length(d.x)} from the reference edge, ${fmt.length(Math.abs(d.y))} from the fence; a smaller bit reaches it`,
  'plate-over-sheet': (
    d: { template: string; width: number; height: number; sheetWidth: number; sheetHeight: number },
    fmt: Formatter,
  ) =>
    `${d.template} is ${fmt.length(d.width)} by ${fmt.length(d.height)} and the sheet is ${fmt.length(d.sheetWidth)} by ${fmt.length(d.sheetHeight)}; lessen template.margin or template.spine, or take a larger sheet`,
  'plate-in-bed-parts': (
    d: BedSize & { parts: number; seams: readonly number[]; apart: number; hole: number },
    fmt: Formatter,
  ) =>
    `${d.name} is ${fmt.length(d.width)} long and the bed has room for ${fmt.length(d.bedWidth)} by ${fmt.length(d.bedHeight)}: it comes in ${d.parts} parts, with ${d.seams.length === 1 ? 'a keyed seam' : 'keyed seams'} ${d.seams.map((x) => fmt.length(x)).join(' and ')} from the left edge of the board; holes for pins of ${fmt.length(d.hole)} stand ${fmt.length(d.apart)} apart beside the seam`,
  'seam-in-root': (d: { name: string; clear: number }, fmt: Formatter) =>
    `${d.name} has no finger wide enough to be parted: its seam ends in the far end of an opening, ${fmt.length(d.clear)} or more from the fingers, where the bushing runs over it: feel along it, and pare or shim until no step is left`,
  'plate-deep-for-bed': (d: BedSize, fmt: Formatter) =>
    `${d.name} is ${fmt.length(d.width)} by ${fmt.length(d.height)}, too deep for the bed's ${fmt.length(d.bedWidth)} by ${fmt.length(d.bedHeight)}, and is parted along its length only; a smaller template.spine or template.nose makes it less deep, ${orLeaveOut}`,
  'spine-under-key': (d: BedSize & { spine: number; least: number }, fmt: Formatter) =>
    `${d.name} is ${fmt.length(d.width)} by ${fmt.length(d.height)} and the bed has room for ${fmt.length(d.bedWidth)} by ${fmt.length(d.bedHeight)}; the key of a seam needs a spine of ${fmt.length(d.least)} and this one has ${fmt.length(d.spine)}: a larger template.spine would do, ${orLeaveOut}`,
  'plate-no-seam': (d: BedSize & { clear: number; least: number }, fmt: Formatter) =>
    `${d.name} is ${fmt.length(d.width)} by ${fmt.length(d.height)}, the bed has room for ${fmt.length(d.bedWidth)} by ${fmt.length(d.bedHeight)}, and there are too few places for seams that keep ${fmt.length(d.clear)} from every finger's edge; a bed with room for ${fmt.length(d.least)} would do, or wider spans, ${orLeaveOut}`,
  'one-plate-over-sheet': fixable(
    (
      d: { width: number; height: number; sheetWidth: number; sheetHeight: number; spine: number },
      fmt: Formatter,
    ) =>
      `both boards on one plate take ${fmt.length(d.width)} by ${fmt.length(d.height)} and the sheet is ${fmt.length(d.sheetWidth)} by ${fmt.length(d.sheetHeight)}; lessen template.margin or template.spine (${fmt.length(d.spine)} now), take a larger sheet, or leave plate: one out for two plates`,
    (_, { key }) => [leaveOut('a plate for each board', key('template.plate'))],
  ),
  'one-plate-no-pair': fixable(
    (d: { cuts: number }) =>
      d.cuts === 0
        ? 'a joint cut by hand has no template, so plate: one has no effect'
        : 'both boards are cut under one template already, so plate: one has no effect',
    (_, { key }) => [leaveOut('a plate for each board', key('template.plate'))],
  ),
  'one-plate-placed': (d: { near: string; far: string; fence: number }, fmt: Formatter) =>
    `one plate for both boards: ${boardName(d.near)} at its near edge, ${boardName(d.far)} at the other edge, which faces you once plate and fence are turned by half a turn; fence and backings together are ${fmt.length(d.fence)} wide`,
  'every-second-would-do': fixable(
    (d: { pitch: number; finger: number }, fmt: Formatter) =>
      `a template that carries every second slot and is moved by one pitch of ${fmt.length(d.pitch)} keeps fingers ${fmt.length(d.finger)} wide and can be cut: write template: { slots: every-second }`,
    (_, { key }) => [setKey('carry every second slot', key('template.slots'), 'every-second')],
  ),
  'every-second-uneven': fixable(
    (d: { board: string }) =>
      `every second slot needs slots of one width at one pitch, and those of board ${d.board} differ; spacing: even would do, or a template with every slot`,
    (_, { key }) => [leaveOut('carry every slot', key('template.slots'))],
  ),
  'every-second-needless': fixable(
    (d: { board: string; slots: number }) =>
      `board ${d.board} has ${d.slots === 1 ? 'one slot' : 'no slot'}, so its template carries all there is`,
    (_, { key }) => [leaveOut('carry every slot', key('template.slots'))],
  ),
  'every-second-not-here': fixable(
    (d: { kind: string }) =>
      `slots: every-second is for box joints and through dovetails; a ${d.kind} template carries every slot`,
    (_, { key }) => [leaveOut('carry every slot', key('template.slots'))],
  ),
  'every-second-moves': (
    d: { template: string; board: string; shift: number; towards: 'far' | 'near'; skip: boolean },
    fmt: Formatter,
  ) =>
    `${d.template} carries every second slot: each end is cut at stop 1, then moved by ${fmt.length(d.shift)} to stop 2 and cut again${d.skip ? ', without the slot that has a cross beside it' : ''}; the set-up sheet says where the spacer goes`,
  'spine-thin': fixable(
    (d: { spine: number; least: number }, fmt: Formatter) =>
      `a spine of ${fmt.length(d.spine)} has no room behind the openings for the screws and the marks of the stops; ${fmt.atLeast(d.least)} would do, or leave spine out`,
    (_, { at }) => [leaveOut(`leave ${at.at(-1)} to halfpin`, at)],
  ),
  'plate-beside-wood': (
    d: { key: 'nose' | 'margin'; by: number; bit: string; bushing: string; least: number },
    fmt: Formatter,
  ) =>
    `${d.bit} reaches past ${d.bushing}: run along the ${d.key === 'nose' ? "plate's front edge" : "plate's end"} it would cut ${fmt.length(d.by)} into wood that is to stay; set template.${d.key} to ${fmt.atLeast(d.least)} or more, or leave it out`,
  'hole-under-mill': (d: { hole: number; cutter: number; none: boolean }, fmt: Formatter) =>
    `a screw hole of ${fmt.length(d.hole)} is narrower than the end mill of ${fmt.length(d.cutter)}; ${d.none ? '' : `set template.hole to ${fmt.length(d.cutter)} or more, `}use a narrower end mill, or leave the holes out with template: { hole: 0 } and drill them`,
  'holes-for-mill': (d: { hole: number; usual: number; cutter: number }, fmt: Formatter) =>
    `the screw holes are ${fmt.length(d.hole)} wide and not ${fmt.length(d.usual)}, because the end mill makes none narrower: put washers under the screw heads`,
  'label-no-room': fixable(
    (d: { template: string; left: number }) =>
      `${d.template}: ${d.left === 1 ? 'one line of the label has' : `${d.left} lines of the label have`} no room and ${d.left === 1 ? 'was' : 'were'} left out; a longer template.spine gives room`,
    (_, { at }) => [leaveOut(`leave ${at.at(-1)} to halfpin`, at)],
  ),
  'carrier-no-room': (d: { template: string; part: string }) =>
    `${d.template} has no room for two holes that hold the ${d.part}, so the carrier comes without it: clamp it on by its line; a longer template.nose or template.margin makes room`,
  'letters-missing': (d: { text: string; letters: string }) =>
    `the lettering has no ${d.letters} (in "${d.text}"); a small box stands in its place`,
};

/** The way out of every refusal over a bed. */
const orLeaveOut = 'or leave out the bed if the plate is made elsewhere';

/** A plate, and what the bed has room for beside its tool. */
export interface BedSize {
  readonly name: string;
  readonly width: number;
  readonly height: number;
  readonly bedWidth: number;
  readonly bedHeight: number;
}
