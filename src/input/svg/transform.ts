import { MM_PER_INCH } from '../../units/length.js';

/** [a, b, c, d, e, f] as in SVG: x' = a x + c y + e, y' = b x + d y + f. */
export type SvgMatrix = readonly [number, number, number, number, number, number];

export const IDENTITY: SvgMatrix = [1, 0, 0, 1, 0, 0];

/** The matrix that does `inner` first and then `outer`. */
export function composed(outer: SvgMatrix, inner: SvgMatrix): SvgMatrix {
  const [a, b, c, d, e, f] = outer;
  const [g, h, i, j, k, l] = inner;
  return [a * g + c * h, b * g + d * h, a * i + c * j, b * i + d * j, a * k + c * l + e, b * k + d * l + f];
}

/** Reads a `transform` attribute: a list of functions, the last one done first. Undefined when it is none. */
export function readTransform(text: string): SvgMatrix | undefined {
  const one = /\s*,?\s*([a-z]+)\s*\(([^()]*)\)/giy;
  let matrix = IDENTITY;
  let end = 0;
  for (let found = one.exec(text); found !== null; found = one.exec(text)) {
    const made = functionOf(found[1] ?? '', numbersIn(found[2] ?? ''));
    if (made === undefined) return undefined;
    matrix = composed(matrix, made);
    end = one.lastIndex;
  }
  return text.slice(end).trim() === '' && matrix.every(Number.isFinite) ? matrix : undefined;
}

function functionOf(name: string, numbers: readonly number[] | undefined): SvgMatrix | undefined {
  if (numbers === undefined) return undefined;
  const [x = 0, y, z, u = 0, v = 0, w = 0] = numbers;
  const count = numbers.length;
  const radians = (x * Math.PI) / 180;
  switch (name) {
    case 'matrix':
      return count === 6 ? [x, y ?? 0, z ?? 0, u, v, w] : undefined;
    case 'translate':
      return count === 1 || count === 2 ? [1, 0, 0, 1, x, y ?? 0] : undefined;
    case 'scale':
      return count === 1 || count === 2 ? [x, 0, 0, y ?? x, 0, 0] : undefined;
    case 'rotate':
      return count === 1 || count === 3 ? turnedAbout(radians, y ?? 0, z ?? 0) : undefined;
    case 'skewX':
      return count === 1 ? [1, 0, Math.tan(radians), 1, 0, 0] : undefined;
    case 'skewY':
      return count === 1 ? [1, Math.tan(radians), 0, 1, 0, 0] : undefined;
    default:
      return undefined;
  }
}

function turnedAbout(angle: number, x: number, y: number): SvgMatrix {
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  return [cos, sin, -sin, cos, x - cos * x + sin * y, y - sin * x - cos * y];
}

/** Numbers as SVG writes them: blanks, commas, or nothing but a sign or point between. Undefined for other text. */
function numbersIn(text: string): readonly number[] | undefined {
  const number = /[+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?/gi;
  const rest = text.replace(number, '');
  const numbers = (text.match(number) ?? []).map(Number);
  return /^[\s,]*$/.test(rest) && numbers.every(Number.isFinite) ? numbers : undefined;
}

/** What an svg element's size and viewBox make of its user units, and whether it says its size. */
export interface Viewport {
  readonly matrix: SvgMatrix;
  readonly sized: boolean;
}

/**
 * The viewBox transform of SVG 2, section 8.2, from px. One unit is as long both ways unless
 * preserveAspectRatio is `none`. Without a size, or with one in percent, a user unit is taken for a px.
 * Undefined when a size or the viewBox cannot be read. x and y place an svg element inside another.
 */
export function viewport(
  attributes: Readonly<Record<string, string>>,
  outermost: boolean,
): Viewport | undefined {
  const [width, height] = [lengthInPx(attributes.width), lengthInPx(attributes.height)];
  const [x, y] = outermost ? [0, 0] : [lengthInPx(attributes.x) ?? 0, lengthInPx(attributes.y) ?? 0];
  const box = attributes.viewBox === undefined ? undefined : numbersIn(attributes.viewBox);
  if ([width, height, x, y].some(Number.isNaN)) return undefined;
  const sized = width !== undefined || height !== undefined;
  if (attributes.viewBox === undefined) return { matrix: [1, 0, 0, 1, x, y], sized };
  const [left, top, boxWidth, boxHeight] = box ?? [];
  if (box?.length !== 4 || left === undefined || top === undefined || !boxWidth || !boxHeight)
    return undefined;
  if (boxWidth < 0 || boxHeight < 0 || width === 0 || height === 0) return undefined;
  const across = width === undefined ? undefined : width / boxWidth;
  const down = height === undefined ? undefined : height / boxHeight;
  const aspect = attributes.preserveAspectRatio ?? '';
  const [sx, sy] = aspect.includes('none')
    ? [across ?? down ?? 1, down ?? across ?? 1]
    : evenScale(across ?? down ?? 1, down ?? across ?? 1, aspect.includes('slice'));
  return { matrix: [sx, 0, 0, sy, x - left * sx, y - top * sy], sized };
}

function evenScale(across: number, down: number, slice: boolean): readonly [number, number] {
  const scale = slice ? Math.max(across, down) : Math.min(across, down);
  return [scale, scale];
}

/** CSS Values 3, absolute lengths, in px; undefined where there is none or a percentage, NaN for other text. */
function lengthInPx(text: string | undefined): number | undefined {
  if (text === undefined || text.trim() === 'auto' || /%\s*$/.test(text)) return undefined;
  const parts = /^\s*([+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?)\s*([a-z]*)\s*$/i.exec(text);
  const unit = pxPer[(parts?.[2] ?? '').toLowerCase()];
  const value = Number(parts?.[1]);
  return unit === undefined || !Number.isFinite(value) || value < 0 ? Number.NaN : value * unit;
}

const pxPer: Readonly<Record<string, number>> = {
  '': 1,
  px: 1,
  in: 96,
  cm: 96 / 2.54,
  mm: 96 / MM_PER_INCH,
  q: 96 / MM_PER_INCH / 4,
  pt: 96 / 72,
  pc: 96 / 6,
};
