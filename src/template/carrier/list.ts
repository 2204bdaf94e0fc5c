import { extents } from '../../geometry/outline.js';
import type { Extents } from '../../geometry/types.js';
import type { Carrier, CarrierPart, CarrierRole } from './types.js';

/** The carriers that are cut: a plate's mirror image takes those of the plate itself, turned over. */
export const carriersToCut = (
  templates: readonly { readonly carrier?: Carrier | undefined }[],
): readonly Carrier[] =>
  templates.flatMap(({ carrier }) => (carrier && !carrier.turnedOver ? [carrier] : []));

/** What a set-up sheet says of a carrier, as data: what is cut, what it is screwed on with, and in which order. Lengths in mm. */
export interface CarrierRow {
  readonly name: string;
  readonly role: CarrierRole;
  readonly board?: string;
  /** Pieces of the sheet, from the plate downward. */
  readonly pieces: readonly {
    readonly width: number;
    readonly height: number;
    readonly copies: number;
    /** Set where it is cut back to clear the bit. */
    readonly clear?: true;
  }[];
  /**
   * Its holes through the plate, measured from the plate's left end and from its edge nearest to the operator as that side is used;
   * those of a gauge from its own left end and its own near edge.
   */
  readonly holes: readonly { readonly fromEnd: number; readonly fromEdge: number }[];
  /** What each screw goes through: the plate and all layers, or the gauge's alone; 0 where there is no screw. */
  readonly grip: number;
  readonly scrap?: NonNullable<CarrierPart['scrap']>;
}

export interface CarrierStep {
  /**
   * - `cut`: the file's parts, from the plate's sheet.
   * - `sink`: the plate's holes, from above, for heads as wide as the screws' names say.
   * - `fasten`: a part under the plate, its holes over the plate's own.
   * - `join`: the layers of a gauge, hole over hole.
   * - `keep`: a loose spacer.
   * - `remove`: a fence, before the plate is turned for boards that lie flat.
   * - `clamp`: a part that there was no room for, at the plate's line or notch.
   * - `raise`: a flat board, on scrap this thick and no larger than itself, so that stops hang free.
   */
  readonly do: 'cut' | 'sink' | 'fasten' | 'join' | 'keep' | 'remove' | 'clamp' | 'raise';
  readonly part?: string;
  readonly by?: number;
}

/** `plates` are the sides' own outlines, in the order of `Plate.sides`: holes are measured from their edges. */
export function carrierRows(
  { parts, thickness }: Carrier,
  plates: readonly Extents[],
): readonly CarrierRow[] {
  return parts.map((part): CarrierRow => {
    const { name, role, board, layers, holes, scrap, side } = part;
    const boxes = layers.map(({ outline }) => extents(outline));
    const from = role === 'gauge' ? boxes[0] : plates[side];
    const count = layers.reduce((sum, { copies }) => sum + copies, 0);
    return {
      name,
      role,
      ...(board !== undefined && { board }),
      pieces: layers.map(({ copies, clear }, i) => {
        const { minX, maxX, minY, maxY } = boxes[i] ?? { minX: 0, maxX: 0, minY: 0, maxY: 0 };
        return { width: maxX - minX, height: maxY - minY, copies, ...(clear && { clear }) };
      }),
      holes: holes.map(({ x, y }) => ({ fromEnd: x - (from?.minX ?? 0), fromEdge: y - (from?.minY ?? 0) })),
      grip: holes.length === 0 ? 0 : (role === 'gauge' ? count : count + 1) * thickness,
      ...(scrap && { scrap }),
    };
  });
}

/** How a carrier is built, in the order of work. */
export function carrierSteps({ parts, lacking, raise, turnedOver }: Carrier): readonly CarrierStep[] {
  const ways = { fence: 'fasten', stop: 'fasten', gauge: 'join', spacer: 'keep' } as const;
  return [
    ...(turnedOver ? [] : [{ do: 'cut' as const }, { do: 'sink' as const }]),
    ...parts.map(({ name, role }) => ({ do: ways[role], part: name })),
    ...(parts.some(({ role }) => role === 'gauge')
      ? parts
          .filter(({ role }) => role === 'fence')
          .map(({ name }) => ({ do: 'remove' as const, part: name }))
      : []),
    ...lacking.map(({ name }) => ({ do: 'clamp' as const, part: name })),
    ...(raise > 0 ? [{ do: 'raise' as const, by: raise }] : []),
  ];
}
