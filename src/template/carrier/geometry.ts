import { bushingOpening } from '../../geometry/compensate.js';
import { offsetRegion } from '../../geometry/offset.js';
import { extents } from '../../geometry/outline.js';
import { regionOf } from '../../geometry/regions/nesting.js';
import { mirrorX } from '../../geometry/transform.js';
import type { Extents, Region } from '../../geometry/types.js';
import { boardOf } from '../../joints/boards.js';
import type { Hold, JointBoard } from '../../joints/contract.js';
import type { SolvedJoint } from '../../joints/family.js';
import { overhang } from '../../joints/nose.js';
import { turnedShape } from '../one-plate.js';
import { mirroredCut, type Plate, type PlateSide, type Screw } from '../plate.js';

/** Plates as the carrier's parts see them. Lengths in mm, in the coordinates of one side of the plate. */

/** All that the bit sweeps under one side, whatever the level: the openings, wider or narrower than the bushing by what the bit is. */
export function sweptUnder({ cut }: PlateSide): Region {
  const openings = bushingOpening(cut.waste, cut.cutterRadius, cut.bushing.outside / 2);
  return offsetRegion(openings, overhang(cut.bit, cut.bushing));
}

/** What there is of the sheet, as one of its sides has it. */
export function sheetOf({ outline, holes }: Plate, { turned }: PlateSide): Region {
  const all = [outline, ...holes];
  return regionOf(turned ? all.map((one) => turnedShape(one, turned)) : all);
}

/** Where the boards of a side lie, in their order. */
export interface Under {
  readonly board: string;
  readonly posture: Hold['posture'];
  readonly at: Extents;
  readonly thickness: number;
  readonly lip?: NonNullable<JointBoard['lip']>;
}

export function boardsUnderSide({ cut }: PlateSide, solved: SolvedJoint): readonly Under[] {
  return cut.stock.map(({ board, outline, thickness }) => {
    const told = boardOf(solved, board);
    return {
      board,
      posture: told?.hold?.posture ?? 'on end',
      at: extents(outline),
      thickness: told?.material.thickness ?? thickness ?? 0,
      ...(told?.lip && { lip: told.lip }),
    };
  });
}

// Mirror images: a right stop is made as the left one of the mirrored plate, so that both are exact images.

export function mirroredSide(side: PlateSide): PlateSide {
  const { width, cut, outline, screws, box, referenceEdge } = side;
  return {
    ...side,
    cut: mirroredCut(cut, width),
    outline: mirrorX(outline, width),
    screws: screws.map((one) => mirroredScrew(one, width)),
    box: mirroredExtents(box, width),
    referenceEdge: width - referenceEdge,
  };
}

/** A plate with all of its sides; the half turn stays as it is, for it is about the middle of the width. */
export function mirroredPlate(plate: Plate): Plate {
  const { width, holes, registers } = plate;
  return {
    ...plate,
    ...mirroredSide(plate),
    holes: holes.map((one) => mirrorX(one, width)),
    registers: registers.map((one) => mirroredScrew(one, width)),
    sides: plate.sides.map(mirroredSide),
  };
}

export const mirroredScrew = (one: Screw, width: number): Screw => ({ ...one, x: width - one.x });

export const mirroredExtents = ({ minX, maxX, ...ys }: Extents, width: number): Extents => ({
  ...ys,
  minX: width - maxX,
  maxX: width - minX,
});
