import { z } from 'zod';
import { type Diagnostic, diagnostic, err, hasErrors, ok, type Result } from '../diagnostics/diagnostic.js';
import { plainText } from '../diagnostics/plain-text.js';
import type { Locator } from '../diagnostics/position.js';
import type { LengthUnit } from '../units/length.js';
import { defaultPlate } from './defaults.js';
import type { FieldKit } from './fields/field-kit.js';
import { type FileUnits, isRecord, readPresent, textReader, UNREAD } from './fields/read-value.js';
import { diagnosticsOf, field, object } from './fields/schema.js';
import { type JointKind, readJoints } from './joints.js';
import { makeKit, NO_TOOLS } from './kit.js';
import { MAX_FINDINGS } from './limits.js';
import { readPieces } from './pieces.js';
import { emptyShop, readShop, type ShopReading, shopKeys, unitReader } from './shop.js';
import type { Job, Joint, Shop } from './types.js';
import { besideFile, isSameFile } from './yaml/file-path.js';
import { locator } from './yaml/locate.js';
import { readTree, type Source, type Tree } from './yaml/tree.js';

/** A job, or every reason why there is none, and what is needed to speak of it. */
export interface JobReading {
  readonly result: Result<Job>;
  /**
   * The job without the joints and pieces that were refused, for whoever can go on with the others; absent where
   * what all of them share is refused.
   */
  readonly readable?: Job;
  /** The place of a key by its path, in the job or in the shop file that it names. Never undefined. */
  readonly locate: Locator;
  /** Every file that was read, the job first: what to watch for changes. Missing ones too. */
  readonly files: readonly string[];
  /** Units for messages: the job's, or inches where it says none. */
  readonly units: LengthUnit;
}

/**
 * Reads a job file. `open` gives the text of another file, named as seen from where `source.name` is seen,
 * or undefined when there is no such text file. Diagnostics come in the order of the files and are all there is
 * to say about them, up to a hundred. Never throws for anything that a file can hold.
 */
export function readJob(
  source: Source,
  families: readonly JointKind[],
  open: (path: string) => string | undefined,
): JobReading {
  const tree = readTree(source, '');
  const header = readHeader(tree);
  const units: FileUnits =
    header.units === undefined ? { units: 'in', known: false } : { units: header.units, known: true };
  const mistyped = header.diagnostics.flatMap(nearestOf);
  const written = mistyped.includes('shop') ? UNREAD : header.shop;
  const shop = !isRecord(tree.value) ? undefined : takeShop(source, written, units, open);
  const included = filesBeside(source, open);
  const joints =
    shop === undefined
      ? undefined
      : readJoints(header.joints, tree, families, units, shop.reading.tools, included.open);
  const pieces = joints && readPieces(header.pieces, makeKit(units, NO_TOOLS), joints.joints);
  const locate = locator({
    job: { name: source.name, places: tree.places },
    ...(shop?.file === undefined ? {} : { shop: shop.file }),
  });
  const all = inOrder(
    [
      ...tree.diagnostics,
      ...header.diagnostics,
      ...(shop?.diagnostics ?? []),
      ...(joints?.diagnostics ?? []).filter(
        ({ code, at }) => code !== 'key-missing' || !mistyped.includes(at),
      ),
      // A joint that could not be read has been answered for; a piece that names it has nothing to add.
      ...(joints !== undefined && hasErrors(joints.diagnostics) ? [] : (pieces?.diagnostics ?? [])),
      ...(shop === undefined || joints === undefined ? [] : plateDiagnostics(shop.reading, joints.joints)),
    ],
    locate,
    source.name,
  );
  const diagnostics = fractionsTogether(all, locate);
  const files = [source.name, ...(shop?.file === undefined ? [] : [shop.file.name]), ...included.names()];
  const names = joints === undefined ? [] : namesOf(tree);
  const job: Job | undefined =
    shop === undefined || joints === undefined || all.some((one) => isOfAll(one, names))
      ? undefined
      : {
          title: header.title ?? titleOf(source.name),
          units: units.units,
          shop: shopOf(shop.reading, units.units),
          joints: joints.joints.filter(({ name }) => !all.some((one) => isRefusalOf(name, one, names))),
          pieces: pieces?.pieces ?? [],
        };
  const result = hasErrors(diagnostics) || job === undefined ? err<Job>(diagnostics) : ok(job, diagnostics);
  return { result, ...(job && { readable: job }), locate, files, units: units.units };
}

function namesOf({ keys, value }: Tree): readonly string[] {
  const written = isRecord(value) && isRecord(value.joints) ? Object.keys(value.joints) : [];
  return keys.get('joints') ?? written;
}

