import type { Formatter } from '../diagnostics/formatter.js';
import { depthFrom } from '../diagnostics/wording/testcut.js';
import { type PathFormat, polylineData } from '../drawing/path-data.js';
import { testCutFills, testCutPens } from '../drawing/styles.js';
import { escaped } from '../drawing/xml.js';
import { decimal } from '../units/decimal.js';
import type { TestCut } from './assemble.js';
import type { ClosedLevel } from './cut/level.js';
import { extents, type Polygons, rectangle, runsAt, type Spot } from './cut/polygons.js';

/**
 * A picture of the closed joint as it was cut on paper, as SVG in mm: the joint from the face, then each level
 * from above, all at 1:1, and the widest gap and overlap enlarged. It shows the very polygons that were measured.
 */

const FILL = testCutFills;

/** To a tenth of a micrometre: the picture shows what was measured. */
const FINE: PathFormat = { digits: 4 };

/** Sizes on paper, mm. */
const MARGIN = 8;
const LINE = 4.5;
const PICTURE_LETTERS = 2.8;
const BETWEEN = 4;
/** Room for a letter in a row of them: no common typeface without serifs runs wider on average. */
const LETTER = 0.6 * PICTURE_LETTERS;
/** Bigger than the drawing, and how wide a stretch of the joint an enlargement shows. */
const ENLARGED = 20;
const STRETCH = 2;
/** The ring about the worst place of a level. */
const RING = 2;

interface Panel {
  readonly width: number;
  readonly height: number;
  readonly caption: string;
  readonly body: string;
}

export function testCutPicture(cut: TestCut, title: string, fmt: Formatter): string {
  const panels = [
    // Boards that lie flat are alike from face to face: each level from above shows all of them.
    ...(cut.way === 'placed' ? [] : [facePanel(cut, fmt)]),
    ...details(cut, fmt),
    ...cut.sections.map((one) => levelPanel(one, cut, fmt)),
  ];
  const longest = Math.max(...panels.map(({ caption }) => caption.length), title.length);
  const width = Math.max(...panels.map((panel) => panel.width), longest * LETTER) + 2 * MARGIN;
  const pieces: string[] = [];
  let y = MARGIN;
  for (const line of [title, summary(cut, fmt), 'True to scale, 1:1, unless another scale is said.']) {
    pieces.push(pictureText(MARGIN, y + PICTURE_LETTERS, line));
    y += LINE;
  }
  pieces.push(legend(MARGIN, y, cut));
  y += LINE + BETWEEN;
  for (const { caption, body, height } of panels) {
    pieces.push(pictureText(MARGIN, y + PICTURE_LETTERS, caption));
    y += LINE;
    pieces.push(`<g transform="translate(${text(MARGIN)} ${text(y)})">${body}</g>`);
    y += height + BETWEEN;
  }
  const height = y + MARGIN - BETWEEN;
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" width="${text(width)}mm" height="${text(height)}mm" ` +
    `viewBox="0 0 ${text(width)} ${text(height)}" font-family="sans-serif" font-size="${PICTURE_LETTERS}">\n` +
    `<title>${escaped(title)}</title>\n<rect width="100%" height="100%" fill="#ffffff"/>\n${pieces.join('\n')}\n</svg>\n`
  );
}

function summary(cut: TestCut, fmt: Formatter): string {
  return `Widest gap ${fmt.length(cut.worstGap)}, widest overlap ${fmt.length(cut.worstOverlap)}.`;
}

function legend(x: number, y: number, { boards }: TestCut): string {
  const [one, two] = ['first', 'second'] as const;
  const parts = [
    { fill: FILL[one], name: `board ${boards[0]}` },
    { fill: FILL[two], name: `board ${boards[1]}` },
    { fill: FILL.gap, name: 'gap' },
    { fill: FILL.overlap, name: 'overlap' },
  ];
  return parts
    .map(({ fill, name }, i) => {
      const left = x + i * 32;
      return `<rect x="${text(left)}" y="${text(y)}" width="5" height="3" fill="${fill}" stroke="#000" stroke-width="${testCutPens.legend}"/>${pictureText(left + 7, y + PICTURE_LETTERS, name)}`;
    })
    .join('');
}

/** One level from above: x to the right, the first board's inside face at the foot. */
function levelPanel(level: ClosedLevel, { boards: [first], way }: TestCut, fmt: Formatter): Panel {
  const flat = way === 'placed';
  const box = boxOf(level);
  const place = (spot: Spot): Spot => ({ x: spot.x - box.minX, y: box.maxY - spot.y });
  const marks = [level.gap, level.overlap].flatMap(({ at, width }) =>
    at && width > 0 ? [ring(place(at), width === level.gap.width ? FILL.gap : FILL.overlap)] : [],
  );
  return {
    width: box.maxX - box.minX,
    height: box.maxY - box.minY,
    caption: `From above, ${fmt.length(level.z)} ${depthFrom(flat)}${flat ? '' : ` of board ${first}`}: gap ${fmt.length(level.gap.width)}, overlap ${fmt.length(level.overlap.width)}`,
    body: layersOf(level, place) + marks.join(''),
  };
}

