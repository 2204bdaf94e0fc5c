import { describe, expect, test } from 'vitest';
import { paperSize } from '../../shared/paper.js';
import { linesOf } from '../../src/drawing/drawing.js';
import { tileDrawing } from '../../src/drawing/tiling/tiling.js';
import { circle } from '../../src/geometry/outline.js';
import { type ReadPage, type ReadStroke, readPdf } from './pdf-read.js';
import { colours, hatched, options, type PdfOptions, plate, printed, samplePattern } from './pdf-samples.js';

const MM = 25.4 / 72;

/** Rounding in the file: 1e-4 mm a coordinate. The checks of printed scale allow 0.01 mm. */
const SCALE = 0.01;
const ROUNDING = 3e-4;

async function written(drawing: Parameters<typeof tileDrawing>[0], wanted: PdfOptions) {
  const bytes = await printed(drawing, wanted);
  const size = paperSize(wanted.paper);
  if (!size) throw new Error('unknown paper');
  return { bytes, read: await readPdf(bytes), tiled: tileDrawing(drawing, size, wanted) };
}

const cases: readonly (readonly [string, Parameters<typeof tileDrawing>[0], PdfOptions])[] = [
  ['one page of A4', plate(150, 110), options({ name: 'a4' })],
  ['one page of Letter', plate(150, 180), options({ name: 'letter' })],
  ['0.9 m on A4', plate(900, 110), options({ name: 'a4' }, { scaleX: 1.004, scaleY: 0.997 })],
  [
    '0.9 m on Letter, upright',
    plate(110, 900),
    options({ name: 'Letter' }, { scaleX: 0.9975, scaleY: 1.01 }),
  ],
  ['0.9 m on A3', plate(900, 110), options({ name: 'a3' })],
  ['A5 with small overlap', plate(300, 200), options({ name: 'a5' }, { overlap: 4 })],
  ['30 tiles of A4', hatched(1000, 1150), options({ name: 'a4' }, { scaleX: 1.003 })],
  ['the sample of 0.9 m', ...samplePattern('herbarium-press.yaml')],
  ['the sample of thirty pages', ...samplePattern('drying-bench.yaml')],
  ['custom paper', plate(400, 300), options({ width: 610, height: 305 }, { margin: 15 })],
];

const drawn = (page: ReadPage): readonly ReadStroke[] =>
  page.strokes.filter((one) => Object.values(colours).some((colour) => colour === one.colour));

/** Lines of the pen that only scale bars are drawn with. */
const barLines = (page: ReadPage, factor: { x: number; y: number }): readonly ReadStroke[] =>
  page.strokes.filter((one) => Math.abs((one.penX * MM) / factor.x - 0.25) < 1e-6);

