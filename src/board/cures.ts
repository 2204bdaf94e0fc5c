import type { Finding } from '../findings/finding.js';
import type { Say } from '../findings/say.js';
import type { Cure as LayoutCure, LayoutPart } from '../findings/wording/layout.js';
import { type Edit, type KeyPath, quotedValue } from '../job/edit-yaml.js';
import type { Job, Joint } from '../job/types.js';
import { familyOf } from '../joints/list.js';
import { writeLength } from './lengths.js';
import { keysOf, type Model } from './model.js';
import { listEdits, resizeSpan } from './spans.js';

/** A change to the job that would answer a finding, as a button says it. */
export interface Cure {
  /** What the button says: `take the bushing ten`. */
  readonly label: string;
  readonly edits: readonly Edit[];
}

/**
 * The changes that a finding itself names or implies, best first; none where only the maker can know. Each is
 * worked out by the stage that found the trouble: here its numbers become edits of the job's text.
 */
export function curesOf(one: Finding, model: Model): readonly Cure[] {
  const bench = benchOf(one, model);
  return [
    ...readingCures(one, bench),
    ...toolCures(one, bench),
    ...layoutCures(one, bench),
    ...jointCures(one, bench),
  ];
}

/** What edits are made with: the finding's place and the joint's, and lengths in the job's units. */
interface Bench {
  readonly model: Model;
  readonly job?: Job;
  readonly joint?: Joint;
  readonly say: Say;
  readonly at: KeyPath;
  /** Path of a key of the finding's joint. */
  readonly key: (...names: readonly string[]) => KeyPath;
  readonly length: (mm: number, toward?: 'up' | 'down') => string;
}

function benchOf(one: Finding, model: Model): Bench {
  const at = keysOf(one.at, model.document);
  const name = at[0] === 'joints' && at[1] !== undefined ? at[1] : (model.joint?.name ?? '');
  const joint = model.job?.joints.find((other) => other.name === name);
  return {
    model,
    ...(model.job ? { job: model.job } : {}),
    ...(joint ? { joint } : {}),
    say: model.say,
    at,
    key: (...names) => ['joints', name, ...names],
    length: (mm, toward) => writeLength(mm, model.reading.units, toward),
  };
}

const set = (label: string, path: KeyPath, to: string): Cure => ({ label, edits: [{ set: path, to }] });
const leaveOut = (label: string, path: KeyPath): Cure => ({ label, edits: [{ remove: path }] });

/** Bushings that were tried and would do, for the joint on the bench. */
export function bushingCures(names: readonly string[], { joint }: Model): readonly Cure[] {
  if (!joint) return [];
  return names
    .slice(0, MOST_BUTTONS)
    .map((name) => set(`take the bushing ${name}`, ['joints', joint.name, 'bushing'], quotedValue(name)));
}

// What could not be read

function readingCures(one: Finding, { at }: Bench): readonly Cure[] {
  const instead = (words: readonly string[]) =>
    words.map((word) => set(`write ${word}`, at, quotedValue(word)));
  switch (one.code) {
    case 'length-unclear':
    case 'angle-unclear':
      return instead((one.data as { wouldDo: readonly string[] }).wouldDo);
    case 'value-unlisted':
    case 'tool-unknown': {
      const { nearest, known } = one.data as { nearest?: string; known: readonly string[] };
      return instead(nearest === undefined ? known.slice(0, MOST_BUTTONS) : [nearest]);
    }
    case 'bit-wrong-kind':
      return instead((one.data as { known: readonly string[] }).known.slice(0, MOST_BUTTONS));
    case 'key-unknown': {
      const { nearest } = one.data as { nearest?: string };
      return nearest === undefined
        ? []
        : [{ label: `write ${nearest}`, edits: [{ rename: at, to: nearest }] }];
    }
    case 'length-great': {
      const { meant } = one.data as { meant?: string };
      return instead(meant === undefined ? [] : [meant]);
    }
    case 'number-range': {
      const { least, most } = one.data as { least: number; most: number };
      return instead([String(least), String(most)]);
    }
    case 'field-of-spacing':
    case 'slope-twice':
    case 'bit-angle-straight':
    case 'key-of-kind':
    case 'field-without-effect':
      return [leaveOut(`take ${at.at(-1)} out`, at)];
    default:
      return [];
  }
}

