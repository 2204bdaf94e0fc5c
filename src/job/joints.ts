import { z } from 'zod';
import { didYouMean } from '../findings/did-you-mean.js';
import { type Finding, finding } from '../findings/finding.js';
import type { FieldKit } from './field-kit.js';
import type { OpenFile } from './file-reader.js';
import { alikeFindings, nameFindings } from './joint-name.js';
import { makeKit, type Tools } from './kit.js';
import { LONGEST_NAME, MOST_JOINTS } from './limits.js';
import { type FileUnits, isRecord, optionReader, readPresent, textReader, unfit } from './read-value.js';
import { findingsOf } from './schema.js';
import type { Tree } from './tree.js';
import type { Joint } from './types.js';

/** What the reader needs to know of a joint family. */
export interface JointKind {
  readonly kind: string;
  readonly fields: (kit: FieldKit) => z.ZodType;
}

export interface JointsReading {
  /** In the order of the file; those that could be read. */
  readonly joints: readonly Joint[];
  readonly findings: readonly Finding[];
}

/** Reads what stands under `joints`: a map of names to joints, each by the fields of its own kind. */
export function readJoints(
  value: unknown,
  tree: Tree,
  families: readonly JointKind[],
  units: FileUnits,
  tools: Tools,
  open: OpenFile,
): JointsReading {
  if (!isRecord(value)) {
    const what = 'a map of names to joints';
    const example = '{ corner: { kind: box, ... } }';
    const reader = { what, example, json: {}, read: (other: unknown) => unfit(other, { what, example }) };
    return {
      joints: [],
      findings: readPresent(reader, value).findings.map((one) => ({ ...one, at: 'joints' })),
    };
  }
  const names = tree.keys.get('joints') ?? Object.keys(value);
  if (names.length === 0) return { joints: [], findings: [finding('joints-none', 'refused', 'joints', {})] };
  if (names.length > MOST_JOINTS) {
    const data = { read: names.length, most: MOST_JOINTS };
    return { joints: [], findings: [finding('joints-many', 'refused', 'joints', data)] };
  }
  const kit = makeKit(units, tools, open);
  const schemas = new Map(families.map((family) => [family.kind, fieldsOf(family, kit)]));
  const readings = names.map((name) => readJoint(name, value[name], schemas));
  const joints = readings.flatMap(({ joint }) => (joint === undefined ? [] : [joint]));
  return {
    joints,
    findings: [
      ...alikeFindings(names, 'joints'),
      ...readings.flatMap(({ findings }) => findings),
      ...alignFindings(joints, names),
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
  readonly findings: readonly Finding[];
}

function readJoint(name: string, value: unknown, schemas: Schemas): JointReading {
  const at = `joints.${name}`;
  const named = nameFindings(name, at);
  const kinds = optionReader([...schemas.keys()]);
  if (!isRecord(value)) {
    const what = 'a map with kind, width, boards and more';
    const example = `{ kind: ${kinds.example}, ... }`;
    const reader = { what, example, json: {}, read: (other: unknown) => unfit(other, { what, example }) };
    return { findings: [...named, ...readPresent(reader, value).findings.map((one) => ({ ...one, at }))] };
  }
  const { kind: written, align, ...fields } = value;
  const kind = readPresent(kinds, written);
  const known = kind.ok ? schemas.get(kind.value) : undefined;
  if (!kind.ok || known === undefined) {
    const typed = written === undefined && Object.keys(fields).find((key) => didYouMean(key, ['kind']));
    if (typed) {
      const data = { key: typed, known: ['kind'], nearest: 'kind' };
      return { findings: [...named, finding('key-unknown', 'refused', `${at}.${typed}`, data)] };
    }
    return { findings: [...named, ...kind.findings.map((one) => ({ ...one, at: `${at}.kind` }))] };
  }
  const read = known.schema().safeParse(fields);
  const lead = 'align' in value ? readPresent(alignReader, align) : undefined;
  const misled = lead === undefined ? [] : lead.findings.map((one) => ({ ...one, at: `${at}.align` }));
  if (!read.success) {
    const findings = findingsOf(read.error, at).map((one) => hint(one, at, kind.value, schemas));
    return { findings: [...named, ...misled, ...findings] };
  }
  const aligned = lead?.ok ? { align: lead.value } : {};
  return {
    joint: { ...(read.data as Omit<Joint, 'name' | 'kind'>), ...aligned, name, kind: kind.value },
    findings: [...named, ...misled],
  };
}

/** `align:` stands beside `kind` in every joint: the name of another joint. */
export const alignReader = textReader('drawer-1', LONGEST_NAME);

/** The joint that each `align:` names is another one, is there, and leads itself. */
function alignFindings(joints: readonly Joint[], names: readonly string[]): readonly Finding[] {
  return joints.flatMap(({ name, align }): readonly Finding[] => {
    if (align === undefined) return [];
    const at = `joints.${name}.align`;
    const known = names.filter((one) => one !== name);
    if (!known.includes(align)) {
      const nearest = didYouMean(align, known);
      const data = { read: align, known, ...(nearest === undefined ? {} : { nearest }) };
      return [finding('align-unknown', 'refused', at, data)];
    }
    const its = joints.find((one) => one.name === align)?.align;
    return its === undefined ? [] : [finding('align-chain', 'refused', at, { lead: align, its })];
  });
}

/** An unknown key that means something elsewhere in the joint, or in another kind of joint, is answered with that. */
function hint(one: Finding, at: string, kind: string, schemas: Schemas): Finding {
  if (one.code !== 'key-unknown' || one.level !== 'refused') return one;
  const { key } = one.data;
  const pathsIn = (kind: string) => schemas.get(kind)?.paths().get(key) ?? [];
  const under = one.at.slice(at.length + 1, -key.length - 1);
  const [belongs] = pathsIn(kind);
  if (belongs === '') return finding('key-of-joint', 'refused', one.at, { key, under });
  if (belongs !== undefined) return finding('key-elsewhere', 'refused', one.at, { key, belongs });
  const kinds = [...schemas.keys()].filter((other) => pathsIn(other).includes(under));
  return kinds.length === 0 ? one : finding('key-of-kind', 'refused', one.at, { key, kind, kinds });
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