describe.each(cases)('%s', (_, drawing, wanted) => {
  const all = written(drawing, wanted);

  test('asks for no scaling and carries no date', async () => {
    const { read } = await all;
    expect(read.printScaling).toBe('None');
    expect(read.info.Title).toBe(drawing.title);
    expect(Object.keys(read.info).filter((key) => /date/i.test(key))).toEqual([]);
  });

  test('gives the same bytes again', async () => {
    const { bytes } = await all;
    expect(await printed(drawing, wanted)).toEqual(bytes);
  });

  test('every page has both scale bars, as long as they say', async () => {
    const { read, tiled } = await all;
    const { frame } = tiled;
    // On a turned page x runs along the paper's long edge, so the printer's y factor is the page's x factor.
    const x = frame.turned ? wanted.scaleY : wanted.scaleX;
    const y = frame.turned ? wanted.scaleX : wanted.scaleY;
    for (const page of read.pages) {
      const ticks = barLines(page, { x, y }).map((one) => {
        const xs = one.points.map((p) => p.x);
        const ys = one.points.map((p) => p.y);
        return { xs, ys, upright: Math.abs((xs[0] ?? 0) - (xs[1] ?? 0)) < 1e-9, one };
      });
      const short = (t: (typeof ticks)[number]): boolean =>
        Math.max(...t.xs) - Math.min(...t.xs) + Math.max(...t.ys) - Math.min(...t.ys) < (3.1 / MM) * 1.02;
      const outerX = ticks
        .filter((t) => t.upright && short(t))
        .flatMap((t) => t.xs.flatMap((at) => [at - t.one.penX / 2, at + t.one.penX / 2]));
      const outerY = ticks
        .filter((t) => !t.upright && short(t))
        .flatMap((t) => t.ys.flatMap((at) => [at - t.one.penY / 2, at + t.one.penY / 2]));
      const lengthX = ((Math.max(...outerX) - Math.min(...outerX)) * MM) / x;
      const lengthY = ((Math.max(...outerY) - Math.min(...outerY)) * MM) / y;
      expect(Math.abs(lengthX - (frame.barX?.length ?? 0))).toBeLessThan(SCALE);
      expect(Math.abs(lengthY - (frame.barY?.length ?? 0))).toBeLessThan(SCALE);
      if (frame.area.maxX - frame.area.minX >= 150) expect(lengthX).toBeGreaterThan(149.99);
      if (frame.area.maxY - frame.area.minY >= 150) expect(lengthY).toBeGreaterThan(149.99);
    }
  });

  test('keeps all ink off the margin, in the file and on paper', async () => {
    const { read, tiled } = await all;
    const { frame } = tiled;
    const least = { file: Infinity, paper: Infinity };
    for (const page of read.pages) {
      const middle = { x: (page.width * MM) / 2, y: (page.height * MM) / 2 };
      for (const stroke of page.strokes) {
        for (const p of stroke.points) {
          const awayX = Math.abs(p.x * MM - middle.x) + (stroke.penX * MM) / 2;
          const awayY = Math.abs(p.y * MM - middle.y) + (stroke.penY * MM) / 2;
          least.file = Math.min(least.file, middle.x - awayX, middle.y - awayY);
          least.paper = Math.min(
            least.paper,
            middle.x - awayX / frame.factorX,
            middle.y - awayY / frame.factorY,
          );
        }
      }
    }
    expect(least.file).toBeGreaterThanOrEqual(wanted.margin - ROUNDING);
    expect(least.paper).toBeGreaterThanOrEqual(wanted.margin - ROUNDING);
    expect(least.file).toBeLessThan(wanted.margin + 2);
  });

  test('scale bars and words stay off the drawing', async () => {
    const { read, tiled } = await all;
    const { frame } = tiled;
    const tiles = read.pages.slice(tiled.pages.length - tiled.tiles.length);
    let beside = Infinity;
    let above = Infinity;
    for (const page of tiles) {
      for (const stroke of drawn(page)) {
        for (const p of stroke.points) {
          const on = onPaper(p, page, frame);
          beside = Math.min(beside, on.x - frame.area.minX);
          above = Math.min(above, on.y - frame.area.minY);
        }
      }
    }
    expect(beside).toBeGreaterThan(0.1 - ROUNDING);
    expect(above).toBeGreaterThan(0.1 - ROUNDING);
    const bars = barLines(tiles[0] as ReadPage, { x: frame.factorX, y: frame.factorY });
    for (const p of bars.flatMap((one) => one.points)) {
      const on = onPaper(p, tiles[0] as ReadPage, frame);
      expect(on.x < frame.area.minX - 2 || on.y < frame.area.minY - 2).toBe(true);
    }
  });

  test('every corner of the drawing is on a page, where the page says', async () => {
    const { read, tiled } = await all;
    const first = tiled.pages.length - tiled.tiles.length;
    const corners = drawing.items.flatMap((item) =>
      item.kind === 'text' ? [] : linesOf(item).flatMap(({ segments }) => segments.map((s) => s.from)),
    );
    const seen = new Set<number>();
    tiled.tiles.forEach((tile, i) => {
      const page = read.pages[first + i];
      if (!page) throw new Error('page missing');
      const found = drawn(page).flatMap((one) =>
        one.points.filter((p) => !p.control).map((p) => onPaper(p, page, tiled.frame)),
      );
      corners.forEach((corner, k) => {
        const at = { x: corner.x + tile.offset.x, y: corner.y + tile.offset.y };
        if (found.some((p) => Math.hypot(p.x - at.x, p.y - at.y) < ROUNDING)) seen.add(k);
      });
    });
    expect(corners.length).toBeGreaterThan(10);
    expect(seen.size).toBe(corners.length);
  });

  test('neighbours share crosses that lie on one point of the drawing', async () => {
    const { read, tiled } = await all;
    const first = tiled.pages.length - tiled.tiles.length;
    const crosses = tiled.tiles.map((tile, i) => {
      const page = read.pages[first + i];
      if (!page) throw new Error('page missing');
      return crossesOn(page, tiled.frame).map((p) => ({ x: p.x - tile.offset.x, y: p.y - tile.offset.y }));
    });
    let pairs = 0;
    tiled.tiles.forEach((a, i) => {
      tiled.tiles.forEach((b, k) => {
        const beside = a.row === b.row && b.column === a.column + 1;
        const below = a.column === b.column && b.row === a.row + 1;
        if (!beside && !below) return;
        pairs++;
        const shared = (crosses[i] ?? []).filter((p) =>
          (crosses[k] ?? []).some((q) => Math.hypot(p.x - q.x, p.y - q.y) < SCALE),
        );
        expect(shared.length).toBeGreaterThanOrEqual(2);
      });
    });
    if (tiled.tiles.length > 1) expect(pairs).toBeGreaterThan(0);
    const everywhere = crosses.flat();
    for (const p of everywhere) {
      expect(everywhere.filter((q) => Math.hypot(p.x - q.x, p.y - q.y) < SCALE).length).toBeGreaterThan(1);
    }
  });
});

