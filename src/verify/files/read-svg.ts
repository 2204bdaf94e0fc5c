/// <reference path="./libraries.d.ts" />
import svgPath, { type PathCommand } from 'svg-path-parser';
import { diagnostic, err, ok, type Result } from '../../diagnostics/diagnostic.js';
import type { Spot } from '../cut/polygons.js';
import type { Chain } from './chains.js';
import { flattenCubic, flattenQuadratic, flattenSvgArc } from './flatten.js';
import { elementsOf, type SvgElement } from './svg-elements.js';
import type { Matrix } from './svg-transform.js';

/** mm per unit of an SVG length (CSS Values 3: 1 in = 96 px = 72 pt = 6 pc = 2.54 cm). */
const MM_PER_UNIT: Readonly<Record<string, number>> = {
  mm: 1,
  cm: 10,
  in: 25.4,
  pt: 25.4 / 72,
  pc: 25.4 / 6,
  px: 25.4 / 96,
  '': 25.4 / 96,
};

/** How much the scales of the two axes may differ, as a share. */
const SAME_SCALE = 1e-6;

/** The paths of an SVG file as chains in mm with y turned up again, on the layer of the group that they stand in. */
export function chainsOfSvg(name: string, text: string): Result<readonly Chain[]> {
  const unreadable = (because: string): Result<readonly Chain[]> =>
    err([diagnostic('drawing-unreadable', 'refused', name, { because })]);
  const elements = elementsOf(text);
  const root = elements.find(({ tag }) => tag === 'svg');
  if (!root) return unreadable('it holds no <svg> element');
  const scale = scaleOf(root);
  if (typeof scale === 'string') return err([diagnostic('drawing-units', 'refused', name, { read: scale })]);
  const chains: Chain[] = [];
  for (const element of elements) {
    const { tag, attributes, layer, matrix, isHidden } = element;
    if (isHarmless(element)) continue;
    const unread = (what: string): Result<readonly Chain[]> =>
      err([diagnostic('drawing-unread', 'refused', name, { what, layer })]);
    if (tag !== 'path' || !READ_LAYERS.includes(layer)) return unread(`<${tag}>`);
    if (isHidden) return unread('a hidden <path>');
    if (typeof matrix === 'string') return unread(`<path> under ${matrix}`);
    const commands = parsedPath(attributes.d ?? '');
    if (typeof commands === 'string') return unreadable(commands);
    chains.push(...movedBy(matrix, scale, (own) => chainsOfPath(commands, layer, own)));
  }
  const wild = chains.some(({ spots }) => spots.some(({ x, y }) => !Number.isFinite(x + y)));
  return wild ? unreadable('a coordinate is not a number') : ok(chains);
}

/** Layers whose contours are read; on these others nothing is cut through. */
const READ_LAYERS = ['CUT', 'STOCK', 'SCORE'];
const UNCUT_LAYERS = ['ENGRAVE', 'REF'];

const SHAPES = ['path', 'rect', 'circle', 'ellipse', 'line', 'polyline', 'polygon', 'use'];
const PICTURES = ['text', 'image', 'foreignObject', 'switch'];

/** Whether no machine cuts it: no shape, or one that is drawn nowhere or on a layer that isn't cut. */
function isHarmless({ tag, attributes, layer, isHidden }: SvgElement): boolean {
  if (UNCUT_LAYERS.includes(layer)) return true;
  if (PICTURES.includes(tag)) return !READ_LAYERS.includes(layer);
  if (!SHAPES.includes(tag) || (tag === 'path' && attributes.d === undefined)) return true;
  return isHidden && !READ_LAYERS.includes(layer);
}

/** Chains under a transform; they are flattened at the size that they end up with. */
function movedBy(
  [a, b, c, d, e, f]: Matrix,
  scale: number,
  chainsAt: (scale: number) => readonly Chain[],
): readonly Chain[] {
  const size = Math.sqrt(Math.abs(a * d - b * c)) || 1;
  // y is turned up already.
  const place = ({ x, y }: Spot): Spot => ({
    x: (a * x - c * y) / size + e * scale,
    y: (-b * x + d * y) / size - f * scale,
  });
  const isPlain = a === 1 && b === 0 && c === 0 && d === 1 && e === 0 && f === 0;
  const chains = chainsAt(scale * size);
  return isPlain ? chains : chains.map((chain) => ({ ...chain, spots: chain.spots.map(place) }));
}

