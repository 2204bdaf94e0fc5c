import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { extentsOf, mirrored } from '../../src/drawing/drawing.js';
import { area, bulgesOf, extents, outline } from '../../src/geometry/outline.js';
import { mirrorX } from '../../src/geometry/transform.js';
import type { Outline } from '../../src/geometry/types.js';
import { throughDovetail } from '../../src/joints/through-dovetail/through-dovetail.js';
import { NOTCH_DEPTH } from '../../src/template/carrier/notches.js';
import type { FingerTemplate } from '../../src/template/finger-template.js';
import { difference, dilate, erode, evenOdd, rectangle, widest } from '../../src/verify/cut/polygons.js';
import { readDxf } from '../../src/verify/files/read.js';
import { settled } from '../support/hand-testcut.js';
import { readSample, readText, root, solveOnly } from '../support/jobs.js';
import { boxJobs, throughDovetailJobs } from '../support/random-jobs.js';
import { crossedTexts, meetingTexts, textBoxes } from '../support/text-boxes.js';
import { isWritten, withTemplate, writeJoint } from '../support/written-joint.js';

const SEED = 20261125;
const samples = ['case-corner.yaml', 'small-tray.yaml', 'slide-box.yaml'];
const plates = fc.constantFrom<Readonly<Record<string, string>>>(
  {},
  {},
  { plate: 'one' },
  { slots: 'every-second' },
);
const jobs = fc.tuple(fc.oneof(throughDovetailJobs, boxJobs), plates);

function templatesOf([text, template]: readonly [string, Readonly<Record<string, string>>]) {
  return solveOnly(readText(withTemplate(text, template))).made?.templates ?? [];
}

describe('a plate', () => {
  test('is one piece: a single outer outline, with every hole inside it', () => {
    let seen = 0;
    fc.assert(
      fc.property(jobs, (job) => {
        for (const { plate } of templatesOf(job)) {
          seen += 1;
          expect(area(plate.outline)).toBeGreaterThan(0);
          const box = extents(plate.outline);
          for (const hole of plate.holes) {
            const at = extents(hole);
            expect(at.minX).toBeGreaterThan(box.minX);
            expect(at.maxX).toBeLessThan(box.maxX);
            expect(at.minY).toBeGreaterThan(box.minY);
            expect(at.maxY).toBeLessThan(box.maxY);
          }
        }
      }),
      { numRuns: 60, seed: SEED },
    );
    expect(seen).toBeGreaterThan(60);
  });

  test('turns inward only with a radius of at least half of the bushing', () => {
    let corners = 0;
    fc.assert(
      fc.property(jobs, (job) => {
        for (const { plate } of templatesOf(job)) {
          const least = Math.min(...plate.sides.map(({ cut }) => cut.bushing.outside)) / 2;
          // Along the plate a corner into it turns clockwise: an arc with a negative bulge, or a sharp turn.
          for (const { bulge, radius } of arcsOf(plate.outline)) {
            if (bulge >= 0) continue;
            corners += 1;
            expect(radius).toBeGreaterThan(least - 1e-5);
          }
          expect(sharpTurnsInward(plate.outline)).toBe(0);
        }
      }),
      { numRuns: 60, seed: SEED },
    );
    expect(corners).toBeGreaterThan(200);
  });

  test('lets the bushing into every opening: what the bushing cannot sweep is nothing', async () => {
    let seen = 0;
    await fc.assert(
      fc.asyncProperty(jobs, async ([text, template]) => {
        const made = await writeJoint(withTemplate(text, template));
        if (!isWritten(made)) return;
        for (const { name, text: dxf } of made.files.filter(({ name }) => name.endsWith('.dxf'))) {
          seen += 1;
          const rings = settled(readDxf(name, dxf)).layers.CUT ?? [];
          const plate = evenOdd(rings.filter((ring) => ring.length > 8 && widthOf(ring) > 20));
          const bushing = made.report.cuts[0]?.bushing ?? 0;
          const box = boxOf(plate);
          // Openings lie between the plate and its box, less the band past the fingers' rounded tips and the
          // plate's rounded corners, which are no guide.
          const around = [
            rectangle({
              ...box,
              minX: box.minX + 8,
              maxX: box.maxX - 8,
              minY: box.minY - bushing,
              maxY: box.maxY + bushing,
            }),
          ];
          const free = difference(around, plate);
          const swept = dilate(erode(free, bushing / 2 - 1e-3), bushing / 2 - 1e-3);
          const inner = rectangle({
            ...box,
            minX: box.minX + 8 + bushing,
            maxX: box.maxX - 8 - bushing,
            minY: box.minY + 2,
            maxY: box.maxY - 2,
          });
          const missed = difference(
            difference(free, swept),
            difference([rectangle({ ...box, minY: box.minY - 99, maxY: box.maxY + 99 })], [inner]),
          );
          // The bushing is taken 0.001 mm too small, and every arc is known to 0.0006 mm.
          expect(widest(missed).width).toBeLessThan(0.003);
        }
      }),
      { numRuns: 6, seed: SEED },
    );
    expect(seen).toBeGreaterThan(5);
  });
});

