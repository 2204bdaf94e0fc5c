import { unzipSync } from 'fflate';
import { describe, expect, test } from 'vitest';
import { areaOfRegion, perimeterOfRegion } from '../../src/geometry/outline.js';
import { regionOf } from '../../src/geometry/regions/nesting.js';
import { solidOf } from '../../src/writers/solids/solid.js';
import { threeMfWriter } from '../../src/writers/solids/threemf.js';
import { comb, plate, screwHole } from '../drawing/fixture.js';
import { judgedByManifold, read3mf, unmatchedEdges, volumeOf } from './solid-read.js';

const thickness = 6.35;
const solid = solidOf(plate, { thickness });
if (!solid) throw new Error('the plate has a solid');
const scene = { title: plate.title, notes: plate.notes, objects: [{ solid }] };
const bytes = threeMfWriter.write(scene);

describe('a 3MF file', () => {
  const read = read3mf(bytes);

  test('is a package of content types, relationships and one model, in millimetres', () => {
    expect(read.parts).toEqual(['[Content_Types].xml', '_rels/.rels', '3D/3dmodel.model']);
    expect(read.model).toContain('<model unit="millimeter"');
    expect(read.model).toContain('<build><item objectid="1"/></build>');
  });

  test('holds title and notes, markup escaped', () => {
    expect(read.model).toContain(
      '<metadata name="Title">Specimen cabinet: tray-corner, finger template, tails</metadata>',
    );
    expect(read.model).toContain('Bit 8° &amp; bushing &lt;7/16 in&gt;.');
  });

  test('is closed, one body with one hole, of the volume area × thickness', async () => {
    expect(unmatchedEdges(read)).toEqual([]);
    const region = regionOf([comb, screwHole]);
    const slack = perimeterOfRegion(region) * (0.005 * (2 / 3) + 1e-4) * thickness;
    expect(Math.abs(volumeOf(read) - areaOfRegion(region) * thickness)).toBeLessThan(slack);
    expect(await judgedByManifold(read)).toMatchObject({ status: 'NoError', genus: 1, parts: 1 });
  });

  test('writes plain decimals: no exponent, no comma', () => {
    const values = [...read.model.matchAll(/ [xyz]="([^"]*)"/g)].map(([, value]) => value);
    expect(values.length).toBeGreaterThan(300);
    for (const value of values) expect(value).toMatch(/^-?\d+(\.\d{1,4})?$/);
  });

  test('repeats byte for byte, whatever the time zone', () => {
    const zone = process.env.TZ;
    try {
      for (const other of ['Pacific/Auckland', 'America/St_Johns', 'UTC']) {
        process.env.TZ = other;
        expect(threeMfWriter.write(scene)).toEqual(bytes);
      }
    } finally {
      if (zone === undefined) delete process.env.TZ;
      else process.env.TZ = zone;
    }
  });

  test('unzips with every part whole', () => {
    for (const part of Object.values(unzipSync(bytes)))
      expect(new TextDecoder().decode(part)).toMatch(/^<\?xml [\s\S]*>\n$/);
  });
});
