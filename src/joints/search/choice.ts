import { type Diagnostic, diagnostic, hasErrors, ok, type Result } from '../../diagnostics/diagnostic.js';
import type { Joint, Shop } from '../../input/types.js';
import { hasFreeCount } from '../../layout/tails/choices.js';
import type { Cut, JointFamily, SolvedJoint } from '../family.js';
import { narrowestFinger } from '../measure.js';
import { EASY_FINGER } from '../nose.js';
import { withOffers } from './offers.js';

/**
 * How the blank fields of a joint are chosen, whatever its kind. The family's own first choice is taken where
 * nothing speaks against it: neither its bounds and tools nor the plate. Else the family's other ways to fill in
 * the blanks are tried in their order, and the first that raises no caution is taken, or the one that raises
 * fewest. What the maker has given is never changed. Only where none can be cut is the joint refused; then every
 * way out that is offered has been tried in the same way.
 */

/** What speaks against a solved joint beyond its family's own diagnostics, such as its plates. */
export type Judge<J extends Joint> = (solved: SolvedJoint, joint: J, shop: Shop) => readonly Diagnostic[];

/** The joint solved with its blanks filled in, or the reason why it can't be and what was found to cure it. */
export function solveChosen<J extends Joint>(
  family: JointFamily<J>,
  joint: J,
  shop: Shop,
  judge: Judge<J> = judgeFingers,
): Result<SolvedJoint> {
  const { solved, canBeCut } = choose({ family, shop, judge }, joint);
  // A family without choices says itself what would cure it.
  if (canBeCut || !family.choices) return solved;
  const attempt = (changed: J, plate = shop.plate) => {
    const tried = choose({ family, shop: { ...alone(shop), plate }, judge, any: true }, changed);
    return tried.canBeCut && tried.solved.ok ? tried.solved.value : undefined;
  };
  return withOffers(joint, shop, solved, family, attempt);
}

/** As `solveChosen`, but nothing is looked for that would cure a refusal. */
export function solveWithoutOffers<J extends Joint>(
  family: JointFamily<J>,
  joint: J,
  shop: Shop,
): Result<SolvedJoint> {
  return choose({ family, shop, judge: judgeFingers }, joint).solved;
}

interface Chosen {
  readonly solved: Result<SolvedJoint>;
  /** Neither the family nor the judge refuses. */
  readonly canBeCut: boolean;
}

function choose<J extends Joint>(search: Search<J>, joint: J): Chosen {
  const { family, shop } = search;
  const own = family.solve(joint, shop);
  const trouble = problemOf(search, joint, own);
  if (trouble <= goodEnough(search)) return { solved: own, canBeCut: true };
  const other = bestOf({ ...search, shop: alone(shop) }, joint, trouble);
  const solved = other ? family.solve(other, shop) : own;
  if (!solved.ok) return { solved, canBeCut: false };
  const filled = other
    ? [diagnostic('layout-fitted', 'ok', `joints.${joint.name}.layout`, whatDiffers(joint, other))]
    : [];
  const diagnostics = unblamed([...solved.diagnostics, ...filled], family, joint);
  return {
    solved: ok(solved.value, diagnostics),
    canBeCut: other !== undefined || Number.isFinite(trouble),
  };
}

interface Search<J extends Joint> {
  readonly family: JointFamily<J>;
  readonly shop: Shop;
  readonly judge: Judge<J>;
  /** Set where it is only asked whether the joint can be cut, not how it is best. */
  readonly any?: true;
}

/** Nothing better is looked for once a choice raises no more cautions than this. */
function goodEnough<J extends Joint>({ any }: Search<J>): number {
  return any ? MAX_CAUTIONS : 0;
}

/** More cautions than a joint can have. */
const MAX_CAUTIONS = Number.MAX_SAFE_INTEGER;

/** So many ways are tried at most, and so many looked at once one of them can be cut. */
const MAX_TRIED = 400;
const MAX_CUT = 12;

/** Cautions about what was chosen, where another choice may raise none. */
const OF_CHOICE: ReadonlySet<string> = new Set([
  'finger-thin',
  'half-pin-slight',
  'tail-under-pin',
  'pitch-suits-ill',
  'seam-in-root',
  'bushing-room',
]);

/** Cautions that another depth may do without. */
const OF_DEPTH: ReadonlySet<string> = new Set(['lap-thin', 'cutter-in-bore']);

