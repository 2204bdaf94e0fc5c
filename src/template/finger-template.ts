import { type Diagnostic, diagnostic, err, hasErrors, ok, type Result } from '../diagnostics/diagnostic.js';
import type { Formatter } from '../diagnostics/formatter.js';
import { movedItem } from '../drawing/drawing.js';
import { missingLetters } from '../drawing/lettering/lettering.js';
import type { Drawing, Item } from '../drawing/model.js';
import type { Outline } from '../geometry/types.js';
import type { Bit, Joint, Shop } from '../input/types.js';
import { usesBothStops } from '../joints/boards.js';
import type { Cut, SolvedJoint } from '../joints/family.js';
import { bitExtension } from '../joints/tools.js';
import { carried } from './carrier/carrier.js';
import { screwsNote } from './carrier/screws.js';
import type { Carrier } from './carrier/types.js';
import { type Holes, holeDiagnostics, holesOf, type Mill } from './holes.js';
import { keepClearOf } from './keep-clear.js';
import { labelMarks, markItems, unsaid } from './marks.js';
import { buildOnePlate, turnedShape } from './one-plate.js';
import { buildPlate, type HalfTurn, leastSpine, mirroredCut, type Plate } from './plate.js';
import { bedOf, seamsOf } from './seams.js';
import { type PlatePart, partsOf, withIndexHoles } from './split.js';

/** One finger template as a drawing, with the plate that it shows. */
export interface FingerTemplate {
  readonly plate: Plate;
  readonly drawing: Drawing;
  /** What is cut in its place where the plate is longer than the bed. */
  readonly parts?: readonly PlatePart[];
  /** What carries it and holds the boards under it; absent where the plate has no screw holes. */
  readonly carrier?: Carrier;
}

/** The drawings that a template is written as: itself, or its parts. */
export function writtenAs({
  plate,
  drawing,
  parts,
}: FingerTemplate): readonly { readonly name: string; readonly drawing: Drawing }[] {
  return parts ?? [{ name: plate.name, drawing }];
}

/** What the label says besides the plate itself. */
export interface TemplateContext {
  readonly jobTitle: string;
  readonly joint: Joint;
  readonly shop: Shop;
  readonly fmt: Formatter;
  /** What mills the plates; absent where a laser cuts them, or nobody knows. */
  readonly mill?: Mill;
  /** What the plate's file holds, for its label and its metadata: nominal outlines, or the path of what cuts it. */
  readonly holds: { readonly label: string; readonly note: string };
}

/**
 * Every finger template of a joint: one for each cut, or one for both where `plate: one` is asked for, and the
 * mirror image of a plate where the second end of a board needs it and the layout is not its own mirror image.
 */
export function fingerTemplates(
  solved: SolvedJoint,
  context: TemplateContext,
): Result<readonly FingerTemplate[]> {
  const holes = holesOf(context.joint, context.mill);
  const before = [...spineDiagnostics(context.joint, holes), ...holeDiagnostics(context.joint, context.mill)];
  if (hasErrors(before)) return err(before);
  const asked = platesOf(solved, context);
  const results = asked.plates.flatMap((cuts) => [
    fingerTemplate(cuts, solved, context, false),
    ...(cuts.some((cut) => cut.mirroredForSecondEnd) ? [fingerTemplate(cuts, solved, context, true)] : []),
  ]);
  const diagnostics = [...before, ...asked.diagnostics, ...results.flatMap((one) => one.diagnostics)];
  const templates = results.flatMap((one) => (one.ok ? [one.value] : []));
  return templates.length === results.length ? ok(templates, diagnostics) : { ok: false, diagnostics };
}

function spineDiagnostics({ name, template }: Joint, holes: Holes): readonly Diagnostic[] {
  const { spine } = template;
  const least = leastSpine(template, holes);
  if (spine === undefined || spine >= least - 1e-6) return [];
  return [diagnostic('spine-thin', 'refused', `joints.${name}.template.spine`, { spine, least })];
}

/** The cuts made under one plate. */
type CutsOfPlate = readonly [Cut] | readonly [Cut, Cut];

function platesOf(
  { cuts }: SolvedJoint,
  { joint }: TemplateContext,
): { readonly plates: readonly CutsOfPlate[]; readonly diagnostics: readonly Diagnostic[] } {
  const [first, second, ...more] = cuts;
  const wanted = joint.template.plate === 'one';
  if (wanted && first && second && more.length === 0) return { plates: [[first, second]], diagnostics: [] };
  const at = `joints.${joint.name}.template.plate`;
  return {
    plates: cuts.map((cut) => [cut] as const),
    diagnostics: wanted ? [diagnostic('one-plate-no-pair', 'caution', at, { cuts: cuts.length })] : [],
  };
}

