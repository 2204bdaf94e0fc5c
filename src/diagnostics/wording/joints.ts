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
  MAX_FIXES,
  setKey,
} from '../fix.js';
import type { Formatter } from '../formatter.js';

const orList = (names: readonly string[]): string =>
  names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} or ${names.at(-1)}`;

/** "; in your shop a, b or c would do", or the general cure when the shop has nothing. */
const wouldDo = (what: string, names: readonly string[], otherwise: string): string =>
  names.length > 0 ? `; of your ${what}, ${orList(names)} would do` : `; ${otherwise}`;

const thickerPlate = ({ thicker }: { thicker?: number }, fmt: Formatter): string =>
  thicker === undefined ? '' : `, or a plate ${fmt.atLeast(thicker)} thick`;

const plateFix = ({ thicker }: { thicker?: number }, { length, fmt }: FixContext): readonly Fix[] =>
  thicker === undefined
    ? []
    : [
        asked(
          setKey(
            `a plate ${fmt.length(thicker)} thick`,
            ['shop', 'plate', 'thickness'],
            length(thicker, 'up'),
          ),
        ),
      ];

const sideFix = ({ thicker }: { thicker?: number }, { key, length, fmt }: FixContext): readonly Fix[] =>
  thicker === undefined
    ? []
    : [
        asked(
          setKey(`a side ${fmt.length(thicker)} thick`, key('boards.tails.thickness'), length(thicker, 'up')),
        ),
      ];

const apart = ({ key }: FixContext): Fix => setKey('make a template for each board', key('method'), 'apart');

const roundTails = ({ key }: FixContext): Fix => setKey('round the tails', key('tails-inside'), 'rounded');

/** Sentences about boards, bits and bushings, whatever the kind of joint. Lengths in mm, angles in radians. */
export const jointWording = {
  'bit-short': fixable(
    (d: { bit: string; height: number; depth: number; others: readonly string[] }, fmt: Formatter) =>
      `the cut is ${fmt.length(d.depth)} deep, but ${d.bit} cuts only ${fmt.length(d.height)} high${wouldDo('bits', d.others, 'take a longer bit or a thinner board')}`,
    (d, { at, word }) =>
      d.others.slice(0, MAX_FIXES).map((name) => setKey(`take the bit ${name}`, at, word(name))),
  ),
  'bit-neck': (d: { bit: string; neck: number; depth: number }, fmt: Formatter) =>
    `${d.bit} is ${fmt.length(d.neck)} thick at the board's surface when it cuts ${fmt.length(d.depth)} deep; take a bit with less slope, a larger bit or a thinner board`,
  'shank-in-bore': fixable(
    (
      d: { bit: string; shank: number; bushing: string; bore: number; others: readonly string[] },
      fmt: Formatter,
    ) =>
      `the ${fmt.length(d.shank)} shank of ${d.bit} does not turn freely in the ${fmt.length(d.bore)} bore of ${d.bushing}${wouldDo('bushings', d.others, 'take a larger bushing or a bit with a thinner shank')}`,
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
      fmt: Formatter,
    ) => {
      const place =
        d.where === 'plate'
          ? `${d.bit} is ${fmt.length(d.cutter)} across where it runs inside the template, and ${d.bushing} keeps the template only ${fmt.length(d.room)} apart`
          : `${d.bit} is ${fmt.length(d.cutter)} across where it runs inside ${d.bushing}, whose bore ${d.boreGiven ? `is ${fmt.length(d.room)}` : `isn't given and can't be over ${fmt.length(d.room)} with ${fmt.length(d.outside)} outside`}`;
      if (!d.touches)
        return `${place}: turn the bit by hand, unplugged, before the first cut; the two must not touch`;
      const fixes = [
        ...(d.others.length > 0 ? [`use the bushing ${orList(d.others)}`] : []),
        ...(d.bits.length > 0 ? [`use the bit ${orList(d.bits)}`] : []),
        ...(d.thicker === undefined ? [] : [`use a plate ${fmt.atLeast(d.thicker)} thick`]),
      ];
      const otherwise =
        d.where === 'plate'
          ? 'use a bushing that is wider than the bit, or a narrower bit'
          : `use a bushing with a bore of ${fmt.atLeast(d.cutter)} or more, or a narrower bit`;
      return `${place}: it would cut ${d.where === 'plate' ? 'the template' : 'the bushing'}; ${fixes.length > 0 ? orList(fixes) : otherwise}`;
    },
    (d, to) => [...bushingFixes(d.others, to), ...bitFixes(d.bits, to), ...plateFix(d, to)],
  ),
  'barrel-long': fixable(
    (
      d: { bushing: string; barrel: number; plate: number; others: readonly string[]; thicker?: number },
      fmt: Formatter,
    ) =>
      `the barrel of ${d.bushing} reaches ${fmt.length(d.barrel)} down, and the template is ${fmt.length(d.plate)} thick: the barrel would ride on the board${wouldDo('bushings', d.others, 'shorten the barrel')}${thickerPlate(d, fmt)}`,
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
  'depth-chosen': (d: { depth: number; lap: number }, fmt: Formatter) =>
    `sockets ${fmt.length(d.depth)} deep, which leaves a lap of ${fmt.length(d.lap)}`,
  'lap-thin': fixable(
    (d: { depth: number; lap: number; thickness: number; greatest: number }, fmt: Formatter) =>
      `sockets ${fmt.length(d.depth)} deep ${
        d.lap > 0
          ? `leave a lap of ${fmt.length(d.lap)} on a front of ${fmt.length(d.thickness)}`
          : `go through a front of ${fmt.length(d.thickness)}`
      }; a quarter to a third of the front is the usual lap: up to ${fmt.atMost(d.greatest)} deep keeps a quarter`,
    (d, { key, length, fmt }) => [
      setKey(`sockets ${fmt.length(d.greatest)} deep`, key('depth'), length(d.greatest, 'down')),
    ],
  ),
  'pin-follows-pitch': (
    d: { key: 'pin' | 'least-pin'; asked: number; pin: number; pitch: number },
    fmt: Formatter,
  ) =>
    `pins of ${fmt.length(d.asked)}${d.key === 'pin' ? '' : ' or more'} are asked for, but with one template for both boards a pitch of ${fmt.length(d.pitch)} makes them ${fmt.length(d.pin)}`,
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
      fmt: Formatter,
    ) =>
      `a pitch of ${fmt.length(d.pitch)} leaves slots narrower than the bushing with ${d.bit} ${fmt.length(d.depth)} deep; ${fmt.atLeast(d.least)} is the least${d.deeper === undefined ? '' : `, or a depth of ${fmt.atLeast(d.deeper)}`}`,
    (d, { key, length, fmt }) => [
      ...(d.next === undefined
        ? []
        : [setKey(`a pitch of ${fmt.length(d.next)}`, key('layout.pitch'), length(d.next, 'up'))]),
      ...(d.deeper === undefined
        ? []
        : [setKey(`a depth of ${fmt.length(d.deeper)}`, key('depth'), length(d.deeper, 'up'))]),
    ],
  ),
  'tails-over-bushing': fixable(
    (d: { tails: number; pitch: number; least: number; board?: number }, fmt: Formatter) =>
      `${d.tails === 1 ? '1 tail has a pitch of' : `${d.tails} tails stand`} ${fmt.length(d.pitch)}${d.tails === 1 ? '' : ' apart'}, and bit, bushing and plate need at least ${fmt.atLeast(d.least)}${d.board === undefined ? '' : `; a board ${fmt.atLeast(d.board)} wide works`}`,
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
      fmt: Formatter,
    ) =>
      `no pitch works with one template for both boards: ${
        d.by === 'finger'
          ? `fingers beside ${d.bushing} are too thin under ${fmt.atLeast(d.least)}`
          : `the slots for ${d.bit} are narrower than ${d.bushing} under ${fmt.atLeast(d.least)}`
      }, and the round ends of a side ${fmt.length(d.thickness)} thick allow ${fmt.atMost(d.most)} at most${
        d.thicker === undefined ? '' : `; a side ${fmt.atLeast(d.thicker)} thick works`
      }`,
    (d, to) => sideFix(d, to),
  ),
  'pitch-none-for-board': fixable(
    (d: { least: number; most: number; width: number; board?: number }, fmt: Formatter) =>
      `no number of tails fills a board ${fmt.length(d.width)} wide at a pitch from ${fmt.atLeast(d.least)} to ${fmt.atMost(d.most)}, which is what the tools and the side allow with one template for both boards${d.board === undefined ? '' : `; a board ${d.board > d.width ? fmt.atLeast(d.board) : fmt.atMost(d.board)} wide works`}`,
    (d, to) =>
      d.board === undefined ? [] : boardFixes([d.board], to, d.board > (to.width ?? 0) ? 'up' : 'down'),
  ),
  'apart-would-do': fixable(
    () => 'with a template for each board it can be cut: set method to apart',
    (_, to) => [apart(to)],
  ),
  'square-would-do': fixable(
    () => 'with square tails it can be cut: set tails-inside to square',
    (_, { key }) => [setKey('make the tails square', key('tails-inside'), 'square')],
  ),
  'blank-would-do': fixable(
    (d: { keys: readonly { readonly key: string; readonly value?: number }[] }) =>
      `${orList(d.keys.map(({ key, value }) => (value === undefined ? `without ${key}` : `with ${key}: ${value}`)))} it can be cut`,
    (d, { key }) =>
      d.keys.map((one) => {
        const name = one.key.split('.').at(-1) ?? one.key;
        return one.value === undefined
          ? leaveOut(`leave out ${name}`, key(one.key))
          : setKey(`${one.value} ${name}`, key(one.key), String(one.value));
      }),
  ),
  'layout-fitted': (
    d: { tails?: number; fingers?: number; pitch?: number; pin?: number; depth?: number },
    fmt: Formatter,
  ) =>
    `chosen so that tools and template fit: ${[
      d.tails === undefined ? '' : `${d.tails} ${d.tails === 1 ? 'tail' : 'tails'}`,
      d.fingers === undefined ? '' : `${d.fingers} fingers and slots`,
      d.pitch === undefined ? '' : `a pitch of ${fmt.length(d.pitch)}`,
      d.pin === undefined ? '' : `pins of ${fmt.length(d.pin)}`,
      d.depth === undefined ? '' : `sockets ${fmt.length(d.depth)} deep`,
    ]
      .filter((part) => part !== '')
      .join(', ')}`,
  'half-pin-over-half-pitch': (
    d: { endPin: number; most: number; pitch: number; widths: readonly number[] },
    fmt: Formatter,
  ) =>
    `half-pins come out ${fmt.length(d.endPin)}; with one template for both boards at ${fmt.length(d.pitch)} they can be ${fmt.atMost(d.most)} at most${d.widths.length > 0 ? `: boards ${orList(d.widths.map((width) => fmt.length(width)))} wide suit` : ''}`,
  'pitch-over-thickness': fixable(
    (d: { pitch: number; thickness: number; most?: number; thicker?: number }, fmt: Formatter) =>
      `a pitch of ${fmt.length(d.pitch)} makes round ends that do not fit into a side of ${fmt.length(d.thickness)}${d.most === undefined ? '' : `, which takes ${fmt.atMost(d.most)} at most`}${d.thicker === undefined ? '' : `; a side ${fmt.atLeast(d.thicker)} thick works`}`,
    (d, to) => sideFix(d, to),
  ),
  'bushing-over-tail': fixable(
    (d: { bushing: string; outside: number; most: number; others: readonly string[] }, fmt: Formatter) =>
      `${d.bushing} is ${fmt.length(d.outside)} outside; the rounded tail fingers leave room for ${fmt.atMost(d.most)} at most${wouldDo('bushings', d.others, 'a smaller bushing or a larger bit leaves room')}`,
    (d, to) => bushingFixes(d.others, to),
  ),
  'square-tails-together': fixable(
    () => 'square tails need a template of their own; write method: apart, or tails-inside: rounded',
    (_, to) => [apart(to), roundTails(to)],
  ),
  'square-tails-thin-side': fixable(
    (d: { bit: string; radius: number; thickness: number; largest: number }, fmt: Formatter) =>
      `square tails cut with ${d.bit} are pared to a radius of ${fmt.length(d.radius)} at their end, and the side is only ${fmt.length(d.thickness)} thick: the paring would come out on its outside face and leave the tails loose; take a bit no larger than ${fmt.length(d.largest)}, a side ${fmt.length(d.radius)} thick or more, or write tails-inside: rounded`,
    (_, to) => [roundTails(to)],
  ),
  'rabbet-through': (d: { rabbet: number; thickness: number }, fmt: Formatter) =>
    `a rabbet ${fmt.length(d.rabbet)} deep leaves no lip on a front of ${fmt.length(d.thickness)}`,
  'rabbet-shallow': fixable(
    (d: { rabbet: number; depth: number }, fmt: Formatter) =>
      `the rabbet is ${fmt.length(d.rabbet)} deep and the sockets are ${fmt.length(d.depth)}: the bit would cut the lip; make the rabbet ${fmt.atLeast(d.depth)} deep or more, or the sockets no deeper than the rabbet (depth)`,
    (d, { key, length, fmt }) => [
      setKey(`a rabbet ${fmt.length(d.depth)} deep`, key('lip.rabbet'), length(d.depth, 'up')),
      setKey(`sockets ${fmt.length(d.rabbet)} deep`, key('depth'), length(d.rabbet, 'down')),
    ],
  ),
  'lip-set-up': (d: { end: number; lower: number; upper: number; frontWidth: number }, fmt: Formatter) =>
    `the lipped front is ${fmt.length(d.frontWidth)} wide: ${fmt.length(d.lower)} past the joint at the lower edge, ${fmt.length(d.upper)} at the upper edge, and ${fmt.length(d.end)} at each end; the marks of its template allow for the lip`,
  'tails-to-pare': (d: { radius: number; atBaseline: number; deeper: number }, fmt: Formatter) =>
    `pare the inside corners of the tails to a radius of ${fmt.length(d.radius)} at the end and ${fmt.length(d.atBaseline)} at the baseline; the sockets go ${fmt.length(d.deeper)} further in than the side is thick, so that the flat tails clear their sloped ends`,
};
