import { type Diagnostic, diagnostic, err, ok, type Result } from '../../diagnostics/diagnostic.js';
import type { LayoutFix, LayoutPart } from '../../diagnostics/wording/layout-fixes.js';
import type { Joint, LayoutRequest, PlateStock, Shop } from '../../input/types.js';
import { isListed } from '../../layout/request.js';
import type { JointFamily, SolvedJoint } from '../family.js';

/** What would cure a refused joint. Every change that is offered has been made, and the joint chosen anew with it. */

/** The joint with its blanks filled in, or undefined where it can't be cut; with another plate where one is given. */
export type Try<J extends Joint> = (joint: J, plate?: PlateStock) => SolvedJoint | undefined;

/** The refusal with the one bound that stands in the way, and after it what was tried and cures it. */
export function withOffers<J extends Joint>(
  joint: J,
  shop: Shop,
  own: Result<SolvedJoint>,
  family: JointFamily<J>,
  attempt: Try<J>,
): Result<SolvedJoint> {
  const tools = toolsThatDo(family, joint, shop, attempt);
  // The refusal itself names none but tools that were found to do.
  const proven: Shop = {
    ...shop,
    bits: onlyNamed(shop.bits, tools.bits),
    bushings: onlyNamed(shop.bushings, tools.bushings),
  };
  const again = own.ok ? own : (family.refusal?.(joint, proven) ?? family.solve(joint, proven));
  // Reasons of a choice that does not hold are nobody's help.
  const said = again.ok ? again.diagnostics : again.diagnostics.filter(({ level }) => level !== 'ok');
  const diagnostics = [
    ...said.map((one) => proved(one, joint, shop, family, attempt)),
    ...(tools.bits.length + tools.bushings.length > 0
      ? [diagnostic('other-tools-would-do', 'ok', `joints.${joint.name}.bushing`, tools)]
      : []),
    ...[...(family.others?.(joint) ?? [])].flatMap((other) => {
      const solved = attempt(other.joint);
      return solved ? [other.fmt(solved)] : [];
    }),
    ...withoutOne(joint, attempt),
  ];
  return again.ok ? ok(again.value, diagnostics) : err(diagnostics);
}

/** Names of the shop's other bits and bushings with which the joint can be cut, in the order of the shop file. */
function toolsThatDo<J extends Joint>(
  family: JointFamily<J>,
  joint: J,
  shop: Shop,
  attempt: Try<J>,
): { readonly bits: readonly string[]; readonly bushings: readonly string[] } {
  const slots = family.bitSlots?.(joint) ?? [];
  if (slots.length === 0) return { bits: [], bushings: [] };
  const bits = Object.values(shop.bits).filter((bit) =>
    slots.some((slot) => slot.kind === bit.kind && slot.bit !== bit && attempt(slot.put(joint, bit))),
  );
  const bushings = Object.values(shop.bushings).filter(
    (bushing) => bushing !== joint.bushing && attempt({ ...joint, bushing }),
  );
  return { bits: bits.map(({ name }) => name), bushings: bushings.map(({ name }) => name) };
}

/** Which one of the fields that are given, left blank, lets the joint be cut; a number with what it becomes. */
function withoutOne<J extends Joint>(joint: J, attempt: Try<J>): readonly Diagnostic[] {
  const { layout } = joint;
  // The numbers of a joint that lines up with another one are the other's.
  if (isListed(layout) || joint.align !== undefined) return [];
  const keys = FIELDS.flatMap(([field, key]) => {
    if (layout[field] === undefined) return [];
    const { [field]: _, ...rest } = layout;
    const solved = attempt({ ...joint, layout: rest });
    if (!solved) return [];
    const { spans } = solved.layout;
    if (field === 'tails') {
      return [{ key: `layout.${key}`, value: spans.filter(({ part }) => part === 'tail').length }];
    }
    return [{ key: `layout.${key}`, ...(field === 'fingers' && { value: spans.length }) }];
  });
  return keys.length === 0 ? [] : [diagnostic('blank-would-do', 'ok', `joints.${joint.name}`, { keys })];
}

/** Fields of a layout that may be left blank, with their keys in the job file. */
const FIELDS = [
  ['tails', 'tails'],
  ['fingers', 'fingers'],
  ['finger', 'finger'],
  ['pitch', 'pitch'],
  ['pin', 'pin'],
  ['endPin', 'end-pin'],
  ['leastPin', 'least-pin'],
] as const satisfies readonly (readonly [keyof LayoutRequest, string])[];