/** What is printed where the file says `p`: the printer undoes the factors about the page's middle. */
function onPaper(
  p: { readonly x: number; readonly y: number },
  page: ReadPage,
  frame: { readonly factorX: number; readonly factorY: number },
): { readonly x: number; readonly y: number } {
  const middle = { x: (page.width * MM) / 2, y: (page.height * MM) / 2 };
  return {
    x: middle.x + (p.x * MM - middle.x) / frame.factorX,
    y: middle.y + (p.y * MM - middle.y) / frame.factorY,
  };
}

/** Where an upright and a level line of the finest pen cross each other in both their middles, or end on an edge. */
function crossesOn(page: ReadPage, frame: { readonly factorX: number; readonly factorY: number }) {
  const fine = page.strokes
    .filter((one) => one.colour === '#000000' && Math.abs((one.penX * MM) / frame.factorX - 0.12) < 1e-6)
    .map((one) => one.points.map((p) => onPaper(p, page, frame)));
  const upright = fine.filter(([a, b]) => a && b && Math.abs(a.x - b.x) < ROUNDING);
  const level = fine.filter(([a, b]) => a && b && Math.abs(a.y - b.y) < ROUNDING);
  return upright.flatMap(([a, b]) =>
    level.flatMap(([c, d]) => {
      if (!a || !b || !c || !d) return [];
      const meets =
        Math.min(c.x, d.x) <= a.x &&
        Math.max(c.x, d.x) >= a.x &&
        Math.min(a.y, b.y) <= c.y &&
        Math.max(a.y, b.y) >= c.y;
      return meets ? [{ x: a.x, y: c.y }] : [];
    }),
  );
}

test('numbers are plain decimals', async () => {
  const { pages } = await readPdf(
    await printed(
      {
        title: 'tiny',
        notes: [],
        items: [{ kind: 'closed', layer: 'CUT', outline: circle({ x: 1e-7, y: -1e-9 }, 20) }],
      },
      options({ name: 'a5' }),
    ),
  );
  expect(pages).toHaveLength(1);
  const curves = drawn(pages[0] as ReadPage).flatMap((one) => one.points);
  expect(curves.length).toBeGreaterThan(12);
  for (const p of curves) expect(Number.isFinite(p.x) && Number.isFinite(p.y)).toBe(true);
});

