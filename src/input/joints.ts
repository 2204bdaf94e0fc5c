import { z } from 'zod';
import { type Diagnostic, diagnostic } from '../diagnostics/diagnostic.js';
import { didYouMean } from '../diagnostics/did-you-mean.js';
import type { FieldKit } from './fields/field-kit.js';
import {
  type FileUnits,
  isRecord,
  optionReader,
  readPresent,
  textReader,
  unfit,
} from './fields/read-value.js';
import { diagnosticsOf } from './fields/schema.js';
import { alikeDiagnostics, nameDiagnostics } from './joint-name.js';
import { makeKit, type ShopTools } from './kit.js';
import { LONGEST_NAME, MAX_JOINTS } from './limits.js';
import type { Joint } from './types.js';
import type { OpenFile } from './yaml/file-reader.js';
import type { Tree } from './yaml/tree.js';

/** What the reader needs to know of a joint family. */
export interface JointKind {
  readonly kind: string;
  readonly fields: (kit: FieldKit) => z.ZodType;
}

export interface JointsReading {
  /** In the order of the file; those that could be read. */
  readonly joints: readonly Joint[];
  readonly diagnostics: readonly Diagnostic[];
}

/** Reads what stands under `joints`: a map of names to joints, each by the fields of its own kind. */
export function readJoints(
  value: unknown,
  tree: Tree,
  families: readonly JointKind[],
  units: FileUnits,
  tools: ShopTools,
  open: OpenFile,
): JointsReading {
  if (!isRecord(value)) {
    const what = 'a map of names to joints';
    const example = '{ corner: { kind: box, ... } }';
    const reader = { what, example, json: {}, read: (other: unknown) => unfit(other, { what, example }) };
    return {
      joints: [],
      diagnostics: readPresent(reader, value).diagnostics.map((one) => ({ ...one, at: 'joints' })),
    };
  }
  const names = tree.keys.get('joints') ?? Object.keys(value);
  if (names.length === 0)
    return { joints: [], diagnostics: [diagnostic('joints-none', 'refused', 'joints', {})] };
  if (names.length > MAX_JOINTS) {
    const data = { read: names.length, most: MAX_JOINTS };
    return { joints: [], diagnostics: [diagnostic('joints-many', 'refused', 'joints', data)] };
  }
  const kit = makeKit(units, tools, open);
  const schemas = new Map(families.map((family) => [family.kind, fieldsOf(family, kit)]));
  const readings = names.map((name) => readJoint(name, value[name], schemas));
  const joints = readings.flatMap(({ joint }) => (joint === undefined ? [] : [joint]));
  return {
    joints,
    diagnostics: [
      ...alikeDiagnostics(names, 'joints'),
      ...readings.flatMap(({ diagnostics }) => diagnostics),
      ...alignDiagnostics(joints, names),
    ],
  };
}

type Schemas = ReadonlyMap<string, KindFields>;

/** The fields of one kind, made when the first joint of that kind needs them. */
interface KindFields {
  readonly schema: () => z.ZodType;
  readonly paths: () => ReadonlyMap<string, readonly string[]>;
}

function fieldsOf(family: JointKind, kit: FieldKit): KindFields {
  const schema = lazily(() => family.fields(kit));
  return { schema, paths: lazily(() => keyPaths(schema())) };
}

interface JointReading {
  readonly joint?: Joint;
  readonly diagnostics: readonly Diagnostic[];
}

