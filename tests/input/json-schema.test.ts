import { describe, expect, it } from 'vitest';
import { descriptions } from '../../src/input/fields/descriptions.js';
import { jobJsonSchema, jobSchemaIn } from '../../src/input/fields/json-schema.js';
import { families } from '../../src/joints/list.js';
import { kinds } from './kinds.js';

type Json = Readonly<Record<string, unknown>>;

/** The part of a schema at a path of keys. */
function part(schema: unknown, ...path: readonly (string | number)[]): unknown {
  return path.reduce<unknown>((one, key) => (one as Json | undefined)?.[key], schema);
}

describe('the JSON Schema of the job file', () => {
  const whole = jobJsonSchema(kinds);
  const schema = jobSchemaIn('in', kinds);
  const joint = (index: number) =>
    part(schema, 'properties', 'joints', 'additionalProperties', 'allOf', index, 'then');

  it('is of draft 2020-12, plain data, and the same each time', () => {
    expect(whole.$schema).toBe('https://json-schema.org/draft/2020-12/schema');
    expect(JSON.parse(JSON.stringify(whole))).toEqual(whole);
    expect(jobJsonSchema(kinds)).toEqual(whole);
  });

  it('takes the limits of the units that the job says, and of those that a shop in it says', () => {
    const most = (one: unknown) => part(one, 'properties', 'width', 'anyOf', 0, 'maximum');
    const shopUnits = (job: string, way: number) =>
      part(whole, '$defs', job, 'properties', 'shop', 'anyOf', way, 'properties', 'units', 'const');
    const jointOf = (job: string) =>
      part(whole, '$defs', job, 'properties', 'joints', 'additionalProperties', 'allOf', 0, 'then');
    expect(part(whole, 'if', 'properties', 'units', 'const')).toBe('in');
    expect(part(whole, 'then', '$ref')).toBe('#/$defs/job-in');
    expect(part(whole, 'else', '$ref')).toBe('#/$defs/job-mm');
    // GREATEST_WIDTH is 100 in.
    expect([most(jointOf('job-in')), most(jointOf('job-mm'))]).toEqual([100, 2540]);
    expect([shopUnits('job-in', 1), shopUnits('job-in', 2)]).toEqual(['in', 'mm']);
    expect([shopUnits('job-mm', 1), shopUnits('job-mm', 2)]).toEqual(['mm', 'in']);
    expect(part(whole, '$defs', 'job-in', 'properties', 'shop', 'anyOf', 2, 'required')).toContain('units');
  });

  it('resolves every reference within itself', () => {
    const refs = [...JSON.stringify(whole).matchAll(/"\$ref":"([^"]+)"/g)].map((match) => match[1] ?? '');
    expect(refs.length).toBeGreaterThan(10);
    for (const ref of refs) expect(part(whole, ...ref.slice(2).split('/')), ref).toBeDefined();
  });

  it('knows every key of the job, the shop and each kind of joint, and no other', () => {
    const keys = (one: unknown) => Object.keys(part(one, 'properties') as Json).sort();
    expect(keys(schema)).toEqual(['joints', 'pieces', 'shop', 'title', 'units']);
    const shop = part(schema, 'properties', 'shop', 'anyOf', 1);
    expect(keys(shop)).toEqual([
      'bits',
      'bushings',
      'cnc',
      'colours',
      'files',
      'laser',
      'plate',
      'print',
      'printer',
      'units',
    ]);
    expect(keys(part(shop, 'properties', 'bits', 'additionalProperties'))).toEqual([
      'angle',
      'diameter',
      'height',
      'kind',
      'shank',
      'slope',
    ]);
    const shared = ['align', 'boards', 'bushing', 'fit', 'kind', 'layout', 'marker', 'template', 'width'];
    expect(keys(joint(0))).toEqual([...shared, 'cutters', 'proud', 'slope'].sort());
    expect(keys(joint(1))).toEqual([...shared, 'cutter', 'start'].sort());
    expect(part(joint(1), 'additionalProperties')).toBe(false);
    expect(part(joint(0), 'properties', 'kind', 'const')).toBe('through-dovetail');
    expect(part(joint(0), 'required')).toEqual(['width', 'boards']);
  });

  it('tells lengths from other text', () => {
    const pattern = new RegExp(String(part(schema, '$defs', 'length-in', 'anyOf', 1, 'pattern')), 'u');
    for (const text of [
      '19 mm',
      '3/4 in',
      '1-3/8"',
      '1 3/8 in',
      '1.375',
      '.5',
      '1½ in',
      '17/64 in + 0.0031',
      '2cm',
    ]) {
      expect(text).toMatch(pattern);
    }
    for (const text of ['1-3-8', '1.2.3', '5 ft 3 mm', 'wide', '1/2/3', '-3', ''])
      expect(text).not.toMatch(pattern);
  });
});

/** Every key of a part of the schema by its place, with what editors show of it. */
function hintsIn(
  schema: unknown,
  path: readonly string[],
): readonly (readonly [string, string | undefined])[] {
  if (typeof schema !== 'object' || schema === null) return [];
  return Object.entries(schema).flatMap(([key, value]) =>
    key === 'properties'
      ? Object.entries(value as Json).flatMap(([name, inner]) => [
          [[...path, name].join('.'), (inner as { description?: string }).description] as const,
          ...hintsIn(inner, [...path, name]),
        ])
      : hintsIn(value, path),
  );
}

describe('descriptions', () => {
  const schema = jobSchemaIn('mm', families);
  const joints = part(schema, 'properties', 'joints', 'additionalProperties', 'allOf') as readonly unknown[];
  const hints = [
    ...joints.flatMap((one) => hintsIn(part(one, 'then'), ['joint'])),
    ...hintsIn(part(schema, 'properties', 'shop', 'anyOf', 1), ['shop']),
    ...hintsIn(part(schema, 'properties', 'pieces', 'additionalProperties'), ['pieces']),
  ];

  it('stand at the place that they are of, and each place is there', () => {
    for (const [place, words] of Object.entries(descriptions)) {
      const pattern = new RegExp(`^${place.replaceAll('.', '\\.').replace('*', '\\w+')}$`);
      const found = hints.filter(([at]) => pattern.test(at));
      expect(found.length, place).toBeGreaterThan(0);
      for (const [at, shown] of found) expect(shown, at).toBe(words);
    }
  });

  it('of one key differ by what it stands in', () => {
    const shown = new Map(hints);
    for (const [one, other] of [
      ['pieces.outside.height', 'shop.bits.height'],
      ['pieces.outside.width', 'joint.width'],
      ['joint.layout.groove.width', 'joint.width'],
      ['shop.plate.thickness', 'joint.boards.tails.thickness'],
      ['shop.cnc.cutter', 'joint.cutter'],
      ['shop.printer.margin', 'joint.template.margin'],
      ['shop.cnc.tabs.count', 'pieces.count'],
      ['joint.repeat.pitch', 'joint.layout.pitch'],
    ] as const) {
      expect(shown.get(one), one).toBeDefined();
      expect(shown.get(one), one).not.toBe(shown.get(other));
    }
  });
});
