import { theBoard } from '../board-names.js';
import type { Say } from '../say.js';

const orList = (names: readonly string[]): string =>
  names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} or ${names.at(-1)}`;

/** "; in your shop a, b or c would do", or the general cure when the shop has nothing. */
const wouldDo = (what: string, names: readonly string[], otherwise: string): string =>
  names.length > 0 ? `; of your ${what}, ${orList(names)} would do` : `; ${otherwise}`;

/** Sentences about boards, bits and bushings, whatever the kind of joint. Lengths in mm, angles in radians. */
export const jointWording = {
  'bit-short': (d: { bit: string; height: number; depth: number; others: readonly string[] }, say: Say) =>
    `the cut is ${say.length(d.depth)} deep, but ${d.bit} cuts only ${say.length(d.height)} high${wouldDo('bits', d.others, 'take a longer bit or a thinner board')}`,
  'bit-neck': (d: { bit: string; neck: number; depth: number }, say: Say) =>
    `${d.bit} is ${say.length(d.neck)} thick at the board's surface when it cuts ${say.length(d.depth)} deep; take a bit with less slope, a larger bit or a thinner board`,
  'shank-in-bore': (
    d: { bit: string; shank: number; bushing: string; bore: number; others: readonly string[] },
    say: Say,
  ) =>
    `the ${say.length(d.shank)} shank of ${d.bit} does not turn freely in the ${say.length(d.bore)} bore of ${d.bushing}${wouldDo('bushings', d.others, 'take a larger bushing or a bit with a thinner shank')}`,
  'cutter-in-bore': (
    d: { bit: string; cutter: number; bushing: string; bore: number; others: readonly string[] },
    say: Say,
  ) =>
    `${d.bit} is ${say.length(d.cutter)} across where it runs inside ${d.bushing}, whose bore is ${say.length(d.bore)}; the two must not touch: turn the bit by hand, unplugged, before the first cut${wouldDo('bushings', d.others, 'a bushing with a larger bore leaves room')}`,
  'barrel-long': (
    d: { bushing: string; barrel: number; plate: number; others: readonly string[] },
    say: Say,
  ) =>
    `the barrel of ${d.bushing} reaches ${say.length(d.barrel)} down, and the template is ${say.length(d.plate)} thick: the barrel would ride on the board${wouldDo('bushings', d.others, 'take thicker sheet or shorten the barrel')}`,
  'thin-bushing': (d: { bushing: string; outside: number; bore: number }, say: Say) =>
    `${d.bushing} is ${say.length(d.outside)} outside and ${say.length(d.bore)} in the bore, which cannot be; measure it again`,
  'other-tools-would-do': (d: { bushings: readonly string[]; bits: readonly string[] }) =>
    [
      d.bushings.length > 0 ? `with ${orList(d.bushings)} as the bushing it can be cut` : '',
      d.bits.length > 0 ? `with ${orList(d.bits)} as the bit it can be cut` : '',
    ]
      .filter((part) => part !== '')
      .join('; '),
  'second-end-mirrored': (d: { template: string; second: string }) =>
    `this layout is not its own mirror image: the board's second end is cut under ${d.second}, or under ${d.template} turned upside down, which is the same plate`,
  'second-end-turned': (d: { board: string }) =>
    `this layout is not its own mirror image: for its second end ${theBoard(d.board)} is turned around, inside face toward you, so that its reference edge stays at the same stop`,
  'thin-wood': (d: { part: string; width: number; least: number }, say: Say) =>
    `a ${d.part} is ${say.length(d.width)} at its thinnest; under ${say.length(d.least)} it breaks easily: widen it or lessen the slope`,
  'depth-chosen': (d: { depth: number; lap: number }, say: Say) =>
    `sockets ${say.length(d.depth)} deep, which leaves a lap of ${say.length(d.lap)}`,
  'lap-thin': (d: { depth: number; lap: number; thickness: number; greatest: number }, say: Say) =>
    `sockets ${say.length(d.depth)} deep ${
      d.lap > 0
        ? `leave a lap of ${say.length(d.lap)} on a front of ${say.length(d.thickness)}`
        : `go through a front of ${say.length(d.thickness)}`
    }; a quarter to a third of the front is the usual lap: up to ${say.atMost(d.greatest)} deep keeps a quarter`,
  'pin-follows-pitch': (
    d: { key: 'pin' | 'least-pin'; asked: number; pin: number; pitch: number },
    say: Say,
  ) =>
    `pins of ${say.length(d.asked)}${d.key === 'pin' ? '' : ' or more'} are asked for, but with one template for both boards a pitch of ${say.length(d.pitch)} makes them ${say.length(d.pin)}; leave ${d.key} out, or choose method: apart`,
  'pitch-under-bit': (
    d: { pitch: number; least: number; bit: string; depth: number; deeper?: number },
    say: Say,
  ) =>
    `a pitch of ${say.length(d.pitch)} leaves slots narrower than the bushing with ${d.bit} ${say.length(d.depth)} deep; ${say.atLeast(d.least)} is the least${d.deeper === undefined ? '' : `, or a depth of ${say.atLeast(d.deeper)}`}`,
  'tails-over-bushing': (
    d: { tails: number; pitch: number; least: number; most: number; board: number },
    say: Say,
  ) =>
    `${d.tails === 1 ? '1 tail has a pitch of' : `${d.tails} tails stand`} ${say.length(d.pitch)}${d.tails === 1 ? '' : ' apart'}, and the bit wants at least ${say.length(d.least)}; ${d.most < 1 ? '' : `${d.most} ${d.most === 1 ? 'tail' : 'tails'}, `}a board ${say.atLeast(d.board)} wide or a smaller bit would do`,
  'half-pin-over-half-pitch': (
    d: { endPin: number; most: number; pitch: number; key: 'pitch' | 'end-pin'; widths: readonly number[] },
    say: Say,
  ) =>
    `half-pins come out ${say.length(d.endPin)}; with one template for both boards at ${say.length(d.pitch)} they can be ${say.atMost(d.most)} at most${d.widths.length > 0 ? `: boards ${orList(d.widths.map((width) => say.length(width)))} wide suit` : ''}; leave ${d.key} out to have it fitted to this board`,
  'pitch-over-thickness': (
    d: {
      pitch: number;
      thickness: number;
      most?: number;
      thicker: number;
      asked: boolean;
      fits: boolean;
    },
    say: Say,
  ) =>
    `a pitch of ${say.length(d.pitch)} makes round ends that do not fit into a side of ${say.length(d.thickness)}${d.most === undefined ? '' : `, which takes ${say.atMost(d.most)} at most`}; ${
      d.asked
        ? d.fits
          ? 'leave pitch out to have it fitted to this board'
          : 'leave pitch out and choose method: apart'
        : `${d.fits ? 'more tails, ' : ''}a side ${say.atLeast(d.thicker)} thick or method: apart would do`
    }`,
  'bushing-over-tail': (
    d: { bushing: string; outside: number; most: number; others: readonly string[] },
    say: Say,
  ) =>
    `${d.bushing} is ${say.length(d.outside)} outside; the rounded tail fingers leave room for ${say.atMost(d.most)} at most${wouldDo('bushings', d.others, 'take a smaller bushing, a larger bit, or tails-inside: square')}`,
  'square-tails-together': () =>
    'square tails need a template of their own; write method: apart, or tails-inside: rounded',
  'square-tails-thin-side': (
    d: { bit: string; radius: number; thickness: number; largest: number },
    say: Say,
  ) =>
    `square tails cut with ${d.bit} are pared to a radius of ${say.length(d.radius)} at their end, and the side is only ${say.length(d.thickness)} thick: the paring would come out on its outside face and leave the tails loose; take a bit no larger than ${say.length(d.largest)}, a side ${say.length(d.radius)} thick or more, or write tails-inside: rounded`,
  'rabbet-through': (d: { rabbet: number; thickness: number }, say: Say) =>
    `a rabbet ${say.length(d.rabbet)} deep leaves no lip on a front of ${say.length(d.thickness)}`,
  'rabbet-shallow': (d: { rabbet: number; depth: number }, say: Say) =>
    `the rabbet is ${say.length(d.rabbet)} deep and the sockets are ${say.length(d.depth)}: the bit would cut the lip; make the rabbet ${say.atLeast(d.depth)} deep or more, or the sockets no deeper than the rabbet (depth)`,
  'lip-set-up': (d: { end: number; lower: number; upper: number; frontWidth: number }, say: Say) =>
    `the lipped front is ${say.length(d.frontWidth)} wide: ${say.length(d.lower)} past the joint at the lower edge, ${say.length(d.upper)} at the upper edge, and ${say.length(d.end)} at each end; the marks of its template allow for the lip`,
  'tails-to-pare': (d: { radius: number; atBaseline: number; deeper: number }, say: Say) =>
    `pare the inside corners of the tails to a radius of ${say.length(d.radius)} at the end and ${say.length(d.atBaseline)} at the baseline; the sockets go ${say.length(d.deeper)} further in than the side is thick, so that the flat tails clear their sloped ends`,
};
