import { Document, WebIO } from '@gltf-transform/core';
import type { Writer } from '../../drawing/model.js';
import type { Solid } from '../../geometry/solid.js';

/** What a file shows. */
export interface GlbScene {
  readonly title: string;
  readonly parts: readonly GlbPart[];
}

export interface GlbPart {
  readonly name: string;
  readonly solid: Solid;
  /** `#RRGGBB`. */
  readonly colour: string;
}

export const glbWriter = { format: 'glb', extension: 'glb', write: writeGlb } satisfies Writer<
  void,
  GlbScene
>;

/** glTF counts in metres. */
const METRES = 1e-3;

/** glTF has y up and z toward who looks: a quarter turn about x puts our z up, and our −y in front. */
const Z_UP: [number, number, number, number] = [-Math.SQRT1_2, 0, 0, Math.SQRT1_2];

/**
 * Solids as GLB, the binary form of glTF 2.0. Numbers in the file are mm; the one node above all others scales them
 * to the metres of the format. No normals are given: by the specification a viewer then shades each facet flat.
 */
function writeGlb({ title, parts }: GlbScene): Promise<Uint8Array> {
  const document = new Document();
  const buffer = document.createBuffer();
  const top = document.createNode('millimetres').setScale([METRES, METRES, METRES]).setRotation(Z_UP);
  for (const { name, solid, colour } of parts) {
    const positions = document
      .createAccessor()
      .setType('VEC3')
      .setArray(new Float32Array(solid.vertices.flat()))
      .setBuffer(buffer);
    const corners = document
      .createAccessor()
      .setType('SCALAR')
      .setArray(new Uint32Array(solid.triangles.flat()))
      .setBuffer(buffer);
    const wood = document
      .createMaterial(name)
      .setBaseColorFactor(linear(colour))
      .setMetallicFactor(0)
      .setRoughnessFactor(0.9);
    const faces = document
      .createPrimitive()
      .setAttribute('POSITION', positions)
      .setIndices(corners)
      .setMaterial(wood);
    top.addChild(document.createNode(name).setMesh(document.createMesh(name).addPrimitive(faces)));
  }
  document.createScene(title).addChild(top);
  return new WebIO().writeBinary(document);
}

/** A colour as screens have it, in the linear light that glTF counts in (IEC 61966-2-1, the sRGB curve). */
function linear(colour: string): [number, number, number, number] {
  const channel = (at: number): number => {
    const value = Number.parseInt(colour.slice(at, at + 2), 16) / 255;
    return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
  };
  return [channel(1), channel(3), channel(5), 1];
}
