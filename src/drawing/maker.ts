import makerjs from 'makerjs';
import { diagnostic, err, ok, type Result } from '../diagnostics/diagnostic.js';
import { closedOutline } from '../geometry/outline.js';
import { arc, line, reversedSegment } from '../geometry/segment.js';
import type { Point, Segment } from '../geometry/types.js';
import { closed, linesOf, open } from './drawing.js';
import { type Drawing, type Item, type Layer, layers } from './model.js';

/**
 * To and from models of makerjs, for those who draw with it: a template in a model of theirs, or a plate's outline
 * of theirs in a template. The types say what is used of makerjs' own, so that nobody needs its typings.
 */
export interface MakerModel {
  readonly units?: string;
  readonly origin?: MakerPoint;
  readonly layer?: string;
  readonly paths?: Readonly<Record<string, MakerPath>>;
  readonly models?: Readonly<Record<string, MakerModel>>;
}

export type MakerPoint = readonly number[];

/** A line has an end, a circle a radius, an arc a radius and two angles in degrees, counter-clockwise from the first to the second. */
export interface MakerPath {
  readonly type: string;
  readonly origin: MakerPoint;
  readonly layer?: string;
  readonly end?: MakerPoint;
  readonly radius?: number;
  readonly startAngle?: number;
  readonly endAngle?: number;
}

/** Ends of paths closer than this are joined, mm: what makerjs leaves after turning and scaling is far below. */
const JOINED = 1e-4;

/**
 * A drawing as a model in mm: one model for each outline, path and line of lettering, its paths on the drawing's
 * layers. Arcs stay arcs; lettering becomes its strokes.
 */
export function toMaker({ items }: Drawing): MakerModel {
  const models = items.flatMap((item) =>
    linesOf(item).map(({ segments }): MakerModel => {
      const paths = segments.map((segment, i) => [`${i + 1}`, { ...makerPath(segment), layer: item.layer }]);
      return { layer: item.layer, paths: Object.fromEntries(paths) };
    }),
  );
  return {
    units: 'mm',
    models: Object.fromEntries(models.map((one, i) => [`${i + 1}`, one])),
  };
}

export interface FromMakerOptions {
  /** The drawing's title. */
  readonly title?: string;
  /** Where paths go that are on none of halfpin's layers; CUT when left out. */
  readonly layer?: Layer;
}

/**
 * A model as a drawing: chains of paths that end where they begin are closed outlines, the others open paths. A
 * model without units is in mm. Refused are paths that are neither line, arc nor circle, and numbers that are none.
 */
export function fromMaker(
  model: MakerModel,
  { title = '', layer = 'CUT' }: FromMakerOptions = {},
): Result<Drawing> {
  const inMm = scaledToMm(model);
  const unknown = unknownPaths(inMm);
  if (unknown.length > 0) {
    return err(unknown.map((data) => diagnostic('model-path-unknown', 'refused', '', data)));
  }
  const items: Item[] = [];
  const take: MakerJs.IChainCallback = (chains, loose, name) => {
    const on = layers.find((one) => one === name) ?? layer;
    for (const { links, endless } of chains) {
      const segments = joinedSegments(links.flatMap(segmentsOf));
      items.push(endless ? closed(on, closedOutline(segments)) : open(on, { closed: false, segments }));
    }
    // Paths that touch no other, or more than one at an end, are in no chain.
    for (const { pathContext, offset } of loose) {
      items.push(open(on, { closed: false, segments: segmentsAt(pathContext, offset) }));
    }
  };
  makerjs.model.findChains(inMm as MakerJs.IModel, take, {
    byLayers: true,
    pointMatchingDistance: JOINED,
  });
  return ok({ title, notes: [], items });
}

function scaledToMm(model: MakerModel): MakerModel {
  const copy = makerjs.cloneObject(model as MakerJs.IModel);
  if (model.units === undefined || model.units === 'mm') return copy as MakerModel;
  return makerjs.model.scale(copy, makerjs.units.conversionScale(model.units, 'mm'), true) as MakerModel;
}

/** Names and types of paths that this can't read: of other types, or with numbers that are none. */
function unknownPaths(
  model: MakerModel,
  route = '',
): readonly { readonly path: string; readonly type: string }[] {
  const { paths = {}, models = {} } = model;
  return [
    ...Object.entries(paths)
      .filter(([, path]) => !isKnown(path))
      .map(([name, { type }]) => ({ path: `${route}${name}`, type: `${type}` })),
    ...Object.entries(models).flatMap(([name, one]) => unknownPaths(one, `${route}${name}/`)),
  ];
}

function isKnown({ type, origin, end, radius, startAngle, endAngle }: MakerPath): boolean {
  const needed = { line: end, circle: [radius], arc: [radius, startAngle, endAngle] }[type];
  return needed !== undefined && [...origin, ...needed].every((one) => Number.isFinite(one));
}

function makerPath(segment: Segment): MakerPath {
  if (segment.kind === 'line') return { type: 'line', origin: pair(segment.from), end: pair(segment.to) };
  const { center, radius, ccw } = segment;
  const [first, last] = ccw ? [segment.from, segment.to] : [segment.to, segment.from];
  const angles = { startAngle: degrees(center, first), endAngle: degrees(center, last) };
  return { type: 'arc', origin: pair(center), radius, ...angles };
}

/** A link of a chain as it is run through. */
function segmentsOf({
  walkedPath: { pathContext, offset },
  reversed,
}: MakerJs.IChainLink): readonly Segment[] {
  const segments = segmentsAt(pathContext, offset);
  return reversed ? segments.map(reversedSegment) : segments;
}

/** A path where its models put it; a circle is two half arcs. */
function segmentsAt(from: MakerJs.IPath, offset: MakerJs.IPoint): readonly Segment[] {
  const path = makerjs.path.clone(from, offset) as MakerPath;
  const center = pointOf(path.origin);
  const { radius = 0, startAngle = 0, endAngle = 0 } = path;
  const on = (angle: number): Point => ({
    x: center.x + radius * Math.cos((angle * Math.PI) / 180),
    y: center.y + radius * Math.sin((angle * Math.PI) / 180),
  });
  if (path.type === 'circle') return [arc(on(0), on(180), center, true), arc(on(180), on(360), center, true)];
  const one =
    path.type === 'line'
      ? line(center, pointOf(path.end ?? path.origin))
      : arc(on(startAngle), on(endAngle), center, true);
  return [one];
}

/** Each segment begun exactly where the one before it ends. */
const joinedSegments = (segments: readonly Segment[]): readonly Segment[] =>
  segments.map((segment, i) => ({ ...segment, from: segments[i - 1]?.to ?? segment.from }));

const pair = ({ x, y }: Point): MakerPoint => [x, y];
const pointOf = ([x = 0, y = 0]: MakerPoint): Point => ({ x, y });
const degrees = (center: Point, { x, y }: Point): number =>
  (Math.atan2(y - center.y, x - center.x) * 180) / Math.PI;