describe('words on a plate', () => {
  const clear = ({ drawing, plate }: FingerTemplate): void => {
    expect(textBoxes(drawing).length).toBeGreaterThan(3);
    expect(meetingTexts(drawing)).toEqual([]);
    expect(crossedTexts(drawing, ['CUT', 'SCORE'])).toEqual([]);
    const box = extents(plate.outline);
    for (const { box: words } of textBoxes(drawing)) {
      expect(words.minX).toBeGreaterThan(box.minX);
      expect(words.maxX).toBeLessThan(box.maxX);
      expect(words.minY).toBeGreaterThan(box.minY);
      expect(words.maxY).toBeLessThan(box.maxY);
    }
  };

  test.each(samples)('keep clear of screws, scores, edges and each other: %s', (name) => {
    const templates = solveOnly(readSample(name)).made?.templates ?? [];
    expect(templates.length).toBeGreaterThan(1);
    templates.forEach(clear);
  });

  test.each([6, 20, 40])('with a margin of %i mm no word and no arrow runs off the plate', (margin) => {
    const text = readFileSync(`${root}samples/small-tray.yaml`, 'utf8');
    const template = `    template: { margin: ${margin} mm }\n`;
    const made = solveOnly(readText(`${text.trimEnd()}\n${template}`)).made;
    expect(made?.templates.length).toBeGreaterThan(1);
    for (const { drawing, plate } of made?.templates ?? []) {
      const box = extents(plate.outline);
      const engraved = extentsOf(drawing, ['ENGRAVE']);
      expect(engraved?.minX).toBeGreaterThan(box.minX);
      expect(engraved?.maxX).toBeLessThan(box.maxX);
      expect(meetingTexts(drawing)).toEqual([]);
      expect(crossedTexts(drawing, ['CUT', 'SCORE'])).toEqual([]);
    }
  });

  test('and so on random boards, with one plate for both and with every second slot', () => {
    let seen = 0;
    fc.assert(
      fc.property(jobs, (job) => {
        for (const template of templatesOf(job)) {
          seen += 1;
          clear(template);
        }
      }),
      { numRuns: 50, seed: SEED },
    );
    expect(seen).toBeGreaterThan(50);
  });
});

describe('a mirrored plate', () => {
  test('is the mirror image of the plate, on every layer that is cut', () => {
    const templates = solveOnly(readSample('small-tray.yaml')).made?.templates ?? [];
    const [plain, second] = ['finger-template-pins', 'finger-template-pins-mirrored'].map((name) =>
      templates.find(({ plate }) => plate.name === name),
    );
    if (!plain || !second) throw new Error('the sample has no mirrored plate');
    const { width } = plain.plate;
    expect(cornersOf(second.plate.outline)).toEqual(cornersOf(mirrorX(plain.plate.outline, width)));
    expect(second.plate.referenceEdge).toBe(width);
    expect(mirrored(plain.drawing, width).items.filter(({ layer }) => layer === 'SCORE')).toHaveLength(
      second.drawing.items.filter(({ layer }) => layer === 'SCORE').length,
    );
  });
});

