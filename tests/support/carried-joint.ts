import { flatten } from '../../src/geometry/flatten.js';
import type { Job } from '../../src/input/types.js';
import { solveJob } from '../../src/outputs/joint.js';
import type { ReportedCut } from '../../src/outputs/report.js';
import type { FingerTemplate } from '../../src/template/finger-template.js';
import {
  area,
  erode,
  evenOdd,
  extents,
  intersection,
  type Polygon,
  type Polygons,
} from '../../src/verify/cut/polygons.js';
import { centresAtStops, cutAt } from '../../src/verify/cut/route.js';
import { cutRings, laidOn, middles, type Piece, piecesIn, spaceTo } from './carrier.js';
import { makeFiles } from './made.js';

/** Plates and carriers of a job's joints read back from their DXF files, and what stands where. Lengths in mm. */

export interface CarriedCut {
  readonly template: FingerTemplate;
  readonly cut: ReportedCut;
  readonly width: number;
  /** Every closed contour of the plate, in the cut's own coordinates. */
  readonly plate: readonly Polygon[];
  readonly pieces: readonly Piece[];
}

/** Every plate of a job, its mirror images with the carrier that serves them, too. */
export async function carriedCuts(job: Job): Promise<readonly CarriedCut[]> {
  const outcomes = solveJob(job);
  const files = await makeFiles(job, outcomes, { only: ['finger', 'carrier'], as: ['dxf'] });
  const textOf = (path: string): string => `${files.find((one) => one.path === path)?.content ?? ''}`;
  return outcomes.flatMap(({ joint, made }) =>
    (made?.templates ?? []).flatMap((template) => {
      const { plate, parts, carrier } = template;
      const sheets = files.filter(({ path }) => path.startsWith(`${joint.name}/${carrier?.file}`));
      const ofFile = (one: { readonly path: string }) =>
        [`${carrier?.file}.dxf`, `${carrier?.file}-sheet-`].some((end) =>
          one.path.startsWith(`${joint.name}/${end}`),
        );
      const tool = made?.report.holds.width ?? 0;
      const asCut = (rings: readonly Polygon[]): readonly Polygon[] =>
        tool > 0 ? erode(evenOdd(rings), tool / 2) : rings;
      const pieces = sheets
        .filter(ofFile)
        .flatMap(({ content }) => piecesIn(`${content}`))
        .map(({ ring, holes }): Piece => {
          const [outer = ring, ...inner] = asCut([ring, ...holes]);
          return { ring: outer, holes: inner };
        });
      const rings = (parts ?? [{ name: plate.name, shift: 0 }]).flatMap(({ name, shift }) =>
        asCut(cutRings(textOf(`${joint.name}/${name}.dxf`))).map((ring) =>
          ring.map(({ x, y }) => ({ x: x + shift, y })),
        ),
      );
      return plate.sides.flatMap((side, i): readonly CarriedCut[] => {
        const isMirror = plate.name.endsWith('-mirrored');
        const cut = made?.report.cuts.find(
          (one) => one.board === side.cut.board && one.template === plate.name.replace('-mirrored', ''),
        );
        if (!cut) return [];
        const turned = plate.sides[i]?.turned;
        const put = (ring: Polygon): Polygon =>
          turned ? ring.map(({ x, y }) => ({ x: turned.x - x, y: turned.y - y })) : ring;
        const own = isMirror ? mirroredCut(cut, made?.report.width ?? 0) : cut;
        return [{ template, cut: own, width: made?.report.width ?? 0, plate: rings.map(put), pieces }];
      });
    }),
  );
}

function mirroredCut(cut: ReportedCut, width: number): ReportedCut {
  return {
    ...cut,
    ...(cut.stops && { stops: cut.stops.map((stop) => -stop) }),
    ...(cut.leaveOut && { leaveOut: [width - cut.leaveOut[1], width - cut.leaveOut[0]] as const }),
    boards: cut.boards.map((one) => ({
      ...one,
      from: [width - one.to[0], one.from[1]] as const,
      to: [width - one.from[0], one.to[1]] as const,
    })),
  };
}

/** The pieces of the carrier laid on the plate; of a mirror image they are turned over first. */
export function laidPieces({ template, plate, pieces }: CarriedCut): readonly Polygon[] {
  const { carrier } = template;
  if (!carrier) return [];
  const { hole } = carrier.screws;
  const over = middles(plate, hole);
  const turn = (ring: Polygon): Polygon => ring.map(({ x, y }) => ({ x: -x, y }));
  const asCut = carrier.turnedOver
    ? pieces.map(({ ring, holes }) => ({ ring: turn(ring), holes: holes.map(turn) }))
    : pieces;
  return asCut.flatMap((piece) => laidOn(over, piece, hole));
}

/** All that the bit sweeps near the boards, by the test cut's own routing. */
export function sweptBy({ cut, plate, width: _ }: CarriedCut): Polygons {
  const solid = evenOdd(plate);
  const stops = { at: cut.stops ?? [0], ...(cut.leaveOut && { leaveOut: cut.leaveOut }) };
  return cut.boards.flatMap(({ from, to }) => {
    const stock = [
      [
        { x: from[0], y: from[1] },
        { x: to[0], y: from[1] },
        { x: to[0], y: to[1] },
        { x: from[0], y: to[1] },
      ],
    ];
    return stops.at.flatMap((stop) => {
      const centres = centresAtStops(
        solid,
        stock.map((ring) => ring.map(({ x, y }) => ({ x: x + stop, y }))),
        cut.bushing,
        cut.bit.diameter / 2,
        { at: [0] },
      );
      return cutAt(centres, cut.bit.diameter / 2);
    });
  });
}

/** Area, in mm², in which a carrier's layers that stand as deep as the bit come into what it sweeps, though they aren't scrap. */
export function inTheWay(one: CarriedCut, side: number): number {
  const { template, cut } = one;
  const swept = sweptBy(one);
  const layers = (template.carrier?.parts ?? [])
    .filter((part) => part.side === side && part.role === 'stop')
    .flatMap((part) => part.layers)
    .filter(({ from }) => from < cut.depth);
  return layers.reduce((sum, { outline }) => sum + area(intersection([flatten(outline, 1e-3)], swept)), 0);
}

/** The least sheet around a hole that registers a part, in plate and pieces. */
export function leastWall({ template, plate, pieces }: CarriedCut): number {
  const hole = template.carrier?.screws.hole ?? 0;
  const walls = (rings: readonly Polygon[]): readonly number[] =>
    middles(rings, hole).map((spot) =>
      Math.min(
        ...rings.filter((ring) => !sameHole(ring, spot, hole)).map((ring) => spaceTo(spot, ring) - hole / 2),
      ),
    );
  return Math.min(...walls(plate), ...pieces.flatMap(({ ring, holes }) => walls([ring, ...holes])));
}

function sameHole(
  ring: Polygon,
  { x, y }: { readonly x: number; readonly y: number },
  hole: number,
): boolean {
  const { minX, maxX, minY, maxY } = extents([ring]);
  return Math.abs((minX + maxX) / 2 - x) + Math.abs((minY + maxY) / 2 - y) < 0.01 && maxX - minX < hole + 0.1;
}
