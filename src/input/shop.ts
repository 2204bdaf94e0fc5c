import { z } from 'zod';
import { type Colours, defaultColours } from '../../shared/operations.js';
import { paperNames, paperSize } from '../../shared/paper.js';
import { type Diagnostic, diagnostic, hasErrors, ok } from '../diagnostics/diagnostic.js';
import { defaultLeastFinger, defaultPrinter } from './defaults.js';
import type { FieldKit } from './fields/field-kit.js';
import { fileSettings, machineSettings } from './fields/machine-schemas.js';
import {
  colourReader,
  type FileUnits,
  isRecord,
  type LengthRange,
  lengthReader,
  numberReader,
  optionReader,
  pairReader,
  readPresent,
  textReader,
  unfit,
  type ValueReader,
} from './fields/read-value.js';
import { diagnosticsOf, field, object } from './fields/schema.js';
import { bitSchema, bushingSchema } from './fields/tool-schemas.js';
import { makeKit, NO_TOOLS, type ShopTools } from './kit.js';
import {
  LONGEST_NAME,
  MAX_KEY_CLEARANCE,
  MAX_PAPER,
  MAX_SHEET,
  MAX_TOOLS,
  PRINTER_SCALES,
} from './limits.js';
import type { Cnc, Files, Laser, Paper, PlateStock, Print, Printer } from './types.js';

/** A workshop as far as its file could be read. */
export interface ShopReading {
  readonly tools: ShopTools;
  readonly plate: PlateStock | undefined;
  readonly printer: Printer;
  readonly laser: Laser | undefined;
  readonly cnc: Cnc | undefined;
  readonly print: Print | undefined;
  readonly files: Files | undefined;
  readonly colours: Colours;
  readonly diagnostics: readonly Diagnostic[];
}

/** Reads the content of a shop: the value under `shop` in a job, or a whole shop file. */
export function readShop(value: unknown, units: FileUnits): ShopReading {
  const kit = makeKit(units, NO_TOOLS);
  const read = shopSchema(units, kit).safeParse(value);
  const shop = read.success ? read.data : undefined;
  const record = isRecord(value) ? value : {};
  const settingsDiagnostics = read.success ? [] : diagnosticsOf(read.error, 'shop').map(nested);
  const misnamed = settingsDiagnostics.some(hidesTools);
  const bits = namedTools(record.bits, 'bits', bitSchema(kit));
  const bushings = namedTools(record.bushings, 'bushings', bushingSchema(kit));
  return {
    tools: { bits: bits.tools, bushings: bushings.tools, readable: isRecord(value) && !misnamed },
    plate: shop?.plate,
    printer: shop?.printer ?? defaultPrinter(units.units),
    laser: shop?.laser,
    cnc: shop?.cnc,
    print: shop?.print,
    files: shop?.files,
    colours: { ...defaultColours, ...shop?.colours },
    diagnostics: [
      ...(value === undefined ? [] : settingsDiagnostics),
      ...bits.diagnostics,
      ...bushings.diagnostics,
    ],
  };
}

/** `shop:` again inside a shop. */
function nested(one: Diagnostic): Diagnostic {
  return one.code === 'key-unknown' && one.at === 'shop.shop'
    ? diagnostic('shop-nested', 'refused', one.at, {})
    : one;
}

/** Whether a key was mistyped that holds bits or bushings, so that joints can't be blamed for naming them. */
function hidesTools({ code, data }: Diagnostic): boolean {
  const { nearest } = data as { readonly nearest?: string };
  return code === 'shop-nested' || (code === 'key-unknown' && (nearest === 'bits' || nearest === 'bushings'));
}

/** A job without a shop: joints cut by hand. */
export function emptyShop(units: FileUnits): ShopReading {
  return readShop({}, units);
}

/** Keys of a shop, for hints when they stand elsewhere. */
export const shopKeys: readonly string[] = [
  'bits',
  'bushings',
  'plate',
  'printer',
  'laser',
  'cnc',
  'print',
  'files',
  'colours',
];

export const unitReader = optionReader(['mm', 'in']);

/** The whole shop as one schema, for editors. */
export function wholeShopSchema(units: FileUnits, kit: FieldKit): z.ZodType {
  return object({
    ...settings(units, kit),
    bits: z.record(z.string(), bitSchema(kit)).meta({ maxProperties: MAX_TOOLS }).exactOptional(),
    bushings: z.record(z.string(), bushingSchema(kit)).meta({ maxProperties: MAX_TOOLS }).exactOptional(),
  });
}

/** The shop but for its tools, which are read one by one so that a bad one does not hide the others. */
function shopSchema(units: FileUnits, kit: FieldKit) {
  const tools = z.unknown().exactOptional();
  return object({ ...settings(units, kit), bits: tools, bushings: tools });
}