/** Corners with their bulges, from the lowest leftmost on, to a thousandth. */
function cornersOf(one: Outline): readonly string[] {
  const all = bulgesOf(one).map(({ x, y, bulge }) => [x, y, bulge].map((n) => (n + 0).toFixed(3)).join(' '));
  return [...all].map((text) => text.replaceAll('-0.000', '0.000')).sort();
}

function arcsOf(one: Outline) {
  return one.segments.flatMap((segment, i) =>
    segment.kind === 'arc'
      ? [{ radius: segment.radius, bulge: bulgesOf(outline(one.segments))[i]?.bulge ?? 0 }]
      : [],
  );
}

/** Corners at which the outline turns clockwise by more than rounding error, with no arc to do it. */
/** But for the notches in the plate's ends and its far edge, which no bushing comes to. */
function sharpTurnsInward(one: Outline): number {
  const { minX, maxX, maxY } = extents(one);
  const inNotch = ({ x, y }: { readonly x: number; readonly y: number }): boolean =>
    Math.min(x - minX, maxX - x, maxY - y) < NOTCH_DEPTH + 1e-6;
  return one.segments.filter((after, i) => {
    const before = one.segments.at(i - 1);
    if (before?.kind !== 'line' || after.kind !== 'line' || inNotch(after.from)) return false;
    const [ax, ay] = [before.to.x - before.from.x, before.to.y - before.from.y];
    const [bx, by] = [after.to.x - after.from.x, after.to.y - after.from.y];
    return Math.atan2(ax * by - ay * bx, ax * bx + ay * by) < -1e-4;
  }).length;
}

function widthOf(ring: readonly { readonly x: number }[]): number {
  const xs = ring.map(({ x }) => x);
  return Math.max(...xs) - Math.min(...xs);
}

function boxOf(polygons: readonly (readonly { readonly x: number; readonly y: number }[])[]) {
  const all = polygons.flat();
  return {
    minX: Math.min(...all.map(({ x }) => x)),
    maxX: Math.max(...all.map(({ x }) => x)),
    minY: Math.min(...all.map(({ y }) => y)),
    maxY: Math.max(...all.map(({ y }) => y)),
  };
}

describe('a spine', () => {
  const withSpine = (template: Readonly<Record<string, string>>) =>
    solveOnly(readText(withTemplate(JSON.stringify(parse(throughDovetail.starter)), template)));

  test.each([
    ['20 mm', {}],
    ['22.5 mm', { hole: '11 mm' }],
    ['40 mm', { plate: 'one' }],
  ] as const)('of %s holds screws and marks, with %j', (least, others) => {
    const { made, diagnostics } = withSpine({ spine: least, ...others });
    expect(diagnostics.filter(({ level }) => level === 'refused')).toEqual([]);
    for (const { plate, drawing } of made?.templates ?? []) {
      const box = extents(plate.outline);
      const drawn = extentsOf(drawing, ['ENGRAVE', 'SCORE', 'CUT']);
      expect(drawn?.maxY).toBeLessThanOrEqual(box.maxY + 1e-6);
      for (const { screws, spineFrom } of plate.sides)
        for (const { y, radius } of screws) expect(y - radius).toBeGreaterThanOrEqual(spineFrom + 4.99);
    }
    const shorter = withSpine({ spine: `${Number.parseFloat(least) - 0.1} mm`, ...others });
    expect(shorter.diagnostics.map(({ code }) => code)).toContain('spine-thin');
    expect(shorter.made).toBeUndefined();
  });
});