/** More buttons than this are a list to search, and the field itself is one. */
const MOST_BUTTONS = 5;

// Bits and bushings

function toolCures(one: Finding, { at, key, joint, job, model, say, length }: Bench): readonly Cure[] {
  const bushings = (names: readonly string[]) =>
    names
      .slice(0, MOST_BUTTONS)
      .map((name) => set(`take the bushing ${name}`, key('bushing'), quotedValue(name)));
  switch (one.code) {
    case 'other-tools-would-do': {
      const data = one.data as { bushings: readonly string[]; bits: readonly string[] };
      return [...bushings(data.bushings), ...data.bits.flatMap((name) => bitCure(name, joint, job, key))];
    }
    case 'bit-short': {
      const { others } = one.data as { others: readonly string[] };
      return others.slice(0, MOST_BUTTONS).map((name) => set(`take the bit ${name}`, at, quotedValue(name)));
    }
    case 'cutter-in-bore':
    case 'shank-in-bore':
    case 'barrel-long':
    case 'bushing-over-tail': {
      const {
        others,
        bits = [],
        thicker,
      } = one.data as { others: readonly string[]; bits?: readonly string[]; thicker?: number };
      const plate = ['shop', 'plate', 'thickness'];
      return [
        ...bushings(others),
        ...bits.flatMap((name) => bitCure(name, joint, job, key)),
        // A shop file of its own is not this page's to change.
        ...(thicker === undefined || !model.document.hasIn(plate)
          ? []
          : [set(`a plate ${say.length(thicker)} thick`, plate, length(thicker, 'up'))]),
      ];
    }
    default:
      return [];
  }
}

/** A bit goes where a bit of its kind is used. */
function bitCure(
  name: string,
  joint: Joint | undefined,
  job: Job | undefined,
  key: Bench['key'],
): readonly Cure[] {
  const bit = job?.shop.bits[name];
  const slots = joint && familyOf(joint.kind)?.bitSlots?.(joint);
  const slot = slots?.find(({ kind, bit: now }) => kind === bit?.kind && now.name !== name);
  return slot ? [set(`take the bit ${name}`, key(...slot.key.split('.')), quotedValue(name))] : [];
}

// The layout

