import { linesOf } from '../../drawing/drawing.js';
import type { Item } from '../../drawing/model.js';
import { circle, extents } from '../../geometry/outline.js';
import type { Extents } from '../../geometry/types.js';
import type { SolvedJoint } from '../../joints/family.js';
import { standsOf } from '../marks.js';
import { turnedShape } from '../one-plate.js';
import type { Plate, PlateSide, Screw } from '../plate.js';
import { fenceParts, gaugePart } from './fence.js';
import { boardsUnderSide, mirroredPlate, mirroredScrew, sheetOf } from './geometry.js';
import { type NotchPlace, notched } from './notches.js';
import { screwsFor } from './screws.js';
import { mirroredPart, type SideRequest, stopParts } from './stops.js';
import { type Carrier, type CarrierPart, isPart, type LackingPart } from './types.js';

export interface CarrierRequest {
  readonly solved: SolvedJoint;
  /** Diameter of the screw holes; 0 for none, and then there is no carrier. */
  readonly hole: number;
  /** Of the sheet. */
  readonly thickness: number;
  /** Diameter of the end mill that cuts the plate, where one does. */
  readonly mill?: number;
  /** The longest part that a machine has room for. */
  readonly longest?: number;
  /** Scores and lettering of a side: holes keep off its words where there is other room. */
  readonly marks: (side: PlateSide) => readonly Item[];
}

/** A plate with the holes and notches that its carrier wants, and the carrier. */
export interface Carried {
  readonly plate: Plate;
  readonly carrier?: Carrier;
}

/**
 * The carrier of a plate. `mirrored` is a plate's mirror image for second ends: its carrier is the plate's own, turned over, so it
 * is worked out on the plate and mirrored.
 */
export function carried(plate: Plate, mirrored: boolean, request: CarrierRequest): Carried {
  if (!mirrored) return carriedAsIs(plate, request);
  const { plate: image, carrier } = carriedAsIs(mirroredPlate(plate), request);
  const { width, name } = plate;
  // Its openings and screws are the plate's own numbers; what the carrier adds is the image of what it adds there.
  return {
    plate: withCuts(
      plate,
      image.registers.map((one) => mirroredScrew(one, width)),
      request,
    ),
    ...(carrier && { carrier: mirroredCarrier(carrier, name, width) }),
  };
}

function mirroredCarrier(carrier: Carrier, template: string, width: number): Carrier {
  return {
    ...carrier,
    template,
    file: carrier.file.replace(/-mirrored$/, ''),
    turnedOver: true,
    parts: carrier.parts.map((one) => mirroredPart(one, width)),
    lacking: carrier.lacking.map((one) => mirroredPart(one, width)),
  };
}

function carriedAsIs(plate: Plate, request: CarrierRequest): Carried {
  const { hole, thickness, solved } = request;
  if (hole === 0) return { plate: withCuts(plate, [], request) };
  const requests = plate.sides.map(
    (side, index): SideRequest => ({
      side,
      index,
      sheet: sheetOf(plate, side),
      under: boardsUnderSide(side, solved),
      thickness,
      radius: hole / 2,
      words: wordBoxes(request.marks(side)),
      shared: plate.sides.length > 1,
    }),
  );
  const all = requests.flatMap((one) => [...linePartsOf(one, requests, request.longest), ...stopParts(one)]);
  const parts = all.filter(isPart);
  const carrier: Carrier = {
    template: plate.name,
    file: plate.name.replace('finger-template', 'carrier'),
    turnedOver: false,
    thickness,
    screws: screwsFor(hole),
    parts,
    lacking: all.filter((one) => !isPart(one)),
    raise: raiseOf(parts, requests, thickness),
  };
  return { plate: withCuts(plate, registersOf(parts, plate), request), carrier };
}

const wordBoxes = (items: readonly Item[]): readonly Extents[] =>
  items.filter(({ layer }) => layer === 'ENGRAVE').map((item) => extents(...linesOf(item)));

