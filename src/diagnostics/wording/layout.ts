import { boardFixes, type Fix, type FixContext, fixable, leaveOut, setKey, takeOut } from '../fix.js';
import type { Formatter } from '../formatter.js';
import { count, either, type LayoutFix, type LayoutPart, layoutFixes, whatWouldDo } from './layout-fixes.js';

/** Sentences about the layout of a joint across the board. Lengths in mm; parts counted from the reference edge. */
export const layoutWording = {
  // What can't be cut.
  'span-narrow': fixable(
    (
      d: {
        part: LayoutPart;
        /** Counted among its kind from the reference edge, from 1. */
        number: number;
        /** How many of its kind are under the least, with this one, the narrowest. */
        count: number;
        width: number;
        least: number;
        because: string;
        cures: readonly LayoutFix[];
      },
      fmt: Formatter,
    ) =>
      `${partName(d.part, d.number)} would be ${fmt.length(d.width)} wide${d.count > 1 ? ` (${d.count - 1} more ${d.count === 2 ? 'is' : 'are'} too narrow)` : ''}, ` +
      `under the ${fmt.atLeast(d.least)} it needs: ${d.because}; ${whatWouldDo(d.cures, fmt)}`,
    (d, to) => d.cures.flatMap((cure) => layoutFixes(cure, to)),
  ),
  'tails-no-room': fixable(
    (
      d: {
        width: number;
        tails: number;
        pins: number;
        least: number;
        because: string;
        cures: readonly LayoutFix[];
      },
      fmt: Formatter,
    ) =>
      `the pins beside ${count(d.tails, 'tail')} take ${fmt.length(d.pins)} of ${fmt.length(d.width)} and leave no room for ` +
      `tails of at least ${fmt.length(d.least)}: ${d.because}; ${whatWouldDo(d.cures, fmt)}`,
    (d, to) => d.cures.flatMap((cure) => layoutFixes(cure, to)),
  ),
  'spacing-even-only': fixable(
    (d: {
      spacing: string;
      because: string /** Set where a template for each board takes any spacing. */;
      apart?: true;
    }) => `${d.spacing} spacing can't be cut here: ${d.because}; even spacing would do`,
    (_, to) => [
      {
        label: 'space them evenly',
        edits: [
          { set: to.at, to: 'even' },
          ...['spans', 'ratio', 'seed', 'spread'].map((key) => ({ remove: to.key(`layout.${key}`) })),
        ],
      },
      setKey('make a template for each board', to.key('method'), 'apart'),
    ],
  ),
  'layout-too-many': (d: { what: string; read: number; most: number }) =>
    `${d.read} ${d.what} are more than the ${d.most} that a layout holds`,
  'layout-number': (d: { key: string; read: number; needs: 'size' | 'count' | 'number' }) =>
    `${d.key} ${d.read} can't be used; ${
      { size: 'a length over 0', count: 'a whole number of 1 or more', number: 'a number' }[d.needs]
    } would do`,
  'layout-out-of-range': (d: { key: string; read: number; least: number; most: number }) =>
    `${d.key} ${d.read} is outside ${d.least} to ${d.most}`,
  'layout-disagrees': fixable(
    (d: { sum: number; width: number; leaveBlank: string; widths: readonly number[] }, fmt: Formatter) =>
      `the sizes given come to ${fmt.length(d.sum)} but the joint is ${fmt.length(d.width)} wide; ` +
      `leave out ${d.leaveBlank}${d.widths.length > 0 ? `, or take a board ${either(d.widths.map(fmt.length))} wide` : ''}`,
    (d, to) => [
      leaveOut(`leave out ${d.leaveBlank}`, to.key(`layout.${d.leaveBlank}`)),
      ...boardFixes(d.widths, to),
    ],
  ),
  'pin-over-pitch': fixable(
    (d: { pin: number; pitch: number; leastTail: number; because: string }, fmt: Formatter) =>
      `a pin of ${fmt.length(d.pin)} at a pitch of ${fmt.length(d.pitch)} leaves ${fmt.length(d.pitch - d.pin)} for the tail, under the ` +
      `${fmt.length(d.leastTail)} it needs: ${d.because}; a pitch of ${fmt.atLeast(d.pin + d.leastTail)} or more would do`,
    (d, { key, length, fmt }) => [
      setKey(
        `a pitch of ${fmt.length(d.pin + d.leastTail)}`,
        key('layout.pitch'),
        length(d.pin + d.leastTail, 'up'),
      ),
    ],
  ),
  'pitch-leaves-pin': fixable(
    (
      d: {
        pitch: number;
        endPin: number;
        tails: number;
        pin: number;
        least: number;
        most: number;
        because: string;
        widths: readonly number[];
      },
      fmt: Formatter,
    ) =>
      `${count(d.tails, 'tail')} at a pitch of ${fmt.length(d.pitch)} with half-pins of ${fmt.length(d.endPin)} leave pins of ` +
      `${fmt.length(d.pin)}, which must be ${fmt.length(d.least)} to ${fmt.length(d.most)}: ${d.because}; leave out end-pin` +
      `${d.widths.length > 0 ? `, or take a board ${either(d.widths.map(fmt.length))} wide` : ''}`,
    (d, to) => [leaveOut('leave out end-pin', to.key('layout.end-pin')), ...boardFixes(d.widths, to)],
  ),
  'spans-missing': (d: { spacing: string }) =>
    `${d.spacing} spacing needs spans: the width of every part at the baseline, from the reference edge on`,
  'spans-count': (d: { read: number; least: number }) =>
    `${count(d.read, 'span')} given; a row begins and ends with a pin, so it has an odd number of spans, ${d.least} or more`,
  'spans-sum': fixable(
    (
      d: {
        sum: number;
        width: number;
        /** The span that has most to give, as it is and as it should be. */
        absorb?: { part: LayoutPart; number: number; paired: boolean; from: number; to: number };
      },
      fmt: Formatter,
    ) =>
      `the spans come to ${fmt.length(d.sum)}, ${fmt.length(Math.abs(d.sum - d.width))} ${d.sum > d.width ? 'more' : 'less'} than the ` +
      `joint's ${fmt.length(d.width)}; ${
        d.absorb === undefined
          ? ''
          : `make ${partName(d.absorb.part, d.absorb.number)} ${fmt.length(d.absorb.to)} instead of ${fmt.length(d.absorb.from)}` +
            `${d.absorb.paired ? ' (its mirror image follows)' : ''}, or `
      }take a board ${fmt.length(d.sum)} wide`,
    (d, to) => [...absorbFix(d, to), ...boardFixes([d.sum], to)],
  ),
  'groove-off-board': fixable(
    (d: { from: number; to: number; width: number }, fmt: Formatter) =>
      `the groove runs from ${fmt.length(d.from)} to ${fmt.length(d.to)}, off a joint ${fmt.length(d.width)} wide`,
    (_, { key }) => [leaveOut('take the groove out', key('layout.groove'))],
  ),

  // What asks for care.
  'field-without-effect': fixable(
    (d: { key: string; spacing: string }) =>
      `${d.key} has no part in ${d.spacing} spacing here and was not used`,
    (_, to) => takeOut(to),
  ),
  'tail-under-pin': (d: { number: number; tail: number; pin: number }, fmt: Formatter) =>
    `${partName('tail', d.number)} of ${fmt.length(d.tail)} is narrower than a pin of ${fmt.length(d.pin)}; pins are usually the narrower`,
  'half-pin-slight': (d: { endPin: number; pin: number }, fmt: Formatter) =>
    `a half-pin of ${fmt.length(d.endPin)} is not more than half a full pin of ${fmt.length(d.pin)}; ` +
    'a wider one keeps the edge from splitting off',
  'pitch-suits-ill': fixable(
    (
      d: {
        pitch: number;
        tails: number;
        endPin: number;
        pin: number;
        width: number;
        widths: readonly number[];
      },
      fmt: Formatter,
    ) =>
      `a pitch of ${fmt.length(d.pitch)} leaves half-pins of ${fmt.length(d.endPin)} beside pins of ${fmt.length(d.pin)} ` +
      `on a board ${fmt.length(d.width)} wide; ${
        d.widths.length > 0
          ? `boards ${either(d.widths.map(fmt.length))} wide suit it better`
          : 'no board of half to one and a half times that width suits it better'
      }`,
    (d, to) => boardFixes(d.widths, to),
  ),
  'finger-not-as-wanted': fixable(
    (d: { wanted: number; finger: number; count: number; widths: readonly number[] }, fmt: Formatter) =>
      `fingers come out ${fmt.length(d.finger)}, not ${fmt.length(d.wanted)}: ${d.count} equal parts fill the board` +
      `${d.widths.length > 0 ? `; boards ${either(d.widths.map(fmt.length))} wide suit the wanted finger` : ''}`,
    (d, to) => boardFixes(d.widths, to),
  ),
  'groove-outside-tails': fixable(
    (
      d: {
        from: number;
        to: number;
        /** The tail nearest to the groove; absent when none is wide enough. */
        tail?: { number: number; from: number; to: number };
        /** Signed way to move the groove, away from the reference edge. */
        shift?: number;
        /** Greatest half-pin that would let the groove pass. */
        endPin?: number;
      },
      fmt: Formatter,
    ) =>
      `the groove from ${fmt.length(d.from)} to ${fmt.length(d.to)} is not inside one tail, so it would break into a pin and show there; ` +
      (d.tail === undefined || d.shift === undefined
        ? 'no tail is as wide as the groove'
        : `move it ${fmt.length(Math.abs(d.shift))} ${toward(d.shift)} into tail ${d.tail.number} ` +
          `(${fmt.length(d.tail.from)} to ${fmt.length(d.tail.to)})` +
          (d.endPin === undefined ? '' : `, or ask for an end pin of ${fmt.length(d.endPin)} or less`)),
    (d, to) => grooveFixes(d, to),
  ),
  'groove-across-fingers': fixable(
    (d: { from: number; to: number; shift?: number }, fmt: Formatter) =>
      `the groove from ${fmt.length(d.from)} to ${fmt.length(d.to)} meets fingers of both boards and shows at both ends; ` +
      (d.shift === undefined
        ? 'no finger is as wide as the groove'
        : `moved ${fmt.length(Math.abs(d.shift))} ${toward(d.shift)} it would lie in one`),
    (d, to) => grooveFixes(d, to),
  ),

  // What was chosen, and why.
  'tails-chosen': (
    d: { tails: number; tail: number; alike: boolean; most: number; ordinary: number },
    fmt: Formatter,
  ) =>
    `${count(d.tails, 'tail')}, ${fmt.length(d.tail)} wide${d.alike ? '' : ' on the average'}: the fewest that keep within ` +
    `${fmt.length(d.most)}, since tails are up to four times the pins and ordinarily not over ${fmt.length(d.ordinary)}`,
  'tails-held': (d: { tails: number; narrowest: number; least: number; because?: string }, fmt: Formatter) =>
    `${count(d.tails, 'tail')}: one more would ${d.narrowest > 0 ? `make the narrowest ${fmt.length(d.narrowest)}` : 'find no room'}, ` +
    `under ${fmt.length(d.least)}: ${d.because ?? 'pins are usually the narrower'}`,
  'tails-by-pitch': (d: { tails: number; pitch: number }, fmt: Formatter) =>
    `${count(d.tails, 'tail')}: as many as a pitch of ${fmt.length(d.pitch)} puts on this board with proper half-pins`,
  'pin-chosen': (
    d: { pin: number; why: 'least' | 'quarter' | 'ordinary' | 'room' | 'rest'; because?: string },
    fmt: Formatter,
  ) =>
    `pins of ${fmt.length(d.pin)}: ${
      {
        least: `the narrowest that can be cut (${d.because ?? ''})`,
        quarter: 'a quarter of the tails, as narrow as pins ordinarily get',
        ordinary: `a quarter of ${fmt.length(4 * d.pin)}, ordinarily the widest tail`,
        room: 'as wide as the tails leave room for',
        rest: 'what the pitch and the half-pins leave',
      }[d.why]
    }`,
  'half-pin-chosen': (
    d: { endPin: number; why: 'share' | 'least' | 'rest'; because?: string },
    fmt: Formatter,
  ) =>
    `half-pins of ${fmt.length(d.endPin)}: ${
      {
        share: 'five eighths of a full pin, since a half-pin should be more than half a pin at the baseline',
        least: `the narrowest that can be cut (${d.because ?? ''})`,
        rest: 'what the pitch leaves at each edge',
      }[d.why]
    }`,
  'pitch-suits': (d: { pitch: number; tails: number; endPin: number }, fmt: Formatter) =>
    `a pitch of ${fmt.length(d.pitch)} suits this board: ${count(d.tails, 'tail')} and half-pins of ${fmt.length(d.endPin)}`,
  'tail-over-usual': (d: { tail: number; pin?: number; usual: number; ordinary: number }, fmt: Formatter) =>
    `tails reach ${fmt.length(d.tail)}${d.pin === undefined ? '' : ` beside pins of ${fmt.length(d.pin)}`}; ` +
    `ordinarily they stay within ${fmt.length(d.usual)}, the lesser of ` +
    `four times the pins and ${fmt.length(d.ordinary)}`,
  'ratio-chosen': (d: { ratio: number; toward: 'far edge' | 'middle' }) =>
    d.ratio === 1
      ? `one tail or finger from the edge to the ${d.toward} has no other to grow from: all are alike`
      : `each tail or finger is ${Number(d.ratio.toFixed(3))} times the one before it toward the ${d.toward}: the last is twice the first`,
  'varied-by-seed': (d: { seed: number; spread: number }) =>
    `irregular widths, as by hand, within ${Number((d.spread * 100).toFixed(1))} % of even; seed ${d.seed} gives these again, another gives others`,
  'fingers-chosen': (
    d: {
      count: number;
      finger: number;
      alike: boolean;
      why: 'exact' | 'nearest' | 'least' | 'ordinary' | 'fewest';
      because?: string;
    },
    fmt: Formatter,
  ) =>
    `${d.count} fingers and slots, ${fmt.length(d.finger)} wide${d.alike ? '' : ' on the average'}: ${
      {
        exact: 'they fill the board exactly',
        nearest: 'the odd number nearest to the wanted finger, so that both edges look alike',
        least: `the greatest odd number that can be cut, so that both edges look alike (${d.because ?? ''})`,
        ordinary: 'fingers near the usual 1/2 in, and an odd number, so that both edges look alike',
        fewest: 'few but plain on a narrow board, and an odd number, so that both edges look alike',
      }[d.why]
    }`,
  'fingers-even-number': (d: { count: number }) =>
    `${d.count} is an even number of fingers and slots, so the board that has the finger at one edge has the slot at the other; ` +
    `${d.count - 1} or ${d.count + 1} would make both edges alike`,
  'groove-in-tail': (d: { tail: number }) =>
    `the groove lies inside tail ${d.tail}, so it breaks into no pin`,
  'groove-in-finger': (d: { board: 'one' | 'two'; number: number }) =>
    `the groove lies inside finger ${d.number} of board ${d.board}: run through, it shows as a hole at the end of that finger; ` +
    'stop it short or plug the hole',
};