function fingerTemplate(
  cuts: CutsOfPlate,
  solved: SolvedJoint,
  context: TemplateContext,
  mirrored: boolean,
): Result<FingerTemplate> {
  const { joint, shop } = context;
  const at = `joints.${joint.name}`;
  const turn = (cut: Cut): Cut => (mirrored ? mirroredCut(cut, solved.width) : cut);
  const bothStops = solved.symmetric && usesBothStops(solved);
  const holes = holesOf(joint, context.mill);
  const edges = { mirrored, bothStops };
  const shared = { width: solved.width, options: joint.template, holes, stock: shop.plate, at, ...edges };
  const [first, second] = cuts;
  const built = second
    ? buildOnePlate([turn(first), turn(second)], shared)
    : buildPlate({ ...shared, cut: turn(first) });
  if (!built.ok) return built;
  const bed = bedOf(shop);
  const { plate: whole, carrier } = carried(built.value, mirrored, {
    solved,
    hole: holes.screw,
    thickness: shop.plate.thickness,
    ...(context.mill && { mill: context.mill.cutter }),
    ...(bed && { longest: Math.max(bed.width, bed.height) }),
    marks: (side) => markItems(side, labelOf(side.cut, context, false)),
  });
  const labels = whole.sides.map((side) => ({ side, label: labelOf(side.cut, context, mirrored) }));
  const marksOf = (items: (one: (typeof labels)[number]) => readonly Item[]): readonly Item[] =>
    labels.flatMap((one) => {
      const { turned } = one.side;
      return items(one).map((item) => (turned ? turnedItem(item, turned) : item));
    });
  // What seams keep clear of: asked for only where there is a bed that a plate may be too long for.
  const marks = bed ? marksOf(({ side }) => markItems(side, [])) : [];
  const { seams, diagnostics: parted } = bed
    ? seamsOf(whole, marks, bed, shop.plate.keyClearance)
    : { seams: [], diagnostics: [] };
  if (hasErrors(parted)) return err([...built.diagnostics, ...parted]);
  const plate = withIndexHoles(whole, seams);
  const drawing: Drawing = {
    title: `${context.jobTitle}: ${joint.name}, ${plate.name.replaceAll('-', ' ')}`,
    notes: [
      ...new Set(plate.sides.flatMap(({ cut }) => notesOf(cut, context))),
      ...(carrier ? [screwsNote(carrier.screws, context.fmt)] : []),
      ...CAUTIONS,
    ],
    items: [...outlines(plate), ...marksOf(({ side, label }) => markItems(side, label))],
    keepClear: keepClearOf(plate),
  };
  const parts =
    seams.length === 0
      ? []
      : partsOf(plate, seams, drawing, marks, (part, room) =>
          marksOf(({ side, label }) => {
            const across = side.turned
              ? { from: side.turned.x - room.to, to: side.turned.x - room.from }
              : room;
            return labelMarks(side, partLabel(label, part + 1, seams.length + 1), across);
          }),
        );
  const said = labels.flatMap(({ side, label }) => [
    ...letterDiagnostics(label, at),
    ...spaceDiagnostics(plate.name, unsaid(side, label), at),
  ]);
  return ok({ plate, drawing, ...(parts.length > 0 && { parts }), ...(carrier && { carrier }) }, [
    ...built.diagnostics,
    ...parted,
    ...said,
    ...(carrier?.lacking ?? []).map(({ name }) =>
      diagnostic('carrier-no-room', 'ok', at, { template: plate.name, part: name }),
    ),
  ]);
}

/** Which part it is stands before anything that may have no room. */
function partLabel([first = '', ...rest]: readonly string[], part: number, of: number): readonly string[] {
  return [`${first}, part ${part} of ${of}`, ...rest];
}

function outlines(plate: Plate): readonly Item[] {
  const on = (layer: 'CUT' | 'STOCK', all: readonly Outline[]): readonly Item[] =>
    all.map((outline) => ({ kind: 'closed', layer, outline }));
  return [
    ...on('CUT', [...plate.holes, plate.outline]),
    ...plate.sides.flatMap(({ cut, turned }) =>
      on(
        'STOCK',
        cut.stock.map(({ outline }) => (turned ? turnedShape(outline, turned) : outline)),
      ),
    ),
  ];
}

const turnedItem = (item: Item, turn: HalfTurn): Item =>
  movedItem(item, {
    line: (line) => turnedShape(line, turn),
    at: ({ x, y }) => ({ x: turn.x - x, y: turn.y - y }),
    turn: Math.PI,
  });

function labelOf(cut: Cut, context: TemplateContext, mirrored: boolean): readonly string[] {
  const { fmt, shop, joint } = context;
  return [
    `${context.jobTitle} — ${joint.name}: ${cutWords(cut.board)}${mirrored ? ', second end' : ''}`,
    `${bitWords(cut.bit, fmt)}, bushing ${fmt.length(cut.bushing.outside)}`,
    `bit extension ${fmt.length(bitExtension(shop, cut.depth))} with ${fmt.length(shop.plate.thickness)} plate`,
    context.holds.label,
  ];
}

/** What a plate cuts: `tails`, but `board one` and `both boards`. */
function cutWords(board: string): string {
  if (board === 'both') return 'both boards';
  return board === 'one' || board === 'two' ? `board ${board}` : board;
}

function bitWords(bit: Bit, fmt: Formatter): string {
  const size = `${bit.kind} bit ${fmt.length(bit.diameter)}`;
  return bit.kind === 'dovetail' ? `${size}, ${fmt.angle(bit.angle)}` : size;
}

function notesOf(cut: Cut, { shop, fmt, holds }: TemplateContext): readonly string[] {
  return [
    holds.note,
    `For ${bitWords(cut.bit, fmt)} in a bushing of ${fmt.length(cut.bushing.outside)} outside; bit extension ${fmt.length(bitExtension(shop, cut.depth))}.`,
  ];
}

const CAUTIONS = [
  'Measure the plate before its first use, and make a test cut in scrap of the same thickness.',
  'Set bit and bushing with the router unplugged; wear eye and ear protection; the makers’ manuals and local rules come first.',
];

function spaceDiagnostics(template: string, left: number, at: string): readonly Diagnostic[] {
  return left === 0
    ? []
    : [diagnostic('label-no-room', 'caution', `${at}.template.spine`, { template, left })];
}

function letterDiagnostics(label: readonly string[], at: string): readonly Diagnostic[] {
  return label.flatMap((text) => {
    const letters = missingLetters(text);
    return letters.length > 0
      ? [diagnostic('letters-missing', 'caution', at, { text, letters: letters.join(' ') })]
      : [];
  });
}
