import { type Diagnostic, diagnostic } from '../diagnostics/diagnostic.js';
import type { Unmade } from '../diagnostics/wording/asked.js';
import type { Job } from '../input/types.js';
import type { JointFamily } from '../joints/family.js';
import { type Format, formats, isMachineFormat } from '../writers/list.js';

/** What `make` can be asked for: products, formats, and which product there is in which format. */

export { formats };

export const products = ['finger', 'carrier', 'marker', 'pattern', 'sheet', 'nest'] as const;
export type Product = (typeof products)[number];

/** What is drawn when nothing is asked for: plates laid on sheets want to be asked for. */
export const defaultProducts: readonly Product[] = ['finger', 'carrier', 'marker', 'pattern', 'sheet'];

/** Formats that are written when none is asked for; programs and solids want to be asked for. */
export const defaultFormats: readonly Format[] = ['svg', 'dxf', 'pdf'];

/** The formats that there can be of each product; a sheet for a browser goes with SVG. */
const formatsOf: Readonly<Record<Product, readonly Format[]>> = {
  finger: formats,
  carrier: formats,
  marker: ['svg', 'dxf', 'pdf', '3mf', 'stl'],
  pattern: ['svg', 'dxf', 'pdf'],
  sheet: ['svg', 'pdf'],
  nest: ['svg', 'dxf', 'pdf', 'gcode'],
};

/** Products and formats as they were asked for; what is left out is the usual ones. */
export interface Asked {
  readonly only?: readonly Product[];
  readonly as?: readonly Format[];
}

/** What is asked of a job. */
export interface Ask extends Asked {
  /** The one joint that is wanted; all of them when left out. */
  readonly joint?: string;
  /** The families that the job was read with, where it was read with others than halfpin's. */
  readonly known?: readonly JointFamily[];
}

/** Options that name what there is not. */
export function unknownAsked(job: Job, { only = [], as = [], joint }: Ask): readonly Diagnostic[] {
  const names = job.joints.map(({ name }) => name);
  const odd = (key: 'only' | 'as' | 'joint', asked: readonly string[], works: readonly string[]) =>
    asked
      .filter((one) => !works.includes(one))
      .map((read) => diagnostic('ask-unknown', 'refused', '', { key, read, works }));
  return [
    ...odd('only', only, products),
    ...odd('as', as, formats),
    ...odd('joint', joint === undefined ? [] : [joint], names),
  ];
}

/** Whether there is a file of a product in a format. */
type Gives = (product: Product, format: Format) => boolean;

/**
 * Products asked for of which no format gives a file, and formats asked for that no product gives a file in. Where
 * several are asked for, a format is for the products that have it.
 */
function unmade({ only, as }: Asked, gives: Gives): readonly Unmade[] {
  const [wanted, written] = [only ?? defaultProducts, as ?? defaultFormats];
  const lacking = (only ?? []).filter((product) => !written.some((format) => gives(product, format)));
  // Where no product is made, their formats have been answered for.
  const odd = lacking.length === wanted.length ? [] : (as ?? []);
  return [
    ...lacking.map((product) => ({
      what: 'product' as const,
      asked: product,
      beside: written,
      works: formats.filter((format) => gives(product, format)),
    })),
    ...odd
      .filter((format) => !wanted.some((product) => gives(product, format)))
      .map((format) => ({
        what: 'format' as const,
        asked: format,
        beside: wanted,
        works: products.filter((product) => gives(product, format)),
      })),
  ];
}

/** What is asked for in vain, whatever the job: a marker as a program, a pattern as a solid. */
export function neverMade(asked: Asked): readonly Unmade[] {
  return unmade(asked, (product, format) => formatsOf[product].includes(format));
}

/** One joint that can be made, as far as it tells what there is of it. */
export interface JointGives {
  readonly name: string;
  readonly has: (product: Product) => boolean;
  /** A folded marker is of card, not printed. */
  readonly markerHooks: boolean;
}

/**
 * What is asked for and not made: refused where no joint gives a file of it, a caution for a joint that gives none
 * where others do.
 */
export function askedDiagnostics(joints: readonly JointGives[], asked: Asked): readonly Diagnostic[] {
  const [first] = joints;
  if (first === undefined) return [];
  const givesOf =
    ({ has, markerHooks }: JointGives): Gives =>
    (product, format) =>
      formatsOf[product].includes(format) &&
      (product !== 'marker' || markerHooks || !isMachineFormat(format)) &&
      has(product);
  const said = (one: Unmade, joint: JointGives, level: Diagnostic['level']) =>
    diagnostic('asked-unmade', level, `joints.${joint.name}`, { ...one, why: reasonOf(one, joint) });
  const nowhere = unmade(asked, (product, format) => joints.some((joint) => givesOf(joint)(product, format)));
  const isNowhere = (one: Unmade) => nowhere.some((other) => other.asked === one.asked);
  return [
    ...nowhere.map((one) => said(one, first, 'refused')),
    ...joints.flatMap((joint) =>
      unmade(asked, givesOf(joint))
        .filter((one) => !isNowhere(one))
        .map((one) => said(one, joint, 'caution')),
    ),
  ];
}

/** What about the joint keeps it from being made. */
function reasonOf({ what, asked, beside }: Unmade, { has, markerHooks }: JointGives) {
  const wanted = what === 'product' ? [asked] : beside;
  const byHand = !has('finger');
  if (byHand && wanted.some((one) => one === 'finger' || one === 'carrier' || one === 'nest'))
    return 'by-hand';
  if (wanted.includes('carrier') && !has('carrier')) return 'no-holes';
  if (!wanted.includes('marker')) return undefined;
  if (!has('marker')) return 'no-marker';
  return markerHooks ? undefined : 'folded';
}
