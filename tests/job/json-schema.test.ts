import { describe, expect, it } from 'vitest';
import { descriptions } from '../../src/job/descriptions.js';
import { jobJsonSchema } from '../../src/job/json-schema.js';
import { kinds } from './kinds.js';

type Json = Readonly<Record<string, unknown>>;

/** The part of a schema at a path of keys. */
function part(schema: unknown, ...path: readonly (string | number)[]): unknown {
  return path.reduce<unknown>((one, key) => (one as Json | undefined)?.[key], schema);
}

describe('the JSON Schema of the job file', () => {
  const schema = jobJsonSchema(kinds);
  const joint = (index: number) =>
    part(schema, 'properties', 'joints', 'additionalProperties', 'allOf', index, 'then');

  it('is of draft 2020-12, plain data, and the same each time', () => {
    expect(schema.$schema).toBe('https://json-schema.org/draft/2020-12/schema');
    expect(JSON.parse(JSON.stringify(schema))).toEqual(schema);
    expect(jobJsonSchema(kinds)).toEqual(schema);
  });

  it('resolves every reference within itself', () => {
    const refs = [...JSON.stringify(schema).matchAll(/"\$ref":"([^"]+)"/g)].map((match) => match[1] ?? '');
    expect(refs.length).toBeGreaterThan(10);
    for (const ref of refs) expect(part(schema, ...ref.slice(2).split('/')), ref).toBeDefined();
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
    const pattern = new RegExp(String(part(schema, '$defs', 'length', 'anyOf', 1, 'pattern')), 'u');
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

describe('descriptions', () => {
  it('are of keys that there are', () => {
    const text = JSON.stringify(jobJsonSchema(kinds));
    for (const [key, words] of Object.entries(descriptions)) {
      expect(text, key).toContain(`"${key}":{`);
      expect(text, key).toContain(JSON.stringify(words));
    }
  });
});
