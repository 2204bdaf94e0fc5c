import { describe, expect, test } from 'vitest';
import { jobJsonSchema } from '../../src/job/json-schema.js';
import { readJob } from '../../src/job/read-job.js';
import { isRecord } from '../../src/job/read-value.js';
import { families } from '../../src/joints/list.js';
import { layFingers } from '../../src/layout/fingers.js';
import { layTails } from '../../src/layout/tails.js';

/** Each limit of the JSON Schema, tried in a file in mm at the limit and just beyond it. */

type Json = Readonly<Record<string, unknown>>;
type Path = readonly string[];

interface Limited {
  readonly path: Path;
  readonly inside: readonly unknown[];
  readonly beyond: readonly unknown[];
}

const schema = jobJsonSchema(families);
const defs = isRecord(schema.$defs) ? schema.$defs : {};

function resolved(one: unknown): Json {
  if (!isRecord(one)) return {};
  const name = /^#\/\$defs\/(.*)$/.exec(String(one.$ref ?? ''))?.[1];
  return name === undefined ? one : { ...resolved(defs[name]), ...one };
}

/** The places under a schema that have limits, with values at them and beyond. */
function limitsIn(one: unknown, path: Path): readonly Limited[] {
  const here = resolved(one);
  const ways = Array.isArray(here.anyOf) ? here.anyOf.map(resolved) : [here];
  const inner = Object.entries(isRecord(here.properties) ? here.properties : {}).flatMap(([key, value]) =>
    limitsIn(value, [...path, key]),
  );
  const named = isRecord(here.additionalProperties)
    ? limitsIn(here.additionalProperties, [...path, 'named'])
    : [];
  return [...inner, ...named, ...ways.flatMap((way) => limitsOf(way, path))];
}

function limitsOf(way: Json, path: Path): readonly Limited[] {
  const { minimum, maximum, exclusiveMinimum, exclusiveMaximum, maxLength, minItems, maxItems, type } = way;
  const step = type === 'integer' ? 1 : 1e-6;
  const made: Limited[] = [];
  const add = (inside: readonly unknown[], beyond: readonly unknown[]) => made.push({ path, inside, beyond });
  if (typeof minimum === 'number') add([minimum], [minimum - step]);
  if (typeof maximum === 'number') add([maximum], [maximum + step, 1e12]);
  // The least of a length is LEAST_LENGTH, which a number in inches may be under.
  if (typeof exclusiveMinimum === 'number') add([exclusiveMinimum + 0.01], [exclusiveMinimum, -1]);
  if (typeof exclusiveMaximum === 'number') add([exclusiveMaximum - step], [exclusiveMaximum]);
  if (typeof maxLength === 'number') add(['m'.repeat(maxLength)], ['m'.repeat(maxLength + 1), '']);
  if (typeof minItems === 'number' && typeof maxItems === 'number') {
    const list = (length: number) => Array.from({ length }, () => 5);
    add([list(minItems), list(maxItems)], [list(minItems - 1), list(maxItems + 1)]);
  }
  return made;
}

const joints = isRecord(schema.properties) ? resolved(schema.properties.joints) : {};
const kinds = resolved(joints.additionalProperties).allOf as readonly Json[];
const shopOf = (resolved((schema.properties as Json).shop).anyOf as readonly unknown[])[1];
const limits = [
  ...kinds.flatMap(({ then }) => {
    const kind = String(resolved(resolved(resolved(then).properties).kind).const);
    return limitsIn(then, ['joints', kind]);
  }),
  ...limitsIn(shopOf, ['shop']),
  ...limitsIn(resolved((schema.properties as Json).pieces), ['pieces']),
  ...limitsIn(resolved((schema.properties as Json).title), ['title']),
];

/** Findings about a value's own range, against those of what it means beside others. */
const ranges = new Set([
  'number-range',
  'length-great',
  'length-small',
  'length-not-positive',
  'angle-range',
  'list-length',
  'text-unfit',
]);

const byHand = { kind: 'box', width: 60, boards: { one: { thickness: 6 }, two: { thickness: 6 } } };

/** Whether the reader takes a value at a place of a job in mm, as far as its range goes. */
function isTaken(path: Path, value: unknown): boolean {
  const [root, kind] = path;
  const job: Record<string, unknown> = { units: 'mm' };
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
  return !result.findings.some((one) => ranges.has(one.code) && one.at === at);
}

describe('limits', () => {
  test('of the schema are many, of every kind', () => {
    expect(limits.length).toBeGreaterThan(200);
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

  test.each(limits.map((one) => [one.path.join('.'), one] as const))(
    '%s: the reader takes it and nothing beyond',
    (_, { path, inside, beyond }) => {
      for (const value of inside)
        expect(isTaken(path, value), `${JSON.stringify(value).slice(0, 40)}`).toBe(true);
      for (const value of beyond)
        expect(isTaken(path, value), `${JSON.stringify(value).slice(0, 40)}`).toBe(false);
    },
  );

  test('of a layout are those of the solver, too', () => {
    const bound = (width: number) => ({ width, because: 'the bit' });
    const tails = { leastPin: bound(1), leastEndPin: bound(1), leastTail: bound(1) };
    const fingers = { leastFinger: bound(1), leastSlot: bound(1) };
    const outOf = new Set(['layout-out-of-range', 'layout-too-many', 'layout-number', 'spans-count']);
    const solves = (key: string, value: unknown) => {
      const spacing = key === 'ratio' ? 'graduated' : key === 'spread' ? 'varied' : 'even';
      const request = { spacing, [key]: value } as const;
      const lay = key === 'fingers' ? layFingers : layTails;
      const made =
        lay === layFingers
          ? layFingers(2540, request, fingers, 'joints.a.layout')
          : layTails(2540, request, tails, 'joints.a.layout');
      return !made.findings.some(({ code }) => outOf.has(code));
    };
    const asked = limits.filter(({ path }) =>
      /^joints\.(box|through-dovetail)\.layout\.(ratio|spread|tails|fingers)$/.test(path.join('.')),
    );
    expect(asked.length).toBeGreaterThan(8);
    for (const { path, inside, beyond } of asked) {
      const key = path.at(-1) ?? '';
      for (const value of inside) expect(solves(key, value), `${key} ${value}`).toBe(true);
      for (const value of beyond) expect(solves(key, value), `${key} ${value}`).toBe(false);
    }
  });
});