function partName(part: LayoutPart, number: number): string {
  if (part !== 'half-pin') return `${part} ${number}`;
  return number === 1 ? 'the half-pin at the reference edge' : 'the half-pin at the far edge';
}

function toward(shift: number): string {
  return shift > 0 ? 'away from the reference edge' : 'toward the reference edge';
}

function absorbFix(
  { absorb }: { absorb?: { from: number; to: number } },
  { key, length, fmt, spans }: FixContext,
): readonly Fix[] {
  const index = absorb ? (spans ?? []).indexOf(absorb.from) : -1;
  return absorb && index >= 0
    ? [setKey(`make it ${fmt.length(absorb.to)}`, key(`layout.spans.${index}`), length(absorb.to))]
    : [];
}

function grooveFixes(
  { from, shift, endPin }: { from: number; shift?: number; endPin?: number },
  { key, length, fmt }: FixContext,
): readonly Fix[] {
  const moved = from + (shift ?? 0);
  return [
    ...(shift === undefined
      ? []
      : [
          setKey(
            `move the groove to ${fmt.length(moved)}`,
            key('layout.groove.from'),
            length(moved, shift > 0 ? 'up' : 'down'),
          ),
        ]),
    ...(endPin === undefined
      ? []
      : [setKey(`half-pins of ${fmt.length(endPin)}`, key('layout.end-pin'), length(endPin))]),
  ];
}
