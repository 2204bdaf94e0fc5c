import { differenceD, EndType, FillRule, inflatePathsD, JoinType, type PathsD, unionD } from 'clipper2-ts';
import DxfParser from 'dxf-parser';

/**
 * What somebody who has only the DXF files and report.json can do: cut every end as `setUp.stands` says and close every
 * corner. Imports nothing of halfpin. Lengths in mm.
 */
export interface OutsideStand {
  readonly piece: string;
  readonly of?: string;
  readonly copy: number;
  readonly end?: string;
  readonly corner?: number;
  readonly board: string;
  readonly template: string;
  readonly parts?: readonly { readonly template: string; readonly shift: number }[];
  readonly plateSide: string;
  readonly placed?: { readonly x: number; readonly y: number };
  readonly posture: string;
  readonly faceToOperator: string;
  readonly referenceEdge: string;
  readonly everySecond?: { readonly leaveOut?: readonly [number, number] };
  readonly bit: { readonly diameter: number; readonly angle?: number };
  readonly bushing: number;
  readonly depth: number;
  readonly rect: { readonly x0: number; readonly x1: number; readonly y0: number; readonly y1: number };
}

interface Vertex {
  readonly x: number;
  readonly y: number;
  readonly bulge?: number;
}

/** Everything on CUT: rings, arcs as chords within 0.0005 mm. */
export function cutRings(text: string): PathsD {
  const entities = new DxfParser().parseSync(text)?.entities ?? [];
  return entities
    .filter(({ layer }) => layer === 'CUT')
    .map((entity) => {
      if (entity.type === 'CIRCLE') {
        const { center, radius } = entity as unknown as { center: Vertex; radius: number };
        return Array.from({ length: 400 }, (_, i) => ({
          x: center.x + radius * Math.cos((2 * Math.PI * i) / 400),
          y: center.y + radius * Math.sin((2 * Math.PI * i) / 400),
        }));
      }
      const { vertices } = entity as unknown as { vertices: readonly Vertex[] };
      return vertices.flatMap((from, i) => chords(from, vertices[(i + 1) % vertices.length] ?? from));
    });
}

/** From one vertex up to the next, left out: a bulge is the tangent of a quarter of the arc's angle. */
function chords(from: Vertex, to: Vertex): readonly { x: number; y: number }[] {
  const { bulge = 0 } = from;
  if (Math.abs(bulge) < 1e-9) return [{ x: from.x, y: from.y }];
  const angle = 4 * Math.atan(bulge);
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  const off = (1 - bulge * bulge) / (4 * bulge);
  const middle = { x: (from.x + to.x) / 2 - dy * off, y: (from.y + to.y) / 2 + dx * off };
  const radius = Math.hypot(from.x - middle.x, from.y - middle.y);
  const start = Math.atan2(from.y - middle.y, from.x - middle.x);
  const count = Math.max(2, Math.ceil(Math.abs(angle) / (2 * Math.acos(1 - 5e-4 / Math.max(radius, 1e-3)))));
  return Array.from({ length: count }, (_, i) => ({
    x: middle.x + radius * Math.cos(start + (angle * i) / count),
    y: middle.y + radius * Math.sin(start + (angle * i) / count),
  }));
}

/** The plate of a stand from the rings of its files, which may hold the path of a tool so wide: of a long one, its parts side by side. */
export function plateOf(
  { template, parts }: Pick<OutsideStand, 'template' | 'parts'>,
  rings: Readonly<Record<string, PathsD>>,
  tool: number,
): PathsD {
  const pieces = (parts ?? [{ template, shift: 0 }]).map((part) =>
    unionD(
      (rings[part.template] ?? []).map((ring) => ring.map(({ x, y }) => ({ x: x + part.shift, y }))),
      [],
      FillRule.EvenOdd,
      6,
    ),
  );
  const asCut = pieces.map((piece) => (tool > 0 ? inflate(piece, -tool / 2) : piece));
  return unionD(asCut.flat(), [], FillRule.NonZero, 6);
}

/** One end of a board, cut: its wood at a height above the bit's tip, in s from the reference edge and t. */
export interface CutEnd {
  readonly width: number;
  readonly depth: number;
  /** From and to along s, of what is left on a line. t counts from the outside face, of a flat board from its end. */
  readonly woodAt: (height: number, t: number) => readonly (readonly [number, number])[];
}

const EASE = 5e-4;