function layoutCures(one: Finding, bench: Bench): readonly Cure[] {
  const { at, key, length, say } = bench;
  const boards = (widths: readonly number[]) => widths.map((width) => boardCure(width, bench));
  switch (one.code) {
    case 'span-narrow': {
      const data = one.data as { part: LayoutPart; cures: readonly LayoutCure[]; least: number };
      return data.cures.flatMap((cure) => layoutCure(cure, bench));
    }
    case 'tails-no-room':
      return (one.data as { cures: readonly LayoutCure[] }).cures.flatMap((cure) => layoutCure(cure, bench));
    case 'spacing-even-only':
      return [
        {
          label: 'space them evenly',
          edits: [
            { set: at, to: 'even' },
            ...['spans', 'ratio', 'seed', 'spread']
              .map((other) => key('layout', other))
              .filter((path) => bench.model.document.hasIn(path))
              .map((remove) => ({ remove })),
          ],
        },
        ...(bench.joint?.kind === 'half-blind-dovetail'
          ? [set('make a template for each board', key('method'), 'apart')]
          : []),
      ];
    case 'layout-disagrees': {
      const { leaveBlank, widths } = one.data as { leaveBlank: string; widths: readonly number[] };
      return [leaveOut(`leave out ${leaveBlank}`, key('layout', leaveBlank)), ...boards(widths)];
    }
    case 'pitch-leaves-pin':
      return [
        leaveOut('leave out end-pin', key('layout', 'end-pin')),
        ...boards((one.data as { widths: readonly number[] }).widths),
      ];
    case 'pin-over-pitch': {
      const { pin, leastTail } = one.data as { pin: number; leastTail: number };
      return [
        set(
          `a pitch of ${say.length(pin + leastTail)}`,
          key('layout', 'pitch'),
          length(pin + leastTail, 'up'),
        ),
      ];
    }
    case 'pitch-suits-ill':
    case 'finger-not-as-wanted':
      return boards((one.data as { widths: readonly number[] }).widths);
    case 'spans-sum':
      return sumCures(one.data as { sum: number; absorb?: { from: number; to: number } }, bench);
    case 'groove-outside-tails':
    case 'groove-across-fingers': {
      const { from, shift, endPin } = one.data as { from: number; shift?: number; endPin?: number };
      return [
        ...(shift === undefined
          ? []
          : [
              set(
                `move the groove to ${say.length(from + shift)}`,
                key('layout', 'groove', 'from'),
                length(from + shift),
              ),
            ]),
        ...(endPin === undefined
          ? []
          : [set(`half-pins of ${say.length(endPin)}`, key('layout', 'end-pin'), length(endPin))]),
      ];
    }
    case 'groove-off-board':
      return [leaveOut('take the groove out', key('layout', 'groove'))];
    default:
      return [];
  }
}

function boardCure(width: number, { key, length, say }: Bench): Cure {
  return set(`a board ${say.length(width)} wide`, key('width'), length(width));
}

/** The keys of `layout:` that set the width of a part. */
const widthFields: Readonly<Record<string, string>> = { pin: 'pin', 'half-pin': 'end-pin', finger: 'finger' };

function layoutCure(cure: LayoutCure, bench: Bench): readonly Cure[] {
  const { key, length, say } = bench;
  switch (cure.do) {
    case 'fewer': {
      const one = cure.count === 1 ? cure.what.replace(/s$/, '') : cure.what;
      const count: Edit =
        cure.what === 'tails'
          ? { set: key('layout', 'tails'), to: String(cure.count) }
          : { set: key('layout', 'fingers'), to: String(cure.count) };
      // A wanted finger would settle the number again.
      const freed = cure.what === 'tails' ? [] : ['finger', 'pitch'].map((other) => key('layout', other));
      return [
        {
          label: `${cure.count} ${one}`,
          edits: [
            ...freed.filter((path) => bench.model.document.hasIn(path)).map((remove) => ({ remove })),
            count,
          ],
        },
      ];
    }
    case 'widen':
    case 'narrow': {
      const toward = cure.do === 'widen' ? 'up' : 'down';
      const listed = listedCure(cure.to, bench);
      if (listed) return [listed];
      const field = widthFields[cure.what];
      return field === undefined
        ? []
        : [set(`a ${cure.what} of ${say.length(cure.to)}`, key('layout', field), length(cure.to, toward))];
    }
    case 'board':
      return [set(`a board ${say.length(cure.width)} wide`, key('width'), length(cure.width, 'up'))];
    case 'gentler':
      return [set(`a ratio of ${cure.ratio}`, key('layout', 'ratio'), String(cure.ratio))];
    case 'tools':
      return [];
  }
}

/** In a list a span is widened at the cost of its neighbours, so that the sum stays. */
function listedCure(to: number, bench: Bench): Cure | undefined {
  const { at, joint, model, say } = bench;
  const index = at.at(-2) === 'spans' ? Number(at.at(-1)) : Number.NaN;
  const spans = joint?.layout.spans;
  if (!joint || !spans || Number.isNaN(index) || joint.layout.spacing !== 'list') return undefined;
  const free = spans.map(() => ({ width: 0, because: '' }));
  const sized = resizeSpan(spans, free, index, to, false);
  if (!sized.ok) return undefined;
  const edits = listEdits(joint, sized.widths, model.reading.units, (path) => model.document.hasIn(path));
  return { label: `make it ${say.length(to)} wide`, edits };
}