function readJoint(name: string, value: unknown, schemas: Schemas): JointReading {
  const at = `joints.${name}`;
  const named = nameDiagnostics(name, at);
  const kinds = optionReader([...schemas.keys()]);
  if (!isRecord(value)) {
    const what = 'a map with kind, width, boards and more';
    const example = `{ kind: ${kinds.example}, ... }`;
    const reader = { what, example, json: {}, read: (other: unknown) => unfit(other, { what, example }) };
    return {
      diagnostics: [...named, ...readPresent(reader, value).diagnostics.map((one) => ({ ...one, at }))],
    };
  }
  const { kind: written, align, ...fields } = value;
  const kind = readPresent(kinds, written);
  const known = kind.ok ? schemas.get(kind.value) : undefined;
  if (!kind.ok || known === undefined) {
    const typed = written === undefined && Object.keys(fields).find((key) => didYouMean(key, ['kind']));
    if (typed) {
      const data = { key: typed, known: ['kind'], nearest: 'kind' };
      return { diagnostics: [...named, diagnostic('key-unknown', 'refused', `${at}.${typed}`, data)] };
    }
    return { diagnostics: [...named, ...kind.diagnostics.map((one) => ({ ...one, at: `${at}.kind` }))] };
  }
  const read = known.schema().safeParse(fields);
  const lead = 'align' in value ? readPresent(alignReader, align) : undefined;
  const misled = lead === undefined ? [] : lead.diagnostics.map((one) => ({ ...one, at: `${at}.align` }));
  if (!read.success) {
    const diagnostics = diagnosticsOf(read.error, at).map((one) => hint(one, at, kind.value, schemas));
    return { diagnostics: [...named, ...misled, ...diagnostics] };
  }
  const aligned = lead?.ok ? { align: lead.value } : {};
  return {
    joint: { ...(read.data as Omit<Joint, 'name' | 'kind'>), ...aligned, name, kind: kind.value },
    diagnostics: [...named, ...misled],
  };
}

/** `align:` stands beside `kind` in every joint: the name of another joint. */
export const alignReader = textReader('drawer-1', LONGEST_NAME);

/** The joint that each `align:` names is another one, is there, and leads itself. */
function alignDiagnostics(joints: readonly Joint[], names: readonly string[]): readonly Diagnostic[] {
  return joints.flatMap(({ name, align }): readonly Diagnostic[] => {
    if (align === undefined) return [];
    const at = `joints.${name}.align`;
    const known = names.filter((one) => one !== name);
    if (!known.includes(align)) {
      const nearest = didYouMean(align, known);
      const data = { read: align, known, ...(nearest === undefined ? {} : { nearest }) };
      return [diagnostic('align-unknown', 'refused', at, data)];
    }
    const its = joints.find((one) => one.name === align)?.align;
    return its === undefined ? [] : [diagnostic('align-chain', 'refused', at, { lead: align, its })];
  });
}

/** An unknown key that means something elsewhere in the joint, or in another kind of joint, is answered with that. */
function hint(one: Diagnostic, at: string, kind: string, schemas: Schemas): Diagnostic {
  if (one.code !== 'key-unknown' || one.level !== 'refused') return one;
  const { key } = one.data;
  const pathsIn = (kind: string) => schemas.get(kind)?.paths().get(key) ?? [];
  const under = one.at.slice(at.length + 1, -key.length - 1);
  const [belongs] = pathsIn(kind);
  if (belongs === '') return diagnostic('key-of-joint', 'refused', one.at, { key, under });
  if (belongs !== undefined) return diagnostic('key-elsewhere', 'refused', one.at, { key, belongs });
  const kinds = [...schemas.keys()].filter((other) => pathsIn(other).includes(under));
  return kinds.length === 0 ? one : diagnostic('key-of-kind', 'refused', one.at, { key, kind, kinds });
}

/** For every key of a kind of joint the dotted paths of the maps that take it; '' is the joint itself. */
function keyPaths(schema: z.ZodType): ReadonlyMap<string, readonly string[]> {
  const paths = new Map<string, readonly string[]>();
  const search = (json: unknown, path: string): void => {
    const properties = isRecord(json) && isRecord(json.properties) ? json.properties : {};
    for (const [key, inner] of Object.entries(properties)) {
      paths.set(key, [...(paths.get(key) ?? []), path]);
      search(inner, path === '' ? key : `${path}.${key}`);
    }
  };
  search(z.toJSONSchema(schema, { io: 'input', unrepresentable: 'any' }), '');
  return paths;
}

function lazily<T>(make: () => T): () => T {
  let made: { readonly value: T } | undefined;
  return () => {
    made ??= { value: make() };
    return made.value;
  };
}
