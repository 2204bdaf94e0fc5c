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
    `this layout is not its own mirror image: for the board's second end turn ${d.template} upside down, or cut ${d.second}, which is the same plate with its marks on the other side`,
  'second-end-turned': (d: { board: string }) =>
    `this layout is not its own mirror image: for the second end turn the ${d.board} board face about, so that its reference edge stays against the stop`,
  'thin-wood': (d: { part: string; width: number; least: number }, say: Say) =>
    `a ${d.part} is ${say.length(d.width)} at its thinnest; under ${say.length(d.least)} it breaks easily: widen it or lessen the slope`,
};
