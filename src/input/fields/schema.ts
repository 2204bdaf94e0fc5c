import { z } from 'zod';
import { type Diagnostic, diagnostic } from '../../diagnostics/diagnostic.js';
import { didYouMean } from '../../diagnostics/did-you-mean.js';
import type { ReadFields } from './field-kit.js';
import { type JsonSchema, quoted, readPresent, unfit, type ValueReader } from './read-value.js';

/** Schemas for values and objects that answer in diagnostics; everything in the kit and the shop is made of these. */

/** The schema of one value. A reader asked for under a name is written once in the JSON Schema. */
export function field<T>(reader: ValueReader<T>, id?: string): z.ZodType<T> {
  const schema = z
    .unknown()
    .meta({ ...reader.json })
    .transform((value, context): T => {
      const reading = readPresent(reader, value);
      for (const one of reading.diagnostics) context.addIssue(issueOf(one, value));
      if (reading.ok) return reading.value;
      if (reading.diagnostics.length === 0) context.addIssue({ code: 'custom', input: value, params: {} });
      return z.NEVER;
    });
  return id === undefined ? schema : schema.meta({ id });
}

/** See FieldKit.object. */
export function object<S extends z.ZodRawShape>(
  shape: S,
  judge: (read: ReadFields<S>) => readonly Diagnostic[] = () => [],
): z.ZodObject<S, z.core.$strict> {
  const known = Object.keys(shape);
  return z.strictObject(shape).superRefine(
    (value: unknown, context) => {
      if (typeof value !== 'object' || value === null || Array.isArray(value)) {
        const needed = known.filter((key) => !takesNothing(shape[key]));
        for (const one of notAnObject(value, known, needed)) context.addIssue(issueOf(one, value));
        return;
      }
      const unknown = context.issues.flatMap((issue) =>
        issue.code === 'unrecognized_keys' && (issue.path ?? []).length === 0 ? issue.keys : [],
      );
      const diagnostics = [
        ...unknown.map((key) => unknownKey(key, known)),
        ...judge(readFields(value, context.issues)),
      ];
      for (const one of diagnostics) context.addIssue(issueOf(one, value));
    },
    { when: () => true },
  );
}

/** The diagnostics that the fields above gave to zod, with `base` before their paths. */
export function diagnosticsOf(error: z.ZodError, base: string): readonly Diagnostic[] {
  const diagnostics = error.issues.flatMap((issue) => {
    const at = [base, ...issue.path.map(String)].filter((part) => part !== '').join('.');
    const own = diagnosticIn(issue);
    if (own !== undefined) return [{ ...own, at }];
    // Answered by the fields above beside zod's own issue.
    if (issue.code === 'custom' || issue.code === 'unrecognized_keys' || issue.code === 'invalid_type')
      return [];
    return [diagnostic('value-unsaid', 'refused', at, { read: quoted(issue.input), because: issue.message })];
  });
  return withoutEchoes(diagnostics);
}

/** Without what a mistyped key in the same map already explains. */
function withoutEchoes(diagnostics: readonly Diagnostic[]): readonly Diagnostic[] {
  const mistyped = new Set(diagnostics.flatMap(keyMeant));
  return diagnostics.filter((one) => {
    const place = one.code === 'line-missing' ? one.at : mapOf(one.at);
    const lacking = (lackOf[one.code] ?? []).map((key) => joinKey(place, key));
    return ![...lacking, ...(one.code.endsWith('-missing') ? [one.at] : [])].some((at) => mistyped.has(at));
  });
}

/** Diagnostics placed at one key that say another is missing. */
const lackOf: Readonly<Record<string, readonly string[]>> = {
  'bushing-missing': ['bushing'],
  'cutters-missing': ['cutter', 'cutters'],
  'slope-missing': ['cutter', 'cutters'],
  'line-missing': ['svg', 'd'],
};

function mapOf(at: string): string {
  return at.slice(0, Math.max(0, at.lastIndexOf('.')));
}

function joinKey(base: string, key: string): string {
  return base === '' ? key : `${base}.${key}`;
}

/** The path of the key that a mistyped one most likely stands for, so that it need not be called missing, too. */
function keyMeant(one: Diagnostic): readonly string[] {
  if (one.code !== 'key-unknown') return [];
  const { key, nearest } = one.data;
  return nearest === undefined ? [] : [`${one.at.slice(0, one.at.length - key.length)}${nearest}`];
}

function readFields<S extends z.ZodRawShape>(
  value: object,
  issues: readonly z.core.$ZodRawIssue[],
): ReadFields<S> {
  const failed = new Set(issues.map((issue) => issue.path?.[0]));
  const missing = new Set(
    issues
      .filter((issue) => issue.path?.length === 1 && diagnosticIn(issue)?.code === 'key-missing')
      .map((issue) => issue.path?.[0]),
  );
  const fields = Object.fromEntries(Object.entries(value).filter(([key]) => !failed.has(key)));
  return {
    fields: fields as ReadFields<S>['fields'],
    written: (key) => key in fields || (failed.has(key) && !missing.has(key)),
  };
}

function issueOf(one: Diagnostic, input: unknown): z.core.$ZodSuperRefineIssue {
  const path = one.at === '' ? [] : one.at.split('.');
  return { code: 'custom', input, path, params: { diagnostic: one } };
}

function diagnosticIn(issue: {
  readonly code?: string | undefined;
  readonly params?: unknown;
}): Diagnostic | undefined {
  const params =
    issue.code === 'custom' ? (issue.params as { diagnostic?: Diagnostic } | undefined) : undefined;
  return params?.diagnostic;
}

/** Whether a field may be left out. */
function takesNothing(schema: unknown): boolean {
  return (schema as z.ZodType)._zod.optin === 'optional';
}

function notAnObject(
  value: unknown,
  known: readonly string[],
  needed: readonly string[],
): readonly Diagnostic[] {
  const what = `a map of ${known.join(', ')}`;
  const example = `{ ${(needed.length > 0 ? needed : known.slice(0, 1))
    .map((key) => `${key}: ...`)
    .join(', ')} }`;
  const json: JsonSchema = {};
  return readPresent({ what, example, json, read: (other) => unfit(other, { what, example }) }, value)
    .diagnostics;
}

function unknownKey(key: string, known: readonly string[]): Diagnostic {
  const nearest = didYouMean(key, known);
  return diagnostic('key-unknown', 'refused', key, {
    key,
    known,
    ...(nearest === undefined ? {} : { nearest }),
  });
}
