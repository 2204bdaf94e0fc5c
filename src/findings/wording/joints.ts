import { theBoard } from '../board-names.js';
import {
  asked,
  bitFixes,
  boardFixes,
  bushingFixes,
  type Fix,
  type FixContext,
  fixable,
  leaveOut,
  MOST_FIXES,
  set,
} from '../fix.js';
import type { Say } from '../say.js';

const orList = (names: readonly string[]): string =>
  names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} or ${names.at(-1)}`;

/** "; in your shop a, b or c would do", or the general cure when the shop has nothing. */
const wouldDo = (what: string, names: readonly string[], otherwise: string): string =>
  names.length > 0 ? `; of your ${what}, ${orList(names)} would do` : `; ${otherwise}`;

const thickerPlate = ({ thicker }: { thicker?: number }, say: Say): string =>
  thicker === undefined ? '' : `, or a plate ${say.atLeast(thicker)} thick`;

const plateFix = ({ thicker }: { thicker?: number }, { length, say }: FixContext): readonly Fix[] =>
  thicker === undefined
    ? []
    : [
        asked(
          set(`a plate ${say.length(thicker)} thick`, ['shop', 'plate', 'thickness'], length(thicker, 'up')),
        ),
      ];

const sideFix = ({ thicker }: { thicker?: number }, { key, length, say }: FixContext): readonly Fix[] =>
  thicker === undefined
    ? []
    : [
        asked(
          set(`a side ${say.length(thicker)} thick`, key('boards.tails.thickness'), length(thicker, 'up')),
        ),
      ];

const apart = ({ key }: FixContext): Fix => set('make a template for each board', key('method'), 'apart');

const roundTails = ({ key }: FixContext): Fix => set('round the tails', key('tails-inside'), 'rounded');

/** Sentences about boards, bits and bushings, whatever the kind of joint. Lengths in mm, angles in radians. */
export const jointWording = {
  'bit-short': fixable(
    (d: { bit: string; height: number; depth: number; others: readonly string[] }, say: Say) =>
      `the cut is ${say.length(d.depth)} deep, but ${d.bit} cuts only ${say.length(d.height)} high${wouldDo('bits', d.others, 'take a longer bit or a thinner board')}`,
    (d, { at, word }) =>
      d.others.slice(0, MOST_FIXES).map((name) => set(`take the bit ${name}`, at, word(name))),
  ),
  'bit-neck': (d: { bit: string; neck: number; depth: number }, say: Say) =>
    `${d.bit} is ${say.length(d.neck)} thick at the board's surface when it cuts ${say.length(d.depth)} deep; take a bit with less slope, a larger bit or a thinner board`,
  'shank-in-bore': fixable(
    (d: { bit: string; shank: number; bushing: string; bore: number; others: readonly string[] }, say: Say) =>
      `the ${say.length(d.shank)} shank of ${d.bit} does not turn freely in the ${say.length(d.bore)} bore of ${d.bushing}${wouldDo('bushings', d.others, 'take a larger bushing or a bit with a thinner shank')}`,
    (d, to) => bushingFixes(d.others, to),
  ),
  'cutter-in-bore': fixable(
    (
      d: {
        bit: string;
        bushing: string;
        /** Widest of the edge there, and what it has to turn in, mm. */
        cutter: number;
        room: number;
        where: 'barrel' | 'plate';
        /** It would cut what is round it, and does not only come near. */
        touches: boolean;
        boreGiven: boolean;
        outside: number;
        /** Bushings and bits of the shop that would do. */
        others: readonly string[];
        bits: readonly string[];
        /** The thinnest plate that keeps the edge out of the barrel, mm; absent where that doesn't cure the joint. */
        thicker?: number;
      },
      say: Say,
    ) => {
      const place =
        d.where === 'plate'
          ? `${d.bit} is ${say.length(d.cutter)} across where it runs inside the template, and ${d.bushing} keeps the template only ${say.length(d.room)} apart`
          : `${d.bit} is ${say.length(d.cutter)} across where it runs inside ${d.bushing}, whose bore ${d.boreGiven ? `is ${say.length(d.room)}` : `isn't given and can't be over ${say.length(d.room)} with ${say.length(d.outside)} outside`}`;
      if (!d.touches)
        return `${place}: turn the bit by hand, unplugged, before the first cut; the two must not touch`;
      const fixes = [
        ...(d.others.length > 0 ? [`use the bushing ${orList(d.others)}`] : []),
        ...(d.bits.length > 0 ? [`use the bit ${orList(d.bits)}`] : []),
        ...(d.thicker === undefined ? [] : [`use a plate ${say.atLeast(d.thicker)} thick`]),
      ];
      const otherwise =
        d.where === 'plate'
          ? 'use a bushing that is wider than the bit, or a narrower bit'
          : `use a bushing with a bore of ${say.atLeast(d.cutter)} or more, or a narrower bit`;
      return `${place}: it would cut ${d.where === 'plate' ? 'the template' : 'the bushing'}; ${fixes.length > 0 ? orList(fixes) : otherwise}`;
    },
    (d, to) => [...bushingFixes(d.others, to), ...bitFixes(d.bits, to), ...plateFix(d, to)],
  ),
  'barrel-long': fixable(
    (
      d: { bushing: string; barrel: number; plate: number; others: readonly string[]; thicker?: number },
      say: Say,
    ) =>
      `the barrel of ${d.bushing} reaches ${say.length(d.barrel)} down, and the template is ${say.length(d.plate)} thick: the barrel would ride on the board${wouldDo('bushings', d.others, 'shorten the barrel')}${thickerPlate(d, say)}`,
    (d, to) => [...bushingFixes(d.others, to), ...plateFix(d, to)],
  ),
  'other-tools-would-do': fixable(
    (d: { bushings: readonly string[]; bits: readonly string[] }) =>
      [
        d.bushings.length > 0 ? `with ${orList(d.bushings)} as the bushing it can be cut` : '',
        d.bits.length > 0 ? `with ${orList(d.bits)} as the bit it can be cut` : '',
      ]
        .filter((part) => part !== '')
        .join('; '),
    (d, to) => [...bushingFixes(d.bushings, to), ...bitFixes(d.bits, to)],
  ),
  'bushing-would-do': fixable(
    (d: { bushings: readonly string[] }) => `with ${orList(d.bushings)} as the bushing the template is sound`,
    (d, to) => bushingFixes(d.bushings, to),
  ),
  'second-end-mirrored': (d: { template: string; second: string }) =>
    `this layout is not its own mirror image: the board's second end is cut under ${d.second}, or under ${d.template} turned upside down, which is the same plate`,
  'second-end-turned': (d: { board: string }) =>
    `this layout is not its own mirror image: for its second end ${theBoard(d.board)} is turned around, inside face toward you, so that its reference edge stays at the same stop`,
  'depth-chosen': (d: { depth: number; lap: number }, say: Say) =>
    `sockets ${say.length(d.depth)} deep, which leaves a lap of ${say.length(d.lap)}`,
  'lap-thin': fixable(
    (d: { depth: number; lap: number; thickness: number; greatest: number }, say: Say) =>
      `sockets ${say.length(d.depth)} deep ${
        d.lap > 0
          ? `leave a lap of ${say.length(d.lap)} on a front of ${say.length(d.thickness)}`
          : `go through a front of ${say.length(d.thickness)}`
      }; a quarter to a third of the front is the usual lap: up to ${say.atMost(d.greatest)} deep keeps a quarter`,
    (d, { key, length, say }) => [
      set(`sockets ${say.length(d.greatest)} deep`, key('depth'), length(d.greatest, 'down')),
    ],
  ),
  'pin-follows-pitch': (
    d: { key: 'pin' | 'least-pin'; asked: number; pin: number; pitch: number },
    say: Say,
  ) =>
    `pins of ${say.length(d.asked)}${d.key === 'pin' ? '' : ' or more'} are asked for, but with one template for both boards a pitch of ${say.length(d.pitch)} makes them ${say.length(d.pin)}`,
  'pitch-under-bit': fixable(
    (
      d: {
        pitch: number;
        least: number;
        bit: string;
        depth: number;
        /** The least pitch and a depth that cure the joint, where they do. */
        next?: number;
        deeper?: number;
      },
      say: Say,
    ) =>
      `a pitch of ${say.length(d.pitch)} leaves slots narrower than the bushing with ${d.bit} ${say.length(d.depth)} deep; ${say.atLeast(d.least)} is the least${d.deeper === undefined ? '' : `, or a depth of ${say.atLeast(d.deeper)}`}`,
    (d, { key, length, say }) => [
      ...(d.next === undefined
        ? []
        : [set(`a pitch of ${say.length(d.next)}`, key('layout.pitch'), length(d.next, 'up'))]),
      ...(d.deeper === undefined
        ? []
        : [set(`a depth of ${say.length(d.deeper)}`, key('depth'), length(d.deeper, 'up'))]),
    ],
  ),
  'tails-over-bushing': fixable(
    (d: { tails: number; pitch: number; least: number; board?: number }, say: Say) =>
      `${d.tails === 1 ? '1 tail has a pitch of' : `${d.tails} tails stand`} ${say.length(d.pitch)}${d.tails === 1 ? '' : ' apart'}, and bit, bushing and plate need at least ${say.atLeast(d.least)}${d.board === undefined ? '' : `; a board ${say.atLeast(d.board)} wide works`}`,
    (d, to) =>
      d.board === undefined ? [] : boardFixes([d.board], to, d.board > (to.width ?? 0) ? 'up' : 'down'),
  ),
  'pitch-none-for-side': fixable(
    (
      d: {
        least: number;
        by: 'bushing' | 'finger';
        bit: string;
        bushing: string;
        most: number;
        thickness: number;
        /** A side of this thickness takes the pitch; absent where that doesn't cure the joint. */
        thicker?: number;
      },
      say: Say,
    ) =>
      `no pitch works with one template for both boards: ${
        d.by === 'finger'
          ? `fingers beside ${d.bushing} are too thin under ${say.atLeast(d.least)}`
          : `the slots for ${d.bit} are narrower than ${d.bushing} under ${say.atLeast(d.least)}`
      }, and the round ends of a side ${say.length(d.thickness)} thick allow ${say.atMost(d.most)} at most${
        d.thicker === undefined ? '' : `; a side ${say.atLeast(d.thicker)} thick works`
      }`,
    (d, to) => sideFix(d, to),
  ),
  'pitch-none-for-board': fixable(
    (d: { least: number; most: number; width: number; board?: number }, say: Say) =>
      `no number of tails fills a board ${say.length(d.width)} wide at a pitch from ${say.atLeast(d.least)} to ${say.atMost(d.most)}, which is what the tools and the side allow with one template for both boards${d.board === undefined ? '' : `; a board ${d.board > d.width ? say.atLeast(d.board) : say.atMost(d.board)} wide works`}`,
    (d, to) =>
      d.board === undefined ? [] : boardFixes([d.board], to, d.board > (to.width ?? 0) ? 'up' : 'down'),
  ),
  'apart-would-do': fixable(
    () => 'with a template for each board it can be cut: set method to apart',
    (_, to) => [apart(to)],
  ),
  'square-would-do': fixable(
    () => 'with square tails it can be cut: set tails-inside to square',
    (_, { key }) => [set('make the tails square', key('tails-inside'), 'square')],
  ),
  'blank-would-do': fixable(
    (d: { keys: readonly { readonly key: string; readonly value?: number }[] }) =>
      `${orList(d.keys.map(({ key, value }) => (value === undefined ? `without ${key}` : `with ${key}: ${value}`)))} it can be cut`,
    (d, { key }) =>
      d.keys.map((one) => {
        const name = one.key.split('.').at(-1) ?? one.key;
        return one.value === undefined
          ? leaveOut(`leave out ${name}`, key(one.key))
          : set(`${one.value} ${name}`, key(one.key), String(one.value));
      }),
  ),
  'layout-fitted': (
    d: { tails?: number; fingers?: number; pitch?: number; pin?: number; depth?: number },
    say: Say,
  ) =>
    `chosen so that tools and template fit: ${[
      d.tails === undefined ? '' : `${d.tails} ${d.tails === 1 ? 'tail' : 'tails'}`,
      d.fingers === undefined ? '' : `${d.fingers} fingers and slots`,
      d.pitch === undefined ? '' : `a pitch of ${say.length(d.pitch)}`,
      d.pin === undefined ? '' : `pins of ${say.length(d.pin)}`,
      d.depth === undefined ? '' : `sockets ${say.length(d.depth)} deep`,
    ]
      .filter((part) => part !== '')
      .join(', ')}`,
  'half-pin-over-half-pitch': (
    d: { endPin: number; most: number; pitch: number; widths: readonly number[] },
    say: Say,
  ) =>
    `half-pins come out ${say.length(d.endPin)}; with one template for both boards at ${say.length(d.pitch)} they can be ${say.atMost(d.most)} at most${d.widths.length > 0 ? `: boards ${orList(d.widths.map((width) => say.length(width)))} wide suit` : ''}`,
  'pitch-over-thickness': fixable(
    (d: { pitch: number; thickness: number; most?: number; thicker?: number }, say: Say) =>
      `a pitch of ${say.length(d.pitch)} makes round ends that do not fit into a side of ${say.length(d.thickness)}${d.most === undefined ? '' : `, which takes ${say.atMost(d.most)} at most`}${d.thicker === undefined ? '' : `; a side ${say.atLeast(d.thicker)} thick works`}`,
    (d, to) => sideFix(d, to),
  ),
  'bushing-over-tail': fixable(
    (d: { bushing: string; outside: number; most: number; others: readonly string[] }, say: Say) =>
      `${d.bushing} is ${say.length(d.outside)} outside; the rounded tail fingers leave room for ${say.atMost(d.most)} at most${wouldDo('bushings', d.others, 'a smaller bushing or a larger bit leaves room')}`,
    (d, to) => bushingFixes(d.others, to),
  ),
  'square-tails-together': fixable(
    () => 'square tails need a template of their own; write method: apart, or tails-inside: rounded',
    (_, to) => [apart(to), roundTails(to)],
  ),
  'square-tails-thin-side': fixable(
    (d: { bit: string; radius: number; thickness: number; largest: number }, say: Say) =>
      `square tails cut with ${d.bit} are pared to a radius of ${say.length(d.radius)} at their end, and the side is only ${say.length(d.thickness)} thick: the paring would come out on its outside face and leave the tails loose; take a bit no larger than ${say.length(d.largest)}, a side ${say.length(d.radius)} thick or more, or write tails-inside: rounded`,
    (_, to) => [roundTails(to)],
  ),
  'rabbet-through': (d: { rabbet: number; thickness: number }, say: Say) =>
    `a rabbet ${say.length(d.rabbet)} deep leaves no lip on a front of ${say.length(d.thickness)}`,
  'rabbet-shallow': fixable(
    (d: { rabbet: number; depth: number }, say: Say) =>
      `the rabbet is ${say.length(d.rabbet)} deep and the sockets are ${say.length(d.depth)}: the bit would cut the lip; make the rabbet ${say.atLeast(d.depth)} deep or more, or the sockets no deeper than the rabbet (depth)`,
    (d, { key, length, say }) => [
      set(`a rabbet ${say.length(d.depth)} deep`, key('lip.rabbet'), length(d.depth, 'up')),
      set(`sockets ${say.length(d.rabbet)} deep`, key('depth'), length(d.rabbet, 'down')),
    ],
  ),
  'lip-set-up': (d: { end: number; lower: number; upper: number; frontWidth: number }, say: Say) =>
    `the lipped front is ${say.length(d.frontWidth)} wide: ${say.length(d.lower)} past the joint at the lower edge, ${say.length(d.upper)} at the upper edge, and ${say.length(d.end)} at each end; the marks of its template allow for the lip`,
  'tails-to-pare': (d: { radius: number; atBaseline: number; deeper: number }, say: Say) =>
    `pare the inside corners of the tails to a radius of ${say.length(d.radius)} at the end and ${say.length(d.atBaseline)} at the baseline; the sockets go ${say.length(d.deeper)} further in than the side is thick, so that the flat tails clear their sloped ends`,
};
