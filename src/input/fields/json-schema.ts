import { z } from 'zod';
import type { LengthUnit } from '../../units/length.js';
import { alignReader, type JointKind } from '../joints.js';
import { makeKit, NO_TOOLS } from '../kit.js';
import { LONGEST_NAME, MAX_JOINTS } from '../limits.js';
import { pieceSchema } from '../pieces.js';
import { unitReader, wholeShopSchema } from '../shop.js';
import { descriptionAt } from './descriptions.js';
import { type FileUnits, isRecord, type JsonSchema, textReader } from './read-value.js';
import { field, object } from './schema.js';

/**
 * JSON Schema (draft 2020-12) of the job file, made from the same schemas that read it, for editors: names,
 * kinds of value and ranges. What fields mean together, and which tools the shop has, only `readJob` knows.
 */
export function jobJsonSchema(families: readonly JointKind[]): JsonSchema {
  const { $defs: inDefs, ...inches } = jobSchemaIn('in', families);
  const { $defs: mmDefs, ...mm } = jobSchemaIn('mm', families);
  return {
    $schema: 'https://json-schema.org/draft/2020-12/schema',
    title: 'halfpin job',
    description: 'Joints to cut with a router and finger templates, or by hand from patterns.',
    type: 'object',
    properties: { units: described(unitReader.json, UNITS) },
    required: ['units'],
    // A number without a unit means inches or mm, and so do its limits.
    if: { properties: { units: { const: 'in' } }, required: ['units'] },
    // biome-ignore lint/suspicious/noThenProperty: a keyword of JSON Schema
    then: { $ref: '#/$defs/job-in' },
    else: { $ref: '#/$defs/job-mm' },
    $defs: { ...(inDefs as JsonSchema), ...(mmDefs as JsonSchema), 'job-in': inches, 'job-mm': mm },
  };
}

const UNITS = 'Units of every length that has none of its own.';

/** The schema of job files in one unit. */
export function jobSchemaIn(units: LengthUnit, families: readonly JointKind[]): JsonSchema {
  const { parts, defs } = partsIn(units, families);
  const { title, units: unit, shop, '': piece, ...joints } = parts;
  const other = units === 'in' ? 'mm' : 'in';
  const others = partsIn(other, []);
  return {
    type: 'object',
    properties: {
      title,
      units: described(unit, UNITS),
      shop: {
        description:
          'Bits, bushings, sheet stock and machines of one workshop: the path of a file, or given here.',
        anyOf: [
          { type: 'string' },
          inUnits(explained(shop, ['shop']), units, false),
          inUnits(explained(others.parts.shop, ['shop']), other, true),
        ],
      },
      joints: {
        description: 'Joints by name; the name is also the name of the folder that holds their files.',
        type: 'object',
        minProperties: 1,
        maxProperties: MAX_JOINTS,
        propertyNames: { pattern: '^[^\\s._/\\\\-]', maxLength: LONGEST_NAME },
        additionalProperties: {
          type: 'object',
          properties: { kind: { enum: Object.keys(joints) } },
          required: ['kind'],
          allOf: Object.entries(joints).map(([kind, joint]) => ({
            if: { properties: { kind: { const: kind } }, required: ['kind'] },
            // biome-ignore lint/suspicious/noThenProperty: a keyword of JSON Schema
            then: withKind(explained(joint, ['joint']), kind),
          })),
        },
      },
      pieces: {
        description:
          'Drawers, boxes and cases by name, with their finished outside size: cut lists come from them.',
        type: 'object',
        maxProperties: MAX_JOINTS,
        additionalProperties: explained(piece, ['pieces']),
      },
    },
    required: ['units', 'joints'],
    additionalProperties: false,
    $defs: { ...others.defs, ...defs },
  };
}

/** The parts of the schema, each kind of joint under its name. */
function partsIn(
  unit: LengthUnit,
  families: readonly JointKind[],
): { readonly parts: JsonSchema; readonly defs: JsonSchema } {
  const units: FileUnits = { units: unit, known: true };
  const kit = makeKit(units, NO_TOOLS);
  const kinds = Object.fromEntries(families.map(({ kind, fields }) => [kind, fields(kit)]));
  const { properties = {}, $defs = {} } = z.toJSONSchema(
    object({
      title: field(textReader('Tray')).exactOptional(),
      units: field(unitReader),
      shop: wholeShopSchema(units, kit).exactOptional(),
      // Not the name of a kind of joint: those have letters.
      '': pieceSchema(kit),
      ...kinds,
    }),
    { io: 'input', target: 'draft-2020-12', unrepresentable: 'any' },
  );
  return { parts: properties, defs: $defs };
}

const ALIGN: JsonSchema = { ...alignReader.json, description: descriptionAt(['joint', 'align']) };

/** The reader takes `kind` off a joint before its family sees it; here it is put back. */
function withKind(joint: unknown, kind: string): JsonSchema {
  const { properties, ...rest } = joint as { properties?: JsonSchema };
  return { ...rest, properties: { kind: { const: kind }, align: ALIGN, ...properties } };
}

/** A shop whose numbers are in these units: its own, where it must say them, or else the job's. */
function inUnits(shop: unknown, units: LengthUnit, said: boolean): JsonSchema {
  const {
    properties,
    required = [],
    ...rest
  } = shop as {
    properties?: { units?: JsonSchema };
    required?: readonly string[];
  };
  const { enum: _, ...unit } = properties?.units ?? {};
  return {
    ...rest,
    properties: { ...properties, units: { ...unit, const: units } },
    required: said ? [...required, 'units'] : required,
  };
}

function described(schema: unknown, description: string): JsonSchema {
  return { ...(schema as JsonSchema), description };
}

/** A schema with what each key means beside it, by its place: the path of the keys that lead to it. */
function explained(schema: unknown, path: readonly string[]): unknown {
  if (Array.isArray(schema)) return schema.map((one) => explained(one, path));
  if (!isRecord(schema)) return schema;
  const inner = Object.entries(schema).map(([key, value]) => [
    key,
    key === 'properties' && isRecord(value) ? explainedKeys(value, path) : explained(value, path),
  ]);
  return Object.fromEntries(inner);
}

function explainedKeys(properties: JsonSchema, path: readonly string[]): JsonSchema {
  const keys = Object.entries(properties).map(([key, value]) => {
    const place = [...path, key];
    const whole = explained(value, place);
    const description = descriptionAt(place);
    return [key, description === undefined ? whole : described(whole, description)];
  });
  return Object.fromEntries(keys);
}