/** mm per user unit, or what was read that gives none. */
function scaleOf(root: SvgElement): number | string {
  const { width = '', height = '', viewBox } = root.attributes;
  const across = lengthOf(width);
  const down = lengthOf(height);
  if (across === undefined || down === undefined) return `width "${width}" and height "${height}"`;
  if (viewBox === undefined) return MM_PER_UNIT.px ?? 1;
  const box = viewBox
    .trim()
    .split(/[\s,]+/)
    .map(Number);
  const [, , boxWidth = Number.NaN, boxHeight = Number.NaN] = box;
  const scaleX = across / boxWidth;
  const scaleY = down / boxHeight;
  const even = Math.abs(scaleX / scaleY - 1) < SAME_SCALE;
  return even && scaleX > 0 ? scaleX : `width "${width}", height "${height}" and viewBox "${viewBox}"`;
}

function lengthOf(text: string): number | undefined {
  const match = /^\s*([-+]?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?)\s*([a-z]*)\s*$/i.exec(text);
  const perUnit = match ? MM_PER_UNIT[(match[2] ?? '').toLowerCase()] : undefined;
  return match && perUnit !== undefined ? Number(match[1]) * perUnit : undefined;
}

function parsedPath(d: string): readonly PathCommand[] | string {
  try {
    return svgPath.makeAbsolute(svgPath.parseSVG(d));
  } catch (error) {
    return error instanceof Error ? error.message : String(error);
  }
}

function chainsOfPath(commands: readonly PathCommand[], layer: string, scale: number): readonly Chain[] {
  const chains: Chain[] = [];
  let spots: Spot[] = [];
  const end = (closed: boolean): void => {
    const last = spots[spots.length - 1];
    const first = spots[0];
    const repeated =
      closed && spots.length > 1 && first && last && Math.hypot(first.x - last.x, first.y - last.y) < 1e-9;
    if (spots.length > 1) chains.push({ layer, closed, spots: repeated ? spots.slice(0, -1) : spots });
    spots = [];
  };
  const place = (x = 0, y = 0): Spot => ({ x: x * scale, y: -y * scale });
  let control: Spot | undefined;
  for (const command of commands) {
    const from = place(command.x0, command.y0);
    const to = place(command.x, command.y);
    if (command.code === 'M') {
      end(false);
      spots = [to];
      control = undefined;
      continue;
    }
    if (command.code === 'Z') {
      end(true);
      control = undefined;
      continue;
    }
    if (spots.length === 0) spots = [from];
    const bend = bendOf(command, from, to, place, scale, control);
    spots.push(...bend.spots);
    control = bend.control;
  }
  end(false);
  return chains;
}

interface Bend {
  readonly spots: readonly Spot[];
  /** The control point that a smooth command after this one mirrors. */
  readonly control?: Spot;
}

function bendOf(
  command: PathCommand,
  from: Spot,
  to: Spot,
  place: (x?: number, y?: number) => Spot,
  scale: number,
  control: Spot | undefined,
): Bend {
  const mirrored = control ? { x: 2 * from.x - control.x, y: 2 * from.y - control.y } : from;
  const one = place(command.x1, command.y1);
  const two = place(command.x2, command.y2);
  switch (command.code) {
    case 'C':
      return { spots: flattenCubic(from, one, two, to), control: two };
    case 'S':
      return { spots: flattenCubic(from, mirrored, two, to), control: two };
    case 'Q':
      return { spots: flattenQuadratic(from, one, to), control: one };
    case 'T':
      return { spots: flattenQuadratic(from, mirrored, to), control: mirrored };
    case 'A':
      // Turning y over turns the arc's sense and its tilt over.
      return {
        spots: flattenSvgArc(from, to, {
          rx: (command.rx ?? 0) * scale,
          ry: (command.ry ?? 0) * scale,
          rotation: (-(command.xAxisRotation ?? 0) * Math.PI) / 180,
          largeArc: command.largeArc === true,
          sweep: command.sweep !== true,
        }),
      };
    default:
      return { spots: [to] };
  }
}
