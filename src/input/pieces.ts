import type { z } from 'zod';
import { type Diagnostic, diagnostic, hasErrors } from '../diagnostics/diagnostic.js';
import { didYouMean } from '../diagnostics/did-you-mean.js';
import type { FieldKit } from './fields/field-kit.js';
import { isRecord, type LengthRange, readPresent, textReader, unfit } from './fields/read-value.js';
import { diagnosticsOf, field } from './fields/schema.js';
import { LONGEST_NAME, MAX_JOINTS, MAX_PIECES } from './limits.js';
import type { Joint, Piece, PieceKind } from './types.js';

/** The name of each outside size in the job file, by what it is measured along. */
export const pieceSizes = {
  drawer: { sides: 'depth', ends: 'width', across: 'height' },
  box: { sides: 'length', ends: 'width', across: 'height' },
  case: { sides: 'height', ends: 'width', across: 'depth' },
} as const satisfies Readonly<Record<PieceKind, Readonly<Record<'sides' | 'ends' | 'across', string>>>>;

/** Widths that should be one and the same may differ by this much, mm: a fraction typed as a decimal. */
const SAME_SIZE = 0.01;

/** What a bottom is smaller than the room between its grooves, each way, mm: 1/16 in, common practice, no source. */
const BOTTOM_CLEARANCE = 25.4 / 16;

/** More than this is no allowance, mm. */
const ALLOWANCE: LengthRange = { most: 10, because: 'more than that is a size of its own' };

/** Schema of one entry under `pieces:`. */
export function pieceSchema(kit: FieldKit) {
  const { width, depth, height, length } = {
    width: kit.length(),
    depth: kit.length().exactOptional(),
    height: kit.length(),
    length: kit.length().exactOptional(),
  };
  const name = field(textReader('front-corner', LONGEST_NAME));
  return kit
    .object(
      {
        kind: kit.option(['drawer', 'box', 'case']),
        outside: kit.object({ width, depth, height, length }),
        corners: name,
        back: name.exactOptional(),
        count: kit.count(1, MAX_PIECES).exactOptional(),
        'groove-depth': kit.length().exactOptional(),
        'bottom-clearance': kit.lengthOrZero(ALLOWANCE).exactOptional(),
        sanding: kit.lengthOrZero(ALLOWANCE).exactOptional(),
      },
      ({ fields: { kind, outside } }) =>
        kind === undefined || outside === undefined ? [] : sizeDiagnostics(kind, outside),
    )
    .transform(({ outside, count, ...written }) => {
      const { 'groove-depth': grooveDepth, 'bottom-clearance': bottomClearance, ...rest } = written;
      const sizes = pieceSizes[rest.kind];
      const along = (of: 'sides' | 'ends' | 'across') => outside[sizes[of]] ?? 0;
      return {
        ...rest,
        sides: along('sides'),
        ends: along('ends'),
        across: along('across'),
        count: count ?? 1,
        bottomClearance: bottomClearance ?? BOTTOM_CLEARANCE,
        ...(grooveDepth === undefined ? {} : { grooveDepth }),
      };
    });
}

/** The outside sizes of a kind of piece: those it needs and none that it has no use for. */
function sizeDiagnostics(
  kind: PieceKind,
  outside: Readonly<Partial<Record<'width' | 'depth' | 'height' | 'length', number>>>,
): readonly Diagnostic[] {
  const wanted: readonly string[] = Object.values(pieceSizes[kind]);
  const lacking = wanted.filter((key) => outside[key as 'depth'] === undefined);
  const odd = (['depth', 'length'] as const).filter(
    (key) => outside[key] !== undefined && !wanted.includes(key),
  );
  return [
    ...lacking.map((key) => diagnostic('piece-size-missing', 'refused', 'outside', { kind, key, wanted })),
    ...odd.map((key) => diagnostic('piece-size-odd', 'refused', `outside.${key}`, { kind, key, wanted })),
  ];
}

export interface PiecesReading {
  readonly pieces: readonly Piece[];
  readonly diagnostics: readonly Diagnostic[];
}

/** Reads what stands under `pieces`: a map of names to drawers, boxes and cases. May be left out. */
export function readPieces(value: unknown, kit: FieldKit, joints: readonly Joint[]): PiecesReading {
  if (value === undefined) return { pieces: [], diagnostics: [] };
  if (!isRecord(value) || Object.keys(value).length > MAX_JOINTS) {
    const what = 'a map of names to drawers, boxes and cases';
    const example = '{ tray: { kind: box, ... } }';
    const reader = { what, example, json: {}, read: (other: unknown) => unfit(other, { what, example }) };
    const diagnostics = readPresent(reader, value).diagnostics.map((one) => ({ ...one, at: 'pieces' }));
    return { pieces: [], diagnostics };
  }
  const schema: z.ZodType<Omit<Piece, 'name'>> = pieceSchema(kit) as z.ZodType<Omit<Piece, 'name'>>;
  const readings = Object.entries(value).map(([name, entry]): PiecesReading => {
    const at = `pieces.${name}`;
    const named = textReader('tray', LONGEST_NAME)
      .read(name)
      .diagnostics.map((one) => ({ ...one, at }));
    const read = schema.safeParse(entry);
    if (!read.success) return { pieces: [], diagnostics: [...named, ...diagnosticsOf(read.error, at)] };
    const piece = { ...read.data, name };
    const diagnostics = [...named, ...jointDiagnostics(piece, joints, at)];
    return { pieces: hasErrors(diagnostics) ? [] : [piece], diagnostics };
  });
  return {
    pieces: readings.flatMap(({ pieces }) => pieces),
    diagnostics: readings.flatMap(({ diagnostics }) => diagnostics),
  };
}

/** The joints that a piece names: they are there, and as wide as the piece is high. */
function jointDiagnostics(piece: Piece, joints: readonly Joint[], at: string): readonly Diagnostic[] {
  const named = [
    { key: 'corners', name: piece.corners },
    ...(piece.back === undefined ? [] : [{ key: 'back', name: piece.back }]),
  ];
  return named.flatMap(({ key, name }): readonly Diagnostic[] => {
    const joint = joints.find((one) => one.name === name);
    if (!joint) {
      const known = joints.map((one) => one.name);
      const nearest = didYouMean(name, known);
      const data = { key, read: name, known, ...(nearest === undefined ? {} : { nearest }) };
      return [diagnostic('piece-joint-unknown', 'refused', `${at}.${key}`, data)];
    }
    if (Math.abs(joint.width - piece.across) <= SAME_SIZE) return [];
    const size = pieceSizes[piece.kind].across;
    const data = { size, across: piece.across, joint: name, width: joint.width };
    return [diagnostic('piece-joint-width', 'refused', `${at}.outside.${size}`, data)];
  });
}
