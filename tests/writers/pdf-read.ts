import { getDocument, OPS } from 'pdfjs-dist/legacy/build/pdf.mjs';

/**
 * A PDF as another program sees it: pdf.js interprets the file, and what it would paint is collected in points
 * of the page, y up. Curves are kept as their control points, which hold the curve between them.
 */
export interface ReadStroke {
  readonly points: readonly ReadPoint[];
  readonly closed: boolean;
  readonly filled: boolean;
  /** `#rrggbb`. */
  readonly colour: string;
  /** Along x and y: a page with unequal factors has an oval pen. */
  readonly penX: number;
  readonly penY: number;
  readonly dash: readonly number[];
  readonly dashPhase: number;
}

export interface ReadPoint {
  readonly x: number;
  readonly y: number;
  /** true for a control point, which need not lie on the curve. */
  readonly control: boolean;
}

export interface ReadPage {
  readonly width: number;
  readonly height: number;
  readonly strokes: readonly ReadStroke[];
}

export interface ReadPdf {
  readonly pages: readonly ReadPage[];
  readonly printScaling: unknown;
  readonly info: Readonly<Record<string, unknown>>;
}

export async function readPdf(bytes: Uint8Array): Promise<ReadPdf> {
  const document = await getDocument({ data: bytes.slice(), verbosity: 0 }).promise;
  const pages: ReadPage[] = [];
  for (let i = 1; i <= document.numPages; i++) {
    const page = await document.getPage(i);
    const [left = 0, bottom = 0, right = 0, top = 0] = page.view;
    const { fnArray, argsArray } = await page.getOperatorList();
    pages.push({ width: right - left, height: top - bottom, strokes: painted(fnArray, argsArray) });
  }
  const preferences = (await document.getViewerPreferences()) as { PrintScaling?: unknown } | null;
  const { info } = await document.getMetadata();
  await document.destroy();
  return { pages, printScaling: preferences?.PrintScaling, info: info as Readonly<Record<string, unknown>> };
}

type Matrix = readonly [number, number, number, number, number, number];

function painted(operators: readonly number[], operands: readonly unknown[]): readonly ReadStroke[] {
  const first: State = {
    matrix: [1, 0, 0, 1, 0, 0],
    stroke: '#000000',
    fill: '#000000',
    pen: 1,
    dash: [],
    dashPhase: 0,
  };
  let now = first;
  const saved: State[] = [];
  const save = (): number => saved.push(now);
  const restore = (): void => {
    now = saved.pop() ?? now;
  };
  let path: { points: ReadPoint[]; closed: boolean }[] = [];
  const strokes: ReadStroke[] = [];
  const paint = (filled: boolean): void => {
    const { matrix, stroke, fill, pen, dash, dashPhase } = now;
    const common = { filled, colour: filled ? fill : stroke, dash, dashPhase };
    const width = filled ? 0 : pen;
    const [penX, penY] = [Math.hypot(matrix[0], matrix[2]), Math.hypot(matrix[1], matrix[3])];
    strokes.push(...path.map((one) => ({ ...one, ...common, penX: width * penX, penY: width * penY })));
    path = [];
  };
  operators.forEach((operator, i) => {
    const args = operands[i] as readonly never[];
    if (operator === OPS.transform) now = { ...now, matrix: product(now.matrix, args as unknown as Matrix) };
    else if (operator === OPS.setLineWidth) now = { ...now, pen: args[0] as unknown as number };
    else if (operator === OPS.setDash)
      now = { ...now, dash: args[0] as unknown as number[], dashPhase: args[1] as unknown as number };
    else if (operator === OPS.setStrokeRGBColor) now = { ...now, stroke: colourOf(args) };
    else if (operator === OPS.setFillRGBColor) now = { ...now, fill: colourOf(args) };
    else if (operator === OPS.save || operator === OPS.paintFormXObjectBegin) save();
    else if (operator === OPS.restore || operator === OPS.paintFormXObjectEnd) restore();
    else if (operator === OPS.constructPath) path = pathOf(args as unknown as PathArguments, now.matrix);
    else if (operator === OPS.stroke) paint(false);
    else if (operator === OPS.fill) paint(true);
    else if (!harmless.has(operator)) throw new Error(`operator ${operator} was not expected`);
  });
  return strokes;
}

interface State {
  readonly matrix: Matrix;
  readonly stroke: string;
  readonly fill: string;
  readonly pen: number;
  readonly dash: readonly number[];
  readonly dashPhase: number;
}

const harmless: ReadonlySet<number> = new Set([OPS.setLineCap, OPS.setLineJoin]);

function colourOf(args: readonly unknown[]): string {
  if (typeof args[0] === 'string') return args[0].toLowerCase();
  return `#${[0, 1, 2].map((k) => Number(args[k]).toString(16).padStart(2, '0')).join('')}`;
}

const product = (m: Matrix, n: Matrix): Matrix => [
  m[0] * n[0] + m[2] * n[1],
  m[1] * n[0] + m[3] * n[1],
  m[0] * n[2] + m[2] * n[3],
  m[1] * n[2] + m[3] * n[3],
  m[0] * n[4] + m[2] * n[5] + m[4],
  m[1] * n[4] + m[3] * n[5] + m[5],
];

type PathArguments = readonly [readonly number[], readonly number[]];

function pathOf([steps, numbers]: PathArguments, m: Matrix): { points: ReadPoint[]; closed: boolean }[] {
  const lines: { points: ReadPoint[]; closed: boolean }[] = [];
  let at = 0;
  const next = (control = false): ReadPoint => {
    const x = numbers[at++] ?? Number.NaN;
    const y = numbers[at++] ?? Number.NaN;
    return { x: m[0] * x + m[2] * y + m[4], y: m[1] * x + m[3] * y + m[5], control };
  };
  for (const step of steps) {
    if (step === OPS.moveTo) {
      lines.push({ points: [next()], closed: false });
      continue;
    }
    const line = lines.at(-1);
    if (!line) throw new Error('a path must begin with a move');
    if (step === OPS.lineTo) line.points.push(next());
    else if (step === OPS.curveTo) line.points.push(next(true), next(true), next());
    else if (step === OPS.closePath) line.closed = true;
    else throw new Error(`path step ${step} was not expected`);
  }
  return lines;
}