export function cutEnd(
  stands: readonly OutsideStand[],
  plates: Readonly<Record<string, PathsD>>,
  width: number,
  tool: number,
): CutEnd {
  const [first] = stands;
  if (!first) throw new Error('an end without a stand');
  const { x0, x1 } = first.rect;
  const centres = stands.map((stand) => centresOf(stand, plateOf(stand, plates, tool), width));
  const levels = new Map<number, readonly PathsD[]>();
  const cutAt = (height: number) => {
    const known = levels.get(height);
    if (known) return known;
    const radius = first.bit.diameter / 2 - height * Math.tan(((first.bit.angle ?? 0) * Math.PI) / 180);
    const made = centres.map((one) => inflate(one, radius - EASE));
    levels.set(height, made);
    return made;
  };
  return {
    width: x1 - x0,
    depth: first.depth,
    woodAt: (height, t) => {
      const gone = stands.flatMap((stand, i) => {
        const { rect } = stand;
        const near = stand.posture === 'flat' || stand.faceToOperator === 'outside';
        const y = near ? rect.y0 + t : rect.y1 - t;
        return crossings(cutAt(height)[i] ?? [], y).map(([from, to]): readonly [number, number] =>
          stand.referenceEdge === 'left-stop'
            ? [from - rect.x0, to - rect.x0]
            : [rect.x1 - to, rect.x1 - from],
        );
      });
      return complement(gone, x1 - x0);
    },
  };
}

/** The bushing's middle: where a disc of its size is clear of the plate. */
function centresOf(
  { plateSide, placed, bushing, bit, rect, everySecond }: OutsideStand,
  file: PathsD,
  width: number,
): PathsD {
  const over =
    plateSide === 'turned' ? file.map((ring) => ring.map(({ x, y }) => ({ x: width - x, y }))) : file;
  const lies = placed
    ? over.map((ring) => ring.map(({ x, y }) => ({ x: placed.x - x, y: placed.y - y })))
    : over;
  const plate = unionD(lies, [], FillRule.EvenOdd, 6);
  const more = bit.diameter / 2 + 1;
  const box = (a: number, b: number, c: number, d: number) => [
    { x: a, y: c },
    { x: b, y: c },
    { x: b, y: d },
    { x: a, y: d },
  ];
  const window = [box(rect.x0 - more, rect.x1 + more, rect.y0 - more, rect.y1 + more)];
  const free = differenceD(window, inflate(plate, bushing / 2 - EASE), FillRule.NonZero, 6);
  const leaveOut = everySecond?.leaveOut;
  return leaveOut ? differenceD(free, [box(leaveOut[0], leaveOut[1], -1e3, 1e3)], FillRule.NonZero, 6) : free;
}

const inflate = (paths: PathsD, by: number): PathsD =>
  inflatePathsD(paths, by, JoinType.Round, EndType.Polygon, 2, 6, 2e-4);

function crossings(rings: PathsD, y: number): readonly (readonly [number, number])[] {
  const at = rings.flatMap((ring) =>
    ring.flatMap((to, i) => {
      const from = ring.at(i - 1) ?? to;
      return from.y <= y === to.y <= y ? [] : [from.x + ((y - from.y) / (to.y - from.y)) * (to.x - from.x)];
    }),
  );
  const sorted = at.toSorted((one, other) => one - other);
  return sorted.flatMap((from, i) => (i % 2 === 0 ? [[from, sorted[i + 1] ?? from] as const] : []));
}

export type Runs = readonly (readonly [number, number])[];

/** What runs leave of 0 to `width`. */
export function complement(runs: Runs, width: number): Runs {
  const left: [number, number][] = [];
  let from = 0;
  for (const [a, b] of runs.toSorted((one, other) => one[0] - other[0])) {
    if (a > from) left.push([from, Math.min(a, width)]);
    from = Math.max(from, b);
  }
  if (from < width) left.push([from, width]);
  return left.filter(([a, b]) => b - a > 1e-9);
}

/** The widest run that neither has, and the widest that both have. */
export function compared(one: Runs, other: Runs, width: number) {
  const longest = (runs: Runs) => Math.max(0, ...runs.map(([a, b]) => b - a));
  const both = one.flatMap(([a, b]) =>
    other.flatMap(([c, d]) =>
      Math.min(b, d) > Math.max(a, c) ? [[Math.max(a, c), Math.min(b, d)] as const] : [],
    ),
  );
  return { gap: longest(complement([...one, ...other], width)), overlap: longest(both) };
}
