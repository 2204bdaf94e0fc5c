import type { z } from 'zod';
import { didYouMean } from '../findings/did-you-mean.js';
import { type Finding, finding, isRefused } from '../findings/finding.js';
import type { FieldKit } from './field-kit.js';
import { LONGEST_NAME, MOST_JOINTS, MOST_PIECES } from './limits.js';
import { isRecord, readPresent, textReader, unfit } from './read-value.js';
import { field, findingsOf } from './schema.js';
import type { Joint, Piece, PieceKind } from './types.js';

/** The name of each outside size in the job file, by what it is measured along. */
export const pieceSizes = {
  drawer: { sides: 'depth', ends: 'width', across: 'height' },
  box: { sides: 'length', ends: 'width', across: 'height' },
  case: { sides: 'height', ends: 'width', across: 'depth' },
} as const satisfies Readonly<Record<PieceKind, Readonly<Record<'sides' | 'ends' | 'across', string>>>>;

/** Widths that should be one and the same may differ by this much, mm: a fraction typed as a decimal. */
const SAME_WIDTH = 0.01;

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
        count: kit.count(1, MOST_PIECES).exactOptional(),
        'groove-depth': kit.length().exactOptional(),
      },
      ({ fields: { kind, outside } }) =>
        kind === undefined || outside === undefined ? [] : sizeFindings(kind, outside),
    )
    .transform(({ outside, 'groove-depth': grooveDepth, count, ...rest }) => {
      const sizes = pieceSizes[rest.kind];
      const along = (of: 'sides' | 'ends' | 'across') => outside[sizes[of]] ?? 0;
      return {
        ...rest,
        sides: along('sides'),
        ends: along('ends'),
        across: along('across'),
        count: count ?? 1,
        ...(grooveDepth === undefined ? {} : { grooveDepth }),
      };
    });
}

/** The outside sizes of a kind of piece: those it needs and none that it has no use for. */
function sizeFindings(
  kind: PieceKind,
  outside: Readonly<Partial<Record<'width' | 'depth' | 'height' | 'length', number>>>,
): readonly Finding[] {
  const wanted: readonly string[] = Object.values(pieceSizes[kind]);
  const lacking = wanted.filter((key) => outside[key as 'depth'] === undefined);
  const odd = (['depth', 'length'] as const).filter(
    (key) => outside[key] !== undefined && !wanted.includes(key),
  );
  return [
    ...lacking.map((key) => finding('piece-size-missing', 'refused', 'outside', { kind, key, wanted })),
    ...odd.map((key) => finding('piece-size-odd', 'refused', `outside.${key}`, { kind, key, wanted })),
  ];
}

export interface PiecesReading {
  readonly pieces: readonly Piece[];
  readonly findings: readonly Finding[];
}

/** Reads what stands under `pieces`: a map of names to drawers, boxes and cases. May be left out. */
export function readPieces(value: unknown, kit: FieldKit, joints: readonly Joint[]): PiecesReading {
  if (value === undefined) return { pieces: [], findings: [] };
  if (!isRecord(value) || Object.keys(value).length > MOST_JOINTS) {
    const what = 'a map of names to drawers, boxes and cases';
    const example = '{ tray: { kind: box, ... } }';
    const reader = { what, example, json: {}, read: (other: unknown) => unfit(other, { what, example }) };
    const findings = readPresent(reader, value).findings.map((one) => ({ ...one, at: 'pieces' }));
    return { pieces: [], findings };
  }
  const schema: z.ZodType<Omit<Piece, 'name'>> = pieceSchema(kit) as z.ZodType<Omit<Piece, 'name'>>;
  const readings = Object.entries(value).map(([name, entry]): PiecesReading => {
    const at = `pieces.${name}`;
    const named = textReader('tray', LONGEST_NAME)
      .read(name)
      .findings.map((one) => ({ ...one, at }));
    const read = schema.safeParse(entry);
    if (!read.success) return { pieces: [], findings: [...named, ...findingsOf(read.error, at)] };
    const piece = { ...read.data, name };
    const findings = [...named, ...jointFindings(piece, joints, at)];
    return { pieces: isRefused(findings) ? [] : [piece], findings };
  });
  return {
    pieces: readings.flatMap(({ pieces }) => pieces),
    findings: readings.flatMap(({ findings }) => findings),
  };
}

/** The joints that a piece names: they are there, and as wide as the piece is high. */
function jointFindings(piece: Piece, joints: readonly Joint[], at: string): readonly Finding[] {
  const named = [
    { key: 'corners', name: piece.corners },
    ...(piece.back === undefined ? [] : [{ key: 'back', name: piece.back }]),
  ];
  return named.flatMap(({ key, name }): readonly Finding[] => {
    const joint = joints.find((one) => one.name === name);
    if (!joint) {
      const known = joints.map((one) => one.name);
      const nearest = didYouMean(name, known);
      const data = { key, read: name, known, ...(nearest === undefined ? {} : { nearest }) };
      return [finding('piece-joint-unknown', 'refused', `${at}.${key}`, data)];
    }
    if (Math.abs(joint.width - piece.across) <= SAME_WIDTH) return [];
    const size = pieceSizes[piece.kind].across;
    const data = { size, across: piece.across, joint: name, width: joint.width };
    return [finding('piece-joint-width', 'refused', `${at}.outside.${size}`, data)];
  });
}