// Cures that stand in a refusal's own data

/** The diagnostic without those of its cures that were tried and don't cure the joint. */
function proved<J extends Joint>(
  one: Diagnostic,
  joint: J,
  shop: Shop,
  { thickened }: JointFamily<J>,
  attempt: Try<J>,
): Diagnostic {
  const plated = (thickness: number) => attempt(joint, { ...shop.plate, thickness });
  const sided = (thickness: number) => thickened && attempt(thickened(joint, thickness));
  const wide = (width: number) => attempt({ ...joint, width });
  const held = (cures: readonly LayoutFix[]) => cures.filter((cure) => fixHolds(cure, joint, attempt));
  switch (one.code) {
    case 'cutter-in-bore': {
      const { thicker, ...rest } = one.data;
      return sizeHolds(thicker, plated) ? one : { ...one, data: rest };
    }
    case 'barrel-long': {
      const { thicker, ...rest } = one.data;
      return sizeHolds(thicker, plated) ? one : { ...one, data: rest };
    }
    case 'pitch-over-thickness': {
      const { thicker, ...rest } = one.data;
      return sizeHolds(thicker, sided) ? one : { ...one, data: rest };
    }
    case 'pitch-none-for-side': {
      const { thicker, ...rest } = one.data;
      return sizeHolds(thicker, sided) ? one : { ...one, data: rest };
    }
    case 'tails-over-bushing': {
      const { board, ...rest } = one.data;
      return sizeHolds(board, wide) ? one : { ...one, data: rest };
    }
    case 'pitch-none-for-board': {
      const { board, ...rest } = one.data;
      return sizeHolds(board, wide) ? one : { ...one, data: rest };
    }
    case 'pitch-under-bit': {
      const { next, deeper, ...rest } = one.data;
      const data = {
        ...rest,
        ...(next !== undefined && attempt(withLayout(joint, { pitch: next })) && { next }),
        ...(deeper !== undefined && attempt({ ...joint, depth: deeper }) && { deeper }),
      };
      return { ...one, data };
    }
    case 'span-narrow':
      return { ...one, data: { ...one.data, cures: held(one.data.cures) } };
    case 'tails-no-room':
      return { ...one, data: { ...one.data, cures: held(one.data.cures) } };
    default:
      return one;
  }
}

/** Whether a size that a diagnostic names cures the joint; true where it names none. */
function sizeHolds(size: number | undefined, cures: (size: number) => unknown): boolean {
  return size === undefined || Boolean(cures(size));
}

function fixHolds<J extends Joint>(cure: LayoutFix, joint: J, attempt: Try<J>): boolean {
  switch (cure.do) {
    case 'board':
      return attempt({ ...joint, width: cure.width }) !== undefined;
    case 'fewer':
      return attempt(withCount(joint, cure.what === 'tails' ? 'tails' : 'fingers', cure.count)) !== undefined;
    case 'widen':
    case 'narrow': {
      const field = FIELD_OF[cure.what];
      if (!field || isListed(joint.layout)) return true;
      return attempt(withLayout(joint, { [field]: cure.to })) !== undefined;
    }
    case 'gentler':
      return attempt(withLayout(joint, { ratio: cure.ratio })) !== undefined;
    case 'tools':
      return true;
  }
}

/** The fields that set the width of a part. */
const FIELD_OF: Readonly<Partial<Record<LayoutPart, keyof LayoutRequest>>> = {
  pin: 'pin',
  'half-pin': 'endPin',
  finger: 'finger',
};

/** A number of fingers takes the place of a wanted finger. */
function withCount<J extends Joint>(joint: J, field: 'tails' | 'fingers', count: number): J {
  if (field === 'tails') return withLayout(joint, { tails: count });
  const { finger: _, pitch: __, ...layout } = joint.layout;
  return { ...joint, layout: { ...layout, fingers: count } };
}

function withLayout<J extends Joint>(joint: J, fields: Partial<LayoutRequest>): J {
  return { ...joint, layout: { ...joint.layout, ...fields } };
}

function onlyNamed<T>(
  all: Readonly<Record<string, T>>,
  names: readonly string[],
): Readonly<Record<string, T>> {
  return Object.fromEntries(Object.entries(all).filter(([name]) => names.includes(name)));
}
