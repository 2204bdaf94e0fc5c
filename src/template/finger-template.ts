import { missingLetters } from '../drawing/lettering.js';
import type { Drawing, Item } from '../drawing/model.js';
import { type Finding, finding, given, type Result } from '../findings/finding.js';
import type { Say } from '../findings/say.js';
import type { Outline } from '../geometry/types.js';
import type { Bit, Joint, Shop } from '../job/types.js';
import type { Cut, SolvedJoint } from '../joints/family.js';
import { bitExtension } from '../joints/tools.js';
import { markItems } from './marks.js';
import { buildPlate, mirroredCut, type Plate } from './plate.js';

/** One finger template as a drawing, with the plate that it shows. */
export interface FingerTemplate {
  readonly plate: Plate;
  readonly drawing: Drawing;
}

/** What the label says besides the plate itself. */
export interface TemplateContext {
  readonly jobTitle: string;
  readonly joint: Joint;
  readonly shop: Shop;
  readonly say: Say;
}

/**
 * Every finger template of a joint: one for each cut, and the mirror image of a plate where the second end
 * of a board needs it and the layout is not its own mirror image.
 */
export function fingerTemplates(
  solved: SolvedJoint,
  context: TemplateContext,
): Result<readonly FingerTemplate[]> {
  const results = solved.cuts.flatMap((cut) => [
    fingerTemplate(cut, solved, context, false),
    ...(cut.mirroredForSecondEnd
      ? [fingerTemplate(mirroredCut(cut, solved.width), solved, context, true)]
      : []),
  ]);
  const findings = results.flatMap((one) => one.findings);
  const templates = results.flatMap((one) => (one.ok ? [one.value] : []));
  return templates.length === results.length ? given(templates, findings) : { ok: false, findings };
}

function fingerTemplate(
  cut: Cut,
  solved: SolvedJoint,
  context: TemplateContext,
  mirrored: boolean,
): Result<FingerTemplate> {
  const { joint, shop } = context;
  const at = `joints.${joint.name}`;
  const built = buildPlate({
    cut,
    width: solved.width,
    options: joint.template,
    stock: shop.plate,
    at,
    mirrored,
  });
  if (!built.ok) return built;
  const label = labelOf(cut, context, mirrored);
  const drawing: Drawing = {
    title: `${context.jobTitle}: ${joint.name}, ${built.value.name.replaceAll('-', ' ')}`,
    notes: notesOf(cut, context),
    items: [...outlines(built.value), ...markItems(built.value, label)],
  };
  return given({ plate: built.value, drawing }, [...built.findings, ...letterFindings(label, at)]);
}

function outlines(plate: Plate): readonly Item[] {
  const on = (layer: 'CUT' | 'STOCK', all: readonly Outline[]): readonly Item[] =>
    all.map((outline) => ({ kind: 'closed', layer, outline }));
  return [
    ...on('CUT', [...plate.holes, plate.outline]),
    ...on(
      'STOCK',
      plate.cut.stock.map(({ outline }) => outline),
    ),
  ];
}

function labelOf(cut: Cut, context: TemplateContext, mirrored: boolean): readonly string[] {
  const { say, shop, joint } = context;
  return [
    `${context.jobTitle} — ${joint.name}: ${cut.board}${mirrored ? ', second end' : ''}`,
    `${bitWords(cut.bit, say)}, bushing ${say.length(cut.bushing.outside)}`,
    `bit extension ${say.length(bitExtension(shop, cut.depth))} with ${say.length(shop.plate.thickness)} plate`,
    'nominal outline: no kerf, no cutter',
  ];
}

function bitWords(bit: Bit, say: Say): string {
  const size = `${bit.kind} bit ${say.length(bit.diameter)}`;
  return bit.kind === 'dovetail' ? `${size}, ${say.angle(bit.angle)}` : size;
}

function notesOf(cut: Cut, { shop, say }: TemplateContext): readonly string[] {
  return [
    'Nominal outline in mm: the kerf or cutter that makes the plate is not compensated.',
    `For ${bitWords(cut.bit, say)} in a bushing of ${say.length(cut.bushing.outside)} outside; bit extension ${say.length(bitExtension(shop, cut.depth))}.`,
    'Measure the plate before its first use, and make a test cut in scrap of the same thickness.',
    'Set bit and bushing with the router unplugged; wear eye and ear protection; the makers’ manuals and local rules come first.',
  ];
}

function letterFindings(label: readonly string[], at: string): readonly Finding[] {
  return label.flatMap((text) => {
    const letters = missingLetters(text);
    return letters.length > 0
      ? [finding('letters-missing', 'caution', at, { text, letters: letters.join(' ') })]
      : [];
  });
}
