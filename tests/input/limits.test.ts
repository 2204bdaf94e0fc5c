import { describe, expect, test } from 'vitest';
import { jobSchemaIn } from '../../src/input/fields/json-schema.js';
import { parseLayout } from '../../src/input/fields/layout-request.js';
import { isRecord } from '../../src/input/fields/read-value.js';
import { readJob } from '../../src/input/read-job.js';
import { families } from '../../src/joints/list.js';

/** Each limit of the JSON Schema, tried in a file in mm and in inches at the limit and just beyond it. */

type Json = Readonly<Record<string, unknown>>;
type Path = readonly string[];

interface Limited {
  readonly units: Units;
  readonly path: Path;
  readonly inside: readonly unknown[];
  readonly beyond: readonly unknown[];
}

type Units = 'mm' | 'in';

function resolver(schema: Json): (one: unknown) => Json {
  const defs = isRecord(schema.$defs) ? schema.$defs : {};
  const resolved = (one: unknown): Json => {
    if (!isRecord(one)) return {};
    const name = /^#\/\$defs\/(.*)$/.exec(String(one.$ref ?? ''))?.[1];
    return name === undefined ? one : { ...resolved(defs[name]), ...one };
  };
  return resolved;
}

/** The places under a schema that have limits, with values at them and beyond. */
function limitsIn(
  units: Units,
  resolved: (one: unknown) => Json,
  one: unknown,
  path: Path,
): readonly Limited[] {
  const here = resolved(one);
  const below = (inner: unknown, place: Path) => limitsIn(units, resolved, inner, place);
  const ways = Array.isArray(here.anyOf) ? here.anyOf.map(resolved) : [here];
  const inner = Object.entries(isRecord(here.properties) ? here.properties : {}).flatMap(([key, value]) =>
    below(value, [...path, key]),
  );
  const named = isRecord(here.additionalProperties)
    ? below(here.additionalProperties, [...path, 'named'])
    : [];
  return [...inner, ...named, ...ways.flatMap((way) => limitsOf(units, way, path))];
}

function limitsOf(units: Units, way: Json, path: Path): readonly Limited[] {
  const { minimum, maximum, exclusiveMaximum, maxLength, minItems, maxItems, type } = way;
  const step = type === 'integer' ? 1 : 1e-6;
  const made: Limited[] = [];
  const add = (inside: readonly unknown[], beyond: readonly unknown[]) =>
    made.push({ units, path, inside, beyond });
  if (typeof minimum === 'number') add([minimum], [minimum - step]);
  if (typeof maximum === 'number') add([maximum], [maximum + step, 1e12]);
  if (typeof exclusiveMaximum === 'number') add([exclusiveMaximum - step], [exclusiveMaximum]);
  if (typeof maxLength === 'number') add(['m'.repeat(maxLength)], ['m'.repeat(maxLength + 1), '']);
  if (typeof minItems === 'number' && typeof maxItems === 'number') {
    const list = (length: number) => Array.from({ length }, () => 5);
    add([list(minItems), list(maxItems)], [list(minItems - 1), list(maxItems + 1)]);
  }
  return made;
}

function limitsOfJob(units: Units): readonly Limited[] {
  const schema = jobSchemaIn(units, families);
  const resolved = resolver(schema);
  const { joints, shop, pieces, title } = resolved(schema.properties);
  const kinds = resolved(resolved(joints).additionalProperties).allOf as readonly Json[];
  const below = (one: unknown, path: Path) => limitsIn(units, resolved, one, path);
  return [
    ...kinds.flatMap(({ then }) => {
      const kind = String(resolved(resolved(resolved(then).properties).kind).const);
      return below(then, ['joints', kind]);
    }),
    ...below((resolved(shop).anyOf as readonly unknown[])[1], ['shop']),
    ...below(pieces, ['pieces']),
    ...below(title, ['title']),
  ];
}

const limits = [...limitsOfJob('mm'), ...limitsOfJob('in')];

/** Diagnostics about a value's own range, against those of what it means beside others. */
const ranges = new Set([
  'number-range',
  'length-great',
  'length-small',
  'length-not-positive',
  'angle-range',
  'list-length',
  'text-unfit',
]);

const board = { thickness: '6 mm' };
const byHand = { kind: 'box', width: '60 mm', boards: { one: board, two: board } };

/** Whether the reader takes a value at a place of a job, as far as its range goes. */
function isTaken(units: Units, path: Path, value: unknown): boolean {
  const [root, kind] = path;
  const job: Record<string, unknown> = { units };
  const place = (from: Record<string, unknown>, [key = '', ...rest]: Path): void => {
    if (rest.length === 0) from[key] = value;
    else {
      const below: Record<string, unknown> = isRecord(from[key]) ? { ...from[key] } : {};
      from[key] = below;
      place(below, rest);
    }
  };
  // A piece is looked at when the joints can be read.
  if (root === 'pieces') job.joints = { corner: byHand };
  if (root === 'joints') job.joints = { [String(kind)]: { kind } };
  place(job, path);
  const { result } = readJob({ name: 'job.yaml', text: JSON.stringify(job) }, families, () => undefined);
  const at = path.join('.');
  return !result.diagnostics.some((one) => ranges.has(one.code) && one.at === at);
}

describe('limits', () => {
  test('of the schema are many, of every kind', () => {
    expect(limits.length).toBeGreaterThan(400);
    const has = (place: string) => limits.some(({ path }) => path.join('.') === place);
    for (const place of [
      'joints.box.width',
      'joints.box.layout.ratio',
      'joints.through-dovetail.layout.spread',
      'joints.through-dovetail.slope',
      'joints.box.marker.line',
      'joints.half-blind-dovetail.lip.lower',
      'shop.bits.named.angle',
      'shop.cnc.rpm',
      'shop.laser.kerf',
      'shop.plate.sheet',
      'pieces.named.count',
      'title',
    ]) {
      expect(has(place), place).toBe(true);
    }
  });

  test.each(limits.map((one) => [one.units, one.path.join('.'), one] as const))(
    '%s, %s: the reader takes it and nothing beyond',
    (units, _, { path, inside, beyond }) => {
      for (const value of inside)
        expect(isTaken(units, path, value), `${JSON.stringify(value).slice(0, 40)}`).toBe(true);
      for (const value of beyond)
        expect(isTaken(units, path, value), `${JSON.stringify(value).slice(0, 40)}`).toBe(false);
    },
  );

  test('of a layout are those of a program that lays out a row without a job file, too', () => {
    const outOf = new Set(['layout-out-of-range', 'layout-number']);
    const asked = limits.filter(
      ({ units, path }) =>
        units === 'mm' && /^joints\.(box|through-dovetail)\.layout\.\w+$/.test(path.join('.')),
    );
    expect(asked.length).toBeGreaterThan(14);
    for (const { path, inside, beyond } of asked) {
      const key = path.at(-1) ?? '';
      const field = key.replace(/-([a-z])/g, (_, letter: string) => letter.toUpperCase());
      const isParsed = (value: unknown) =>
        !parseLayout(2540, { spacing: 'even', [field]: value }, 'layout').diagnostics.some(({ code }) =>
          outOf.has(code),
        );
      for (const value of inside) expect(isParsed(value), `${key} ${value}`).toBe(true);
      for (const value of beyond) expect(isParsed(value), `${key} ${value}`).toBe(false);
    }
  });
});