function settings(units: FileUnits, kit: FieldKit) {
  const pair = field(pairReader(lengthReader(units)));
  const colour = field(colourReader).exactOptional();
  return {
    units: field(unitReader).exactOptional(),
    plate: object({
      material: field(textReader('plywood')),
      thickness: kit.length(SHEET),
      'least-finger': kit.length(FINGER).prefault(`${defaultLeastFinger(units.units)} mm`),
      sheet: pair.exactOptional(),
      spacing: kit.lengthOrZero().exactOptional(),
      edge: kit.lengthOrZero().exactOptional(),
      'key-clearance': field(lengthReader(units, KEY_CLEARANCE)).exactOptional(),
      'cut-for': field(optionReader(['nominal', 'laser', 'cnc'])).exactOptional(),
    })
      .transform(
        ({
          'least-finger': leastFinger,
          'cut-for': cutFor,
          'key-clearance': keyClearance,
          ...rest
        }): PlateStock => ({
          ...rest,
          leastFinger,
          ...(keyClearance !== undefined && { keyClearance }),
          ...(cutFor === undefined || cutFor === 'nominal' ? {} : { cutFor }),
        }),
      )
      .exactOptional(),
    printer: printerSchema(units, kit).exactOptional(),
    ...machineSettings(units, kit),
    files: fileSettings(units),
    colours: object({
      CUT: colour,
      SCORE: colour,
      ENGRAVE: colour,
      REF: colour,
      STOCK: colour,
    }).exactOptional(),
  };
}

const KEY_CLEARANCE: LengthRange = {
  zero: true,
  most: MAX_KEY_CLEARANCE,
  because: 'a key with more play than that lets the parts of a plate shift',
};

function printerSchema(units: FileUnits, kit: FieldKit): z.ZodType<Printer> {
  const usual = defaultPrinter(units.units);
  const scale = field(numberReader(PRINTER_SCALES)).prefault(1);
  return object(
    {
      paper: field(paperReader(units)).prefault('name' in usual.paper ? usual.paper.name : null),
      margin: kit.lengthOrZero().prefault(`${usual.margin} mm`),
      'scale-x': scale,
      'scale-y': scale,
    },
    ({ fields: { paper, margin } }) => {
      const side = paper === undefined ? undefined : paperSize(paper)?.width;
      if (side === undefined || margin === undefined || 2 * margin < side) return [];
      return [diagnostic('paper-margins', 'refused', 'margin', { margin, side })];
    },
  ).transform(({ paper, margin, 'scale-x': scaleX, 'scale-y': scaleY }) => ({
    paper,
    margin,
    scaleX,
    scaleY,
  }));
}

const PAPER: LengthRange = { most: MAX_PAPER, because: 'no printer takes paper so large' };

const SHEET: LengthRange = { most: MAX_SHEET, because: 'templates are cut from thinner sheet' };

const FINGER: LengthRange = { most: MAX_SHEET, because: 'that is no least width of a template finger' };

/** A paper by name, or its width and height as a list or a map. */
function paperReader(units: FileUnits): ValueReader<Paper> {
  const names = optionReader(paperNames, (text) => text.trim().toLowerCase());
  const pair = pairReader(lengthReader(units, PAPER));
  const what = `one of ${paperNames.join(', ')}, or a width and a height`;
  const example = 'a4 or [210 mm, 297 mm]';
  return {
    what,
    example,
    json: { description: `Paper: ${what}.`, anyOf: [{ type: 'string' }, pair.json] },
    read: (value) => {
      if (Array.isArray(value)) {
        const size = pair.read(value);
        return size.ok ? ok({ width: size.value[0], height: size.value[1] }) : size;
      }
      if (typeof value !== 'string') return unfit(value, { what, example });
      const name = names.read(value);
      return name.ok ? ok({ name: name.value }) : name;
    },
  };
}

interface NamedTools<T> {
  readonly tools: ReadonlyMap<string, T | undefined>;
  readonly diagnostics: readonly Diagnostic[];
}

function namedTools<T extends object>(
  value: unknown,
  key: 'bits' | 'bushings',
  schema: z.ZodType<T>,
): NamedTools<T & { readonly name: string }> {
  const at = `shop.${key}`;
  if (value === undefined) return { tools: new Map(), diagnostics: [] };
  if (!isRecord(value)) {
    const what = `a map of names to ${key}`;
    const example =
      key === 'bits' ? '{ straight-38: { kind: straight, ... } }' : '{ half: { outside: 1/2 in } }';
    const reader = { what, example, json: {}, read: (other: unknown) => unfit(other, { what, example }) };
    return {
      tools: new Map(),
      diagnostics: readPresent(reader, value).diagnostics.map((one) => ({ ...one, at })),
    };
  }
  const entries = Object.entries(value);
  if (entries.length > MAX_TOOLS) {
    const data = { read: entries.length, least: 0, most: MAX_TOOLS, what: key, example: 'a shorter list' };
    return { tools: new Map(), diagnostics: [diagnostic('list-length', 'refused', at, data)] };
  }
  const readings = entries.map(([name, entry]) => {
    const placed = `${at}.${name}`;
    const named = textReader('half', LONGEST_NAME).read(name);
    const read = schema.safeParse(entry);
    const diagnostics = [
      ...named.diagnostics.map((one) => ({ ...one, at: placed })),
      ...(read.success ? [] : diagnosticsOf(read.error, placed)),
    ];
    const tool = read.success && !hasErrors(diagnostics) ? { ...read.data, name } : undefined;
    return { name, tool, diagnostics };
  });
  return {
    tools: new Map(readings.map(({ name, tool }) => [name, tool])),
    diagnostics: readings.flatMap(({ diagnostics }) => diagnostics),
  };
}
