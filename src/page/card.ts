import type { KeyPath } from '../diagnostics/fix.js';
import { jobSchemaIn } from '../input/fields/json-schema.js';
import type { Shop } from '../input/types.js';
import { families, familyOf } from '../joints/list.js';
import type { Model } from './model.js';

/**
 * The job card: every field of a kind of joint, taken from the same schema that reads the file, so that a new
 * joint or key has its place on the card without a word here.
 */
export interface CardField {
  /** Path under the joint: `boards.tails.thickness`. */
  readonly path: KeyPath;
  readonly label: string;
  readonly hint?: string;
  /** What stands for it where it is left out, as a job would write it; else it is worked out. */
  readonly usual?: string;
  readonly required: boolean;
  /** Words to choose from. */
  readonly options?: readonly string[];
  /** A name out of the shop. */
  readonly tool?: 'bit' | 'bushing';
}

export interface CardGroup {
  readonly title: string;
  readonly fields: readonly CardField[];
  /** Shown when asked for. */
  readonly folded: boolean;
}

/** Groups of the card in the order in which a maker settles them, and the keys that belong to each. */
const groups: readonly {
  readonly title: string;
  readonly keys: readonly string[];
  readonly folded?: true;
}[] = [
  { title: 'Boards', keys: ['width', 'boards', 'lip'] },
  { title: 'Layout', keys: ['layout', 'start', 'line', 'repeat', 'align'] },
  {
    title: 'Bits, bushing, fit',
    keys: ['method', 'depth', 'cutters', 'cutter', 'bushing', 'slope', 'fit', 'tails-inside', 'proud'],
  },
  { title: 'Plate', keys: ['template'], folded: true },
  { title: 'Marker', keys: ['marker'], folded: true },
];

/** The card of each kind of joint; made once, for the schema never changes. */
export const cards: ReadonlyMap<string, readonly CardGroup[]> = new Map(readCards());

/** Fields that a job has only now and then: out of the way until they are written or asked for. */
export function isRare({ path, required }: CardField): boolean {
  return !required && rarely.has(path.at(-1) ?? '');
}

const rarely: ReadonlySet<string> = new Set([
  'length',
  'material',
  'least-pin',
  'ratio',
  'seed',
  'spread',
  'from',
  'width',
  'proud',
  'slope',
  'rabbet',
  'end',
  'lower',
  'upper',
  'fingers',
  'align',
]);

/** Names that the shop offers for a field, the fitting kind of bit first and alone. */
export function toolsFor(field: CardField, { joint }: Model, shop: Shop): readonly string[] {
  if (field.tool === 'bushing') return Object.keys(shop.bushings);
  const slots = joint && familyOf(joint.kind)?.bitSlots?.(joint);
  const kind = slots?.find(({ key }) => key === field.path.join('.'))?.kind;
  return Object.values(shop.bits)
    .filter((bit) => kind === undefined || bit.kind === kind)
    .map(({ name }) => name);
}

interface Schema {
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly required?: readonly string[];
  readonly enum?: readonly string[];
  readonly const?: string;
  readonly description?: string;
  readonly default?: string;
  readonly type?: unknown;
  readonly allOf?: readonly { readonly then: Schema }[];
  readonly additionalProperties?: Schema;
}

function readCards(): readonly (readonly [string, readonly CardGroup[]])[] {
  const schema = jobSchemaIn('in', families) as unknown as Schema;
  const kinds = schema.properties?.joints?.additionalProperties?.allOf ?? [];
  return kinds.flatMap(({ then }) => {
    const kind = then.properties?.kind?.const;
    return kind === undefined ? [] : [[kind, groupsOf(leavesOf(then, [], true))] as const];
  });
}

function groupsOf(fields: readonly CardField[]): readonly CardGroup[] {
  const known = groups.flatMap(({ keys }) => keys);
  const rest = fields.filter(({ path }) => !known.includes(path[0] ?? ''));
  return [...groups, { title: 'More', keys: rest.map(({ path }) => path[0] ?? '') }]
    .map(({ title, keys, ...more }) => ({
      title,
      fields: fields
        .filter(({ path }) => keys.includes(path[0] ?? ''))
        .sort((one, other) => keys.indexOf(one.path[0] ?? '') - keys.indexOf(other.path[0] ?? '')),
      folded: 'folded' in more,
    }))
    .filter((group) => group.fields.length > 0);
}

function leavesOf(
  { properties = {}, required = [] }: Schema,
  above: KeyPath,
  all: boolean,
): readonly CardField[] {
  return Object.entries(properties).flatMap(([key, schema]) => {
    const path = [...above, key];
    const needed = all && required.includes(key);
    if (schema.properties) return leavesOf(schema, path, needed);
    if (key === 'kind' || schema.type === 'array') return [];
    const tool = key === 'bushing' ? 'bushing' : /^cutters?$/.test(path[0] ?? '') ? 'bit' : undefined;
    return [
      {
        path,
        label: labelOf(path),
        required: needed,
        ...(schema.description === undefined ? {} : { hint: schema.description }),
        ...(schema.default === undefined ? {} : { usual: schema.default }),
        ...(schema.enum ? { options: schema.enum } : {}),
        ...(tool ? { tool } : {}),
      },
    ];
  });
}

/** `boards.tails.thickness` is called `tails, thickness`; the group's title says the rest. */
function labelOf(path: KeyPath): string {
  const dropped = ['boards', 'layout', 'template', 'fit', 'marker'];
  const words = path.filter((key, index) => index > 0 || !dropped.includes(key));
  return words.join(', ').replaceAll('-', ' ');
}