/** At the middle of the first board's thickness: x to the right, the first board's end at the top. */
function facePanel(cut: TestCut, fmt: Formatter): Panel {
  const levels = cut.sections;
  const box = levels[0] ? boxOf(levels[0]) : { minX: 0, maxX: 0, minY: 0, maxY: 0 };
  const middle = (box.minY + box.maxY) / 2;
  const top = Math.min(...levels.map(({ z }) => z));
  const foot = Math.max(...levels.map(({ z }) => z));
  const bands = levels.map((level, i) => {
    const before = levels[i - 1]?.z ?? level.z;
    const after = levels[i + 1]?.z ?? level.z;
    const [from, to] = [(before + level.z) / 2 - top, (after + level.z) / 2 - top];
    return (['first', 'second', 'gap', 'overlap'] as const)
      .map((what) => {
        const rows = runsAt(polygonsOf(level, what), middle)
          .map(([a, b]) =>
            ringData(rectangle({ minX: a - box.minX, maxX: b - box.minX, minY: from, maxY: to })),
          )
          .join('');
        return rows === '' ? '' : `<path d="${rows}" fill="${FILL[what]}"/>`;
      })
      .join('');
  });
  return {
    width: box.maxX - box.minX,
    height: foot - top,
    caption: `From the face, at the middle of the thickness of board ${cut.boards[0]}, a band for each of ${levels.length} levels, ${fmt.length(foot - top)} deep`,
    body: bands.join(''),
  };
}

/** The widest gap and the widest overlap, enlarged. */
function details(cut: TestCut, fmt: Formatter): readonly Panel[] {
  return (['gap', 'overlap'] as const).flatMap((what) => {
    const level = cut.sections.reduce<ClosedLevel | undefined>(
      (worst, one) => (one[what].width > (worst?.[what].width ?? 0) ? one : worst),
      undefined,
    );
    const at = level?.[what].at;
    if (!level || !at) return [];
    const half = STRETCH / 2;
    const place = (spot: Spot): Spot => ({
      x: (spot.x - at.x + half) * ENLARGED,
      y: (at.y + half - spot.y) * ENLARGED,
    });
    const side = STRETCH * ENLARGED;
    const frame = `<rect width="${side}" height="${side}" fill="none" stroke="#000" stroke-width="${testCutPens.frame}"/>`;
    return [
      {
        width: side,
        height: side,
        caption: `Widest ${what}, ${ENLARGED}:1, at ${fmt.length(at.x)} from the reference edge and ${fmt.length(level.z)} ${depthFrom(cut.way === 'placed')}: ${fmt.length(level[what].width)}`,
        body: `<svg width="${side}" height="${side}" viewBox="0 0 ${side} ${side}">${layersOf(level, place)}${frame}</svg>`,
      },
    ];
  });
}

type Part = keyof typeof FILL;

function polygonsOf(level: ClosedLevel, part: Part): Polygons {
  return { first: level.first, second: level.second, gap: level.gaps, overlap: level.overlaps }[part];
}

function layersOf(level: ClosedLevel, place: (spot: Spot) => Spot): string {
  return (['first', 'second', 'gap', 'overlap'] as const)
    .map((part) => {
      const d = polygonsOf(level, part)
        .map((polygon) => ringData(polygon.map(place)))
        .join('');
      return d === '' ? '' : `<path d="${d}" fill="${FILL[part]}"/>`;
    })
    .join('');
}

function boxOf({ first, second, gaps }: ClosedLevel) {
  return extents([...first, ...second, ...gaps]);
}

function ring({ x, y }: Spot, colour: string): string {
  return `<circle cx="${text(x)}" cy="${text(y)}" r="${RING}" fill="none" stroke="${colour}" stroke-width="${testCutPens.ring}"/>`;
}

function pictureText(x: number, y: number, line: string): string {
  return `<text x="${text(x)}" y="${text(y)}">${escaped(line)}</text>`;
}

/** A ring of the page, whose y runs down as the file's does. */
const ringData = (ring: readonly Spot[]): string =>
  polylineData(
    ring.map(({ x, y }) => ({ x, y: -y })),
    FINE,
    true,
  );

const text = (value: number): string => decimal(value, FINE.digits);