test('arcs stay within 0.001 mm of the circle', async () => {
  for (const radius of [0.5, 8, 60, 95]) {
    const drawing = {
      title: 'circle',
      notes: [],
      items: [{ kind: 'closed', layer: 'CUT', outline: circle({ x: 0, y: 0 }, radius) }] as const,
    };
    const { read, tiled } = await written(drawing, options({ name: 'a3' }));
    const page = read.pages[0] as ReadPage;
    const [stroke] = drawn(page);
    const { offset } = tiled.tiles[0] ?? { offset: { x: 0, y: 0 } };
    const at = (stroke?.points ?? []).map((p) => ({ x: p.x * MM - offset.x, y: p.y * MM - offset.y }));
    let worst = 0;
    for (let i = 0; i + 3 < at.length; i += 3) {
      const [a, b, c, d] = at.slice(i, i + 4);
      if (!a || !b || !c || !d) continue;
      for (let t = 0; t <= 1; t += 0.05) {
        const u = 1 - t;
        const x = u ** 3 * a.x + 3 * u * u * t * b.x + 3 * u * t * t * c.x + t ** 3 * d.x;
        const y = u ** 3 * a.y + 3 * u * u * t * b.y + 3 * u * t * t * c.y + t ** 3 * d.y;
        worst = Math.max(worst, Math.abs(Math.hypot(x, y) - radius));
      }
    }
    expect(at.length).toBeGreaterThanOrEqual(13);
    expect(worst).toBeLessThan(0.001);
  }
});

test('layers have their colours, and only lines that say so are dashed', async () => {
  const { read } = await written(plate(150, 110), options({ name: 'a4' }));
  const strokes = drawn(read.pages[0] as ReadPage);
  expect(new Set(strokes.map((one) => one.colour))).toEqual(
    new Set([colours.CUT, colours.SCORE, colours.ENGRAVE, colours.REF]),
  );
  for (const one of strokes) expect(one.dash.length > 0).toBe(one.colour === colours.REF);
  for (const one of strokes) expect(one.penX * MM).toBeCloseTo(0.2, 6);
});

test('a dashed line goes on from page to page where it left off', async () => {
  const { read, tiled } = await written(plate(900, 110), options({ name: 'a4' }));
  tiled.tiles.forEach((tile, i) => {
    const dashed = drawn(read.pages[i + 1] as ReadPage).filter((one) => one.dash.length > 0);
    expect(dashed).toHaveLength(1);
    expect(dashed[0]?.dashPhase).toBeCloseTo(Math.max(0, tile.shown.minX), 3);
  });
});

test('the map comes first and has a cell for every page that follows', async () => {
  const { read, tiled } = await written(plate(900, 110), options({ name: 'a4' }));
  expect(tiled.pages.map((page) => page.kind)).toEqual(['map', ...tiled.tiles.map(() => 'tile')]);
  const cells = (read.pages[0] as ReadPage).strokes.filter((one) => one.colour === '#808080' && one.closed);
  expect(cells).toHaveLength(tiled.tiles.length);
  const widths = cells.map(({ points }) => {
    const xs = points.map((p) => p.x * MM);
    return Math.max(...xs) - Math.min(...xs);
  });
  const scale = widths.reduce((a, b) => a + b, 0) / 900;
  expect(scale).toBeLessThan(1);
  tiled.tiles.forEach(({ cell }, i) => {
    expect(Math.abs((widths[i] ?? 0) - (cell.maxX - cell.minX) * scale)).toBeLessThan(ROUNDING);
  });
});

test.each(['30 tiles of A4', 'the sample of thirty pages'])('%s: there are 30', async (name) => {
  const [, drawing, wanted] = cases.find(([one]) => one === name) ?? [];
  if (!drawing || !wanted) throw new Error('no such case');
  const { tiled } = await written(drawing, wanted);
  expect(tiled.tiles).toHaveLength(30);
});