/** How many cautions another choice may do without; infinite where the joint can't be cut. */
function problemOf<J extends Joint>(
  { family, judge, shop }: Search<J>,
  joint: J,
  solved: Result<SolvedJoint>,
): number {
  const diagnostics = solved.ok ? [...solved.diagnostics, ...judge(solved.value, joint, shop)] : [];
  if (!solved.ok || hasErrors(diagnostics)) return Number.POSITIVE_INFINITY;
  const counts = (code: string) => OF_CHOICE.has(code) || (family.choosesDepth && OF_DEPTH.has(code));
  return diagnostics.filter(({ level, code }) => level === 'caution' && counts(code)).length;
}

/** The first way to fill in the blanks that raises fewest cautions, fewer than `limit`. */
function bestOf<J extends Joint>(search: Search<J>, joint: J, limit: number): J | undefined {
  const { family, shop } = search;
  let best: J | undefined;
  let least = limit;
  let tried = 0;
  let cut = 0;
  const seen = new Set<string>();
  for (const candidate of family.choices?.(joint, shop) ?? []) {
    const same = JSON.stringify([candidate.layout, depthIn(candidate)]);
    if (seen.has(same)) continue;
    seen.add(same);
    const trouble = problemOf(search, candidate, family.solve(candidate, shop));
    if (trouble < least) [best, least] = [candidate, trouble];
    tried += 1;
    if (Number.isFinite(trouble)) cut += 1;
    if (least <= goodEnough(search) || tried >= MAX_TRIED || cut >= MAX_CUT) break;
  }
  return best;
}

/** Diagnostics in which a caution about what halfpin chose itself is no more than a remark: no other choice raises less. */
export function unblamed<J extends Joint>(
  diagnostics: readonly Diagnostic[],
  family: JointFamily<J>,
  joint: J,
): readonly Diagnostic[] {
  if (!family.choices) return diagnostics;
  const free = new Set<string>([
    ...(hasFreeCount(joint.layout)
      ? ['finger-thin', 'tail-under-pin', 'half-pin-slight', 'bushing-room']
      : []),
    ...(joint.layout.pitch === undefined ? ['pitch-suits-ill'] : []),
    ...(family.choosesDepth && depthIn(joint) === undefined ? ['lap-thin'] : []),
  ]);
  return diagnostics.map((one) =>
    one.level === 'caution' && free.has(one.code) ? { ...one, level: 'ok' } : one,
  );
}

function depthIn(joint: Joint): number | undefined {
  return 'depth' in joint && typeof joint.depth === 'number' ? joint.depth : undefined;
}

function whatDiffers<J extends Joint>(joint: J, chosen: J) {
  const { tails, fingers, pitch, pin } = chosen.layout;
  const depth = depthIn(joint) === undefined ? depthIn(chosen) : undefined;
  return {
    ...(joint.layout.tails === undefined && tails !== undefined && { tails }),
    ...(joint.layout.fingers === undefined && fingers !== undefined && { fingers }),
    ...(joint.layout.pitch === undefined && pitch !== undefined && { pitch }),
    ...(joint.layout.pin === undefined && pin !== undefined && { pin }),
    ...(depth !== undefined && { depth }),
  };
}

/** The shop without its tools: a refusal does not have to name what else would do. */
function alone(shop: Shop): Shop {
  return { ...shop, bits: {}, bushings: {} };
}

// The plate's fingers

/** The shop with a plate whose fingers are wide enough not to be spoken of. */
export function withMargin(shop: Shop): Shop {
  return { ...shop, plate: { ...shop.plate, leastFinger: EASY_FINGER * shop.plate.leastFinger } };
}

/** The fingers of every template as the plate will judge them when it is drawn (template/plate.ts). */
export function judgeFingers(solved: SolvedJoint, joint: Joint, shop: Shop): readonly Diagnostic[] {
  return solved.cuts.flatMap((cut) => thinFinger(cut, joint, shop));
}

function thinFinger(cut: Cut, joint: Joint, shop: Shop): readonly Diagnostic[] {
  const narrowest = narrowestFinger(cut);
  const least = shop.plate.leastFinger;
  if (!narrowest || narrowest.width >= EASY_FINGER * least) return [];
  const level = narrowest.width < least - 1e-6 ? 'refused' : 'caution';
  const template = `finger-template-${cut.board}`;
  return [
    diagnostic('finger-thin', level, `joints.${joint.name}.bushing`, {
      template,
      least,
      tapers: cut.tapers ?? false,
      ...narrowest,
    }),
  ];
}