function sumCures(
  { sum, absorb }: { sum: number; absorb?: { from: number; to: number } },
  bench: Bench,
): readonly Cure[] {
  const { joint, key, length, say } = bench;
  const index = absorb ? (joint?.layout.spans ?? []).indexOf(absorb.from) : -1;
  return [
    ...(absorb && index >= 0
      ? [set(`make it ${say.length(absorb.to)}`, key('layout', 'spans', String(index)), length(absorb.to))]
      : []),
    boardCure(sum, bench),
  ];
}

// What one kind of joint asks

function jointCures(one: Finding, { at, joint, key, length, say }: Bench): readonly Cure[] {
  const apart = set('make a template for each board', key('method'), 'apart');
  switch (one.code) {
    case 'square-tails-together':
      return [apart, set('round the tails', key('tails-inside'), 'rounded')];
    case 'square-tails-thin-side':
      return [set('round the tails', key('tails-inside'), 'rounded')];
    case 'pitch-under-bit': {
      const { next, deeper } = one.data as { next?: number; deeper?: number };
      return [
        ...(next === undefined
          ? []
          : [set(`a pitch of ${say.length(next)}`, key('layout', 'pitch'), length(next, 'up'))]),
        ...(deeper === undefined
          ? []
          : [set(`a depth of ${say.length(deeper)}`, key('depth'), length(deeper, 'up'))]),
      ];
    }
    case 'tails-over-bushing':
    case 'pitch-none-for-board': {
      const { board } = one.data as { board?: number };
      return board === undefined
        ? []
        : [
            set(
              `a board ${say.length(board)} wide`,
              key('width'),
              length(board, board > (joint?.width ?? 0) ? 'up' : 'down'),
            ),
          ];
    }
    case 'pitch-over-thickness':
    case 'pitch-none-for-side': {
      const { thicker } = one.data as { thicker?: number };
      const path = key('boards', 'tails', 'thickness');
      return thicker === undefined
        ? []
        : [set(`a side ${say.length(thicker)} thick`, path, length(thicker, 'up'))];
    }
    case 'square-would-do':
      return [set('make the tails square', key('tails-inside'), 'square')];
    case 'apart-would-do':
      return [apart];
    case 'blank-would-do': {
      const { keys } = one.data as { keys: readonly { key: string; value?: number }[] };
      return keys.map(({ key: name, value }) =>
        value === undefined
          ? leaveOut(`leave out ${name.split('.').at(-1)}`, key(...name.split('.')))
          : set(`${value} ${name.split('.').at(-1)}`, key(...name.split('.')), String(value)),
      );
    }
    case 'lap-thin': {
      const { greatest } = one.data as { greatest: number };
      return [set(`sockets ${say.length(greatest)} deep`, key('depth'), length(greatest, 'down'))];
    }
    case 'rabbet-shallow': {
      const { rabbet, depth } = one.data as { rabbet: number; depth: number };
      return [
        set(`a rabbet ${say.length(depth)} deep`, key('lip', 'rabbet'), length(depth, 'up')),
        set(`sockets ${say.length(rabbet)} deep`, key('depth'), length(rabbet, 'down')),
      ];
    }
    case 'every-second-would-do':
      return [set('carry every second slot', key('template', 'slots'), 'every-second')];
    case 'every-second-needless':
    case 'every-second-uneven':
    case 'every-second-not-here':
      return [leaveOut('carry every slot', key('template', 'slots'))];
    case 'one-plate-over-sheet':
    case 'one-plate-no-pair':
      return [leaveOut('a plate for each board', key('template', 'plate'))];
    case 'spine-thin':
    case 'label-no-room':
      return [leaveOut(`leave ${at.at(-1)} to halfpin`, at)];
    default:
      return [];
  }
}