/** What the boards of a side lie against; two sides with boards on end share one fence. */
function linePartsOf(
  request: SideRequest,
  all: readonly SideRequest[],
  longest: number | undefined,
): readonly (CarrierPart | LackingPart)[] {
  const onEnd = ({ under }: SideRequest): boolean => under.every(({ posture }) => posture === 'on end');
  const limit = longest === undefined ? {} : { longest };
  if (!onEnd(request)) return [gaugePart({ ...request, ...limit })];
  const others = all.filter((one) => one !== request && onEnd(one));
  const [other] = others;
  if (!other) return fenceParts({ ...request, ...limit });
  const turned = request.side.turned ?? other.side.turned;
  if (request.index > 0 || !turned) return [];
  return fenceParts({ ...request, ...limit, other: { line: turned.y, depth: other.side.cut.depth } });
}

/** The holes of parts that aren't among the plate's screws, in the plate's coordinates. */
function registersOf(parts: readonly CarrierPart[], plate: Plate): readonly Screw[] {
  return parts
    .filter(({ role }) => role === 'stop')
    .flatMap(({ holes, side }) => {
      const turned = plate.sides[side]?.turned;
      return holes.map((one) => (turned ? { ...one, x: turned.x - one.x, y: turned.y - one.y } : one));
    })
    .filter(({ x, y }) => !plate.screws.some((screw) => Math.hypot(screw.x - x, screw.y - y) < 1e-6));
}

function raiseOf(parts: readonly CarrierPart[], requests: readonly SideRequest[], thickness: number): number {
  const hangs = parts
    .filter(({ role }) => role === 'stop')
    .flatMap(({ side, board, layers }) => {
      const own = requests[side]?.under.find((one) => one.board === board && one.posture === 'flat');
      const lowest = Math.max(...layers.map(({ from, copies }) => from + copies * thickness));
      return own ? [lowest - own.thickness] : [];
    });
  return Math.max(0, ...hangs);
}

// The plate itself

function withCuts(
  plate: Plate,
  registers: readonly Screw[],
  { solved, mill }: Pick<CarrierRequest, 'solved' | 'mill'>,
): Plate {
  const holes = [...plate.holes, ...registers.map((at) => circle(at, at.radius))];
  const places = plate.sides.flatMap((side) => notchPlaces(side, plate, solved));
  const outline = notched(plate.outline, places, holes, mill);
  const sides = plate.sides.map(
    (side): PlateSide => ({
      ...side,
      outline: side.turned ? turnedShape(outline, side.turned) : outline,
    }),
  );
  return { ...plate, holes, registers, outline, sides };
}

/** In the plate's coordinates: at both ends where boards end or lie against the fence, at the far edge where stops stand. */
function notchPlaces(side: PlateSide, plate: Plate, solved: SolvedJoint): readonly NotchPlace[] {
  const { box, turned, bothStops, referenceEdge } = side;
  const flat = boardsUnderSide(side, solved).filter(({ posture }) => posture === 'flat');
  const y = flat.length > 0 ? Math.min(...flat.map(({ at }) => at.minY)) : 0;
  const boards = [...new Set(side.cut.stock.map(({ board }) => board))].map((board) =>
    standsOf(side).filter((one) => one.board === board),
  );
  const stops = [
    ...(referenceEdge === 0 || bothStops
      ? boards.map((all) => Math.min(...all.map(({ left }) => left)))
      : []),
    ...(referenceEdge !== 0 || bothStops
      ? boards.map((all) => Math.max(...all.map(({ right }) => right)))
      : []),
  ];
  const places: readonly NotchPlace[] = [
    { at: { x: box.minX, y }, inward: { x: 1, y: 0 } },
    { at: { x: box.maxX, y }, inward: { x: -1, y: 0 } },
    // The far edge of a plate with two working edges is the other one's near edge.
    ...(plate.sides.length > 1
      ? []
      : stops.map((x) => ({ at: { x, y: box.maxY }, inward: { x: 0, y: -1 } }))),
  ];
  if (!turned) return places;
  return places.map(({ at, inward }) => ({
    at: { x: turned.x - at.x, y: turned.y - at.y },
    inward: { x: -inward.x, y: -inward.y },
  }));
}