/** A refusal of what every joint is read with: the file, its header, the shop, the list of joints. */
function isOfAll(one: Diagnostic, names: readonly string[]): boolean {
  const isOfPiece = one.at === 'pieces' || one.at.startsWith('pieces.');
  return one.level === 'refused' && !isOfPiece && jointOf(one, names) === undefined;
}

function isRefusalOf(name: string, one: Diagnostic, names: readonly string[]): boolean {
  return one.level === 'refused' && jointOf(one, names) === name;
}

/** The joint that a diagnostic speaks of. A name may hold dots, so the longest that fits is meant. */
export function jointOf({ at }: Diagnostic, names: readonly string[]): string | undefined {
  return names
    .filter((name) => at === `joints.${name}` || at.startsWith(`joints.${name}.`))
    .sort((one, other) => other.length - one.length)[0];
}

/** Files that joints name, as seen from the job's folder; each is read once and remembered. */
function filesBeside(source: Source, open: (path: string) => string | undefined) {
  const read = new Map<string, string | undefined>();
  return {
    names: () => [...read.keys()],
    open: (path: string) => {
      const at = besideFile(source.name, path);
      if (!read.has(at)) read.set(at, open(at));
      return { at, text: read.get(at) };
    },
  };
}

/** The key that a mistyped one was meant for. */
function nearestOf({ code, data }: Diagnostic): readonly string[] {
  const { nearest } = data as { readonly nearest?: string };
  return code === 'key-unknown' && nearest !== undefined ? [nearest] : [];
}

interface Header {
  readonly title?: string;
  readonly units?: LengthUnit;
  readonly shop?: unknown;
  readonly joints?: unknown;
  readonly pieces?: unknown;
  readonly diagnostics: readonly Diagnostic[];
}

function readHeader(tree: Tree): Header {
  if (tree.value === undefined) return { diagnostics: [] };
  const read = headerSchema().safeParse(tree.value);
  const record = (typeof tree.value === 'object' ? tree.value : null) as Readonly<
    Record<string, unknown>
  > | null;
  const units = readPresent(unitReader, record?.units);
  return {
    ...(read.success && read.data.title !== undefined ? { title: read.data.title } : {}),
    ...(units.ok ? { units: units.value } : {}),
    shop: record?.shop,
    joints: record?.joints,
    pieces: record?.pieces,
    diagnostics: read.success ? [] : headerDiagnostics(diagnosticsOf(read.error, ''), record ?? {}),
  };
}

function headerSchema() {
  return object({
    title: field(textReader('Specimen cabinet, small tray')).exactOptional(),
    units: field(unitReader),
    shop: z.unknown().exactOptional(),
    joints: z.unknown().exactOptional(),
    pieces: z.unknown().exactOptional(),
  });
}

/** A whole shop file given as a job is said once; the joints that it lacks are no fault of it. */
function headerDiagnostics(
  diagnostics: readonly Diagnostic[],
  record: Readonly<Record<string, unknown>>,
): readonly Diagnostic[] {
  const keys = Object.keys(record).filter((key) => shopKeys.includes(key));
  const isShop = keys.length > 0 && !('joints' in record) && !('shop' in record);
  return isShop ? [diagnostic('job-is-shop', 'refused', keys[0] ?? '', {})] : diagnostics.map(belongsToShop);
}

/** `bits` beside `joints` was meant for the shop. */
function belongsToShop(one: Diagnostic): Diagnostic {
  if (one.code !== 'key-unknown' || !shopKeys.includes(one.at)) return one;
  return diagnostic('key-elsewhere', 'refused', one.at, { key: one.at, belongs: 'shop' });
}

interface ShopTaken {
  readonly reading: ShopReading;
  readonly file?: { readonly name: string; readonly places: Tree['places'] };
  readonly diagnostics: readonly Diagnostic[];
}

/** The shop, from the job itself or from the file that it names. */
function takeShop(
  source: Source,
  value: unknown,
  units: FileUnits,
  open: (path: string) => string | undefined,
): ShopTaken {
  if (value === undefined) return { reading: emptyShop(units), diagnostics: [] };
  if (value === UNREAD) return { reading: readShop(undefined, units), diagnostics: [] };
  if (typeof value !== 'string') {
    const own = ownUnits(value);
    const reading = readShop(value, own ?? units);
    return { reading, diagnostics: reading.diagnostics };
  }
  const name = besideFile(source.name, value);
  const unreadable = { reading: readShop(undefined, units), file: { name, places: new Map() } };
  if (isSameFile(name, source.name)) {
    return { ...unreadable, diagnostics: [diagnostic('shop-itself', 'refused', 'shop', { path: value })] };
  }
  const text = value.trim() === '' || value.includes('\0') ? undefined : open(name);
  if (text === undefined) {
    return {
      ...unreadable,
      diagnostics: [diagnostic('shop-unreadable', 'refused', 'shop', { path: value, opened: name })],
    };
  }
  const tree = readTree({ name, text }, 'shop');
  const file = { name, places: tree.places };
  if (tree.value === undefined) return { ...unreadable, file, diagnostics: tree.diagnostics };
  if (typeof tree.value === 'object' && tree.value !== null && 'joints' in tree.value) {
    return {
      ...unreadable,
      file,
      diagnostics: [diagnostic('shop-is-job', 'refused', 'shop', { path: value })],
    };
  }
  const own = ownUnits(tree.value);
  const reading = readShop(tree.value, own ?? { units: units.units, known: false });
  const lacking =
    own === undefined && !reading.diagnostics.some((one) => one.at === 'shop.units')
      ? readPresent(unitReader, undefined).diagnostics.map((one) => ({ ...one, at: 'shop.units' }))
      : [];
  return { reading, file, diagnostics: [...tree.diagnostics, ...reading.diagnostics, ...lacking] };
}

