import { describe, expect, test } from 'vitest';
import { paperSize } from '../../../shared/paper.js';
import { formatterFor } from '../../../src/diagnostics/formatter.js';
import type { Drawing } from '../../../src/drawing/model.js';
import { tileDrawing } from '../../../src/drawing/tiling/tiling.js';
import type { TiledPages } from '../../../src/drawing/tiling/types.js';
import { extents } from '../../../src/geometry/outline.js';
import { clipLine } from '../../../src/geometry/regions/clip.js';
import { extentsOfSegment } from '../../../src/geometry/segment.js';
import { patterns } from '../../../src/template/patterns/pattern.js';
import { readSample, solveOnly } from '../../support/jobs.js';

/** Seams of printed patterns and templates: where scissors go, no wall and no finger should stand. */

const print = { margin: 10, scaleX: 1, scaleY: 1 };

function tiled(drawing: Drawing, paper: string): TiledPages {
  const size = paperSize({ name: paper });
  if (!size) throw new Error(paper);
  return tileDrawing(drawing, size, print);
}

/** x of the seams between columns, y of those between rows. */
function seamsOf({ tiles, extents: whole }: TiledPages): {
  readonly x: readonly number[];
  readonly y: readonly number[];
} {
  const inner = (all: readonly number[], end: number) => [...new Set(all)].filter((one) => one < end - 1e-9);
  return {
    x: inner(
      tiles.map(({ cell }) => cell.maxX),
      whole.maxX,
    ),
    y: inner(
      tiles.map(({ cell }) => cell.maxY),
      whole.maxY,
    ),
  };
}

function made(sample: string) {
  const job = readSample(sample);
  const outcome = solveOnly(job);
  if (!outcome.made) throw new Error(`${sample} is refused`);
  return { job, made: outcome.made };
}

function patternsOf(sample: string) {
  const { job, made: outcome } = made(sample);
  return patterns(outcome.solved, job.title, formatterFor(job.units));
}

describe('seams of patterns', () => {
  test.each([
    ['herbarium-press.yaml', 'a4'],
    ['herbarium-press.yaml', 'letter'],
    ['herbarium-press.yaml', 'a5'],
    ['drying-bench.yaml', 'a5'],
    ['drying-bench.yaml', 'a4'],
  ])('%s on %s: none within a millimetre of a wall, a fold or a baseline', (sample, paper) => {
    for (const { drawing } of patternsOf(sample)) {
      const seams = seamsOf(tiled(drawing, paper));
      expect(seams.x.length).toBeGreaterThan(1);
      const lines = drawing.items.flatMap((item) =>
        item.kind === 'open' && (item.layer === 'SCORE' || item.layer === 'REF')
          ? item.path.segments.map((one) => extentsOfSegment(one))
          : [],
      );
      const [walls, levels] = [
        lines.filter(({ minX, maxX, minY, maxY }) => maxX - minX < maxY - minY),
        lines.filter(({ minY, maxY }) => minY === maxY),
      ];
      expect(walls.length).toBeGreaterThan(20);
      expect(levels.length).toBeGreaterThan(3);
      for (const x of seams.x)
        for (const { minX, maxX } of walls) expect(x < minX - 1 || x > maxX + 1).toBe(true);
      for (const y of seams.y) for (const { minY } of levels) expect(Math.abs(y - minY)).toBeGreaterThan(1);
    }
  });

  test('it is the drawing that says where: without it a seam of a sample stands on a wall', () => {
    const hit = patternsOf('herbarium-press.yaml').some(({ drawing }) => {
      const { keepClear: _, ...blind } = drawing;
      const walls = drawing.keepClear?.x ?? [];
      return ['a3', 'a4', 'a5', 'letter', 'legal'].some((paper) =>
        seamsOf(tiled(blind, paper)).x.some((x) => walls.some(({ from, to }) => x > from && x < to)),
      );
    });
    expect(hit).toBe(true);
  });

  test('0.9 m is four sheets of A4 and a map; the long one thirty of A5 and a map', () => {
    for (const { drawing } of patternsOf('herbarium-press.yaml'))
      expect(tiled(drawing, 'a4').pages).toHaveLength(5);
    const { job } = made('drying-bench.yaml');
    expect(job.shop.printer.paper).toEqual({ name: 'a5' });
    for (const { drawing } of patternsOf('drying-bench.yaml')) {
      const size = paperSize(job.shop.printer.paper);
      if (!size) throw new Error('a5');
      expect(tileDrawing(drawing, size, job.shop.printer).tiles).toHaveLength(30);
    }
  });
});

describe('seams of finger templates', () => {
  test.each([
    ['case-corner.yaml', 'a5'],
    ['case-corner.yaml', 'a4'],
    ['case-corner.yaml', 'letter'],
    ['small-tray.yaml', 'a5'],
  ])('%s on %s: none through a finger', (sample, paper) => {
    const { templates } = made(sample).made;
    for (const { plate, drawing } of templates) {
      const seams = seamsOf(tiled(drawing, paper)).x;
      expect(seams.length).toBeGreaterThan(0);
      for (const side of plate.sides.filter(({ turned }) => !turned)) {
        const { minX, maxX } = extents(side.outline);
        // Across the fingers at their tips, half way and at their roots: all parts but the arms at both ends.
        const tip = side.cut.narrowestAt;
        for (const y of [tip + 0.1, (tip + side.spineFrom) / 2, side.spineFrom - 6]) {
          const parts = clipLine({ x: minX - 1, y }, { x: maxX + 1, y }, [side.outline]).map((one) =>
            extents(one),
          );
          const fingers = parts.slice(1, -1);
          for (const x of seams) {
            expect(
              fingers.filter((one) => x > one.minX && x < one.maxX),
              `seam at ${x}`,
            ).toEqual([]);
          }
        }
      }
    }
  });

  test('a template has fingers to keep clear of, and they move with it', () => {
    const [first] = made('case-corner.yaml').made.templates;
    expect(first?.drawing.keepClear?.x?.length).toBeGreaterThan(3);
  });
});