function ownUnits(shop: unknown): FileUnits | undefined {
  const written = typeof shop === 'object' && shop !== null && 'units' in shop ? shop.units : undefined;
  const units = readPresent(unitReader, written);
  return units.ok ? { units: units.value, known: true } : undefined;
}

/** Templates need a plate; a joint cut by hand does not. */
function plateDiagnostics(shop: ShopReading, joints: readonly Joint[]): readonly Diagnostic[] {
  const routed = joints.find((joint) => joint.bushing !== undefined);
  if (routed === undefined || shop.plate !== undefined || hasErrors(shop.diagnostics)) return [];
  return [diagnostic('plate-missing', 'refused', 'shop.plate', { joint: routed.name })];
}

function shopOf(reading: ShopReading, units: LengthUnit): Shop {
  const { tools, plate, printer, laser, cnc, print, files, colours } = reading;
  return {
    bits: present(tools.bits),
    bushings: present(tools.bushings),
    plate: plate ?? defaultPlate(units),
    printer,
    ...(laser === undefined ? {} : { laser }),
    ...(cnc === undefined ? {} : { cnc }),
    ...(print === undefined ? {} : { print }),
    ...(files === undefined ? {} : { files }),
    colours,
  };
}

function present<T>(tools: ReadonlyMap<string, T | undefined>): Readonly<Record<string, T>> {
  return Object.fromEntries([...tools].flatMap(([name, tool]) => (tool === undefined ? [] : [[name, tool]])));
}

/** The file's name without folders and ending, for a job without a title. */
function titleOf(file: string): string {
  const name = file.split(/[/\\]/).at(-1) ?? '';
  return plainText(name.replace(/\.[^.]+$/, '')) || 'Untitled';
}

/** More fractions than this in a file of mm are not a slip in each, but the wrong units. */
const MAX_FRACTIONS = 3;

/** Many inches in a file that says mm are one mistake, said where the units stand. */
function fractionsTogether(diagnostics: readonly Diagnostic[], locate: Locator): readonly Diagnostic[] {
  const fractions = diagnostics
    .filter((one) => one.code === 'length-unclear')
    .filter(({ data }) => data.trouble === 'fraction-without-unit');
  const files = [...new Set(fractions.map(({ at }) => locate(at)?.file))];
  return files.reduce((rest, file) => {
    const alike = fractions.filter(({ at }) => locate(at)?.file === file);
    const [first] = alike;
    if (first === undefined || alike.length <= MAX_FRACTIONS) return rest;
    const at = ['units', 'shop.units'].find((one) => locate(one)?.file === file) ?? 'units';
    const { read, wouldDo } = first.data;
    const data = { count: alike.length, read, line: locate(first.at)?.line ?? 1, wouldDo };
    const one = diagnostic('fractions-in-mm', 'refused', at, data);
    return [one, ...rest.filter((other) => !alike.some((one) => one === other))];
  }, diagnostics);
}

/** In the order of the files, the job first, without those that say the same at the same place; at most a hundred. */
function inOrder(diagnostics: readonly Diagnostic[], locate: Locator, job: string): readonly Diagnostic[] {
  const ranked = diagnostics.map((one) => {
    const place = locate(one.at);
    return { one, file: place?.file === job ? 0 : 1, line: place?.line ?? 0, column: place?.column ?? 0 };
  });
  ranked.sort((a, b) => a.file - b.file || a.line - b.line || a.column - b.column);
  const ordered = ranked.map(({ one }) => one);
  if (ordered.length <= MAX_FINDINGS) return ordered;
  const more = diagnostic('findings-more', 'refused', '', { count: ordered.length - MAX_FINDINGS });
  return [...ordered.slice(0, MAX_FINDINGS), more];
}

export type { FieldKit, JointKind };
