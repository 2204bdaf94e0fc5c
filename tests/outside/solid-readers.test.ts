import { unzipSync } from 'fflate';
import { SaxesParser } from 'saxes';
import type { BufferGeometry, Mesh } from 'three';
import { GLTFLoader } from 'three/examples/jsm/loaders/GLTFLoader.js';
import { beforeAll, describe, expect, test } from 'vitest';
import { families } from '../../src/joints/list.js';
import type { MadeFile } from '../../src/outputs/artifact.js';
import { solveJob } from '../../src/outputs/joint.js';
import { type SolidOutcome, solidFiles, solidJob } from '../../src/outputs/solid.js';
import { testCutJob } from '../../src/outputs/testcut.js';
import { readText } from '../support/jobs.js';
import { judgedByManifold, type Surface, unmatchedEdges, volumeOf } from '../writers/solid-read.js';

/**
 * A joint's solids as files, read by readers that are not ours: GLB by three's loader, 3MF by fflate and saxes; each
 * board has to be one closed body to the library manifold, of the volume that the solid has.
 */

const starter = (kind: string): string => families.find((one) => one.kind === kind)?.starter ?? '';
const kinds = ['through-dovetail', 'box', 'half-blind-dovetail'];

type Spot = Surface['triangles'][number][0];
type Named = readonly { readonly name: string; readonly surface: Surface }[];

describe.each(kinds)('the solids of a %s', (kind) => {
  let outcome: SolidOutcome;
  let files: readonly MadeFile[] = [];
  const bytesOf = (end: string): Uint8Array =>
    files.find(({ path }) => path.endsWith(end))?.content as Uint8Array;

  beforeAll(async () => {
    const job = readText(starter(kind));
    const outcomes = solveJob(job);
    const [solid] = await solidJob(outcomes, await testCutJob(job, outcomes));
    if (!solid) throw new Error('nothing was built');
    outcome = solid;
    files = await solidFiles(job, solid);
  }, 120_000);

  test('are four files, the same bytes every time', async () => {
    const names = ['solid-closed.3mf', 'solid-closed.glb', 'solid-apart.3mf', 'solid-apart.glb'];
    expect(files.map(({ path }) => path)).toEqual(names.map((name) => `${outcome.joint}/${name}`));
    const again = await solidFiles(readText(starter(kind)), outcome);
    for (const [i, { content }] of again.entries()) expect(content).toEqual(files[i]?.content);
  });

  test.each(['closed', 'apart'])(
    '%s: GLB and 3MF hold both boards, whole, with their volumes',
    async (view) => {
      const boards = outcome.solid.boards.map(({ board, closed, laid }) => ({
        board,
        solid: view === 'closed' ? closed : laid,
      }));
      for (const read of [await readGlb(bytesOf(`${view}.glb`)), read3mfObjects(bytesOf(`${view}.3mf`))]) {
        expect(read.map(({ name }) => name)).toEqual(boards.map(({ board }) => board));
        for (const [i, { surface }] of read.entries()) {
          const { vertices, triangles } = boards[i]?.solid ?? { vertices: [], triangles: [] };
          const meant = volumeOf({
            triangles: triangles.map(
              (corners) => corners.map((at) => vertices[at]) as unknown as Surface['triangles'][number],
            ),
          });
          expect(unmatchedEdges(surface)).toEqual([]);
          const judged = await judgedByManifold(surface);
          expect(judged).toMatchObject({ status: 'NoError', parts: 1, genus: 0 });
          expect(Math.abs(judged.volume / meant - 1)).toBeLessThan(1e-5);
          expect(meant).toBeGreaterThan(1000); // mm³, not m³ nor in³
        }
      }
    },
  );

  test('GLB is in metres, y up, by the head that glTF 2.0 asks for (Khronos, section 4.4)', async () => {
    const bytes = bytesOf('closed.glb');
    const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
    expect([view.getUint32(0, true), view.getUint32(4, true)]).toEqual([0x46546c67, 2]);
    expect(view.getUint32(8, true)).toBe(bytes.length);
    expect(view.getUint32(16, true)).toBe(0x4e4f534a); // the first chunk is JSON
    const [first] = await readGlb(bytes, 1);
    const spots = first?.surface.triangles.flat() ?? [];
    const board = outcome.solid.boards[0]?.closed.vertices ?? [];
    const most = (list: readonly Spot[], axis: 0 | 1 | 2): number => Math.max(...list.map((at) => at[axis]));
    expect(most(spots, 0) * 1000).toBeCloseTo(most(board, 0), 3);
    expect(most(spots, 1) * 1000).toBeCloseTo(most(board, 2), 3); // our z, up, is y there
  });

  test('boards laid apart lie on the bed and keep clear of each other', () => {
    const [one, two] = read3mfObjects(bytesOf('apart.3mf')).map(({ surface }) => surface.triangles.flat());
    for (const spots of [one, two]) expect(Math.min(...(spots ?? []).map(([, , z]) => z))).toBe(0);
    const far = Math.max(...(one ?? []).map(([, y]) => y));
    expect(Math.min(...(two ?? []).map(([, y]) => y))).toBeCloseTo(far + 10, 3);
  });
});

/** Boards of a GLB in our own axes and mm: three has put every node's matrix to use. `scale` 1 leaves them as they are. */
async function readGlb(bytes: Uint8Array, scale = 1000): Promise<Named> {
  const { scene } = await new GLTFLoader().parseAsync(new Uint8Array(bytes).buffer, '');
  scene.updateMatrixWorld(true);
  const found: { name: string; surface: Surface }[] = [];
  scene.traverse((node) => {
    const mesh = node as Mesh;
    if (!mesh.isMesh) return;
    const local = mesh.geometry as BufferGeometry;
    const places = local.clone().applyMatrix4(mesh.matrixWorld).getAttribute('position');
    const index = local.getIndex();
    if (!index) throw new Error('no index');
    const spot = (at: number): Spot => [
      places.getX(at) * scale,
      places.getY(at) * scale,
      places.getZ(at) * scale,
    ];
    const corners = Array.from(index.array, (at) => spot(at));
    found.push({ name: mesh.name, surface: { triangles: inThrees(corners) } });
  });
  return found;
}

/** Every object of a 3MF package, by its id in the order of the build. */
function read3mfObjects(bytes: Uint8Array): Named {
  const parts = unzipSync(bytes);
  const parser = new SaxesParser();
  const objects = new Map<string, { name: string; vertices: Spot[]; corners: Spot[] }>();
  const built: string[] = [];
  let current: { name: string; vertices: Spot[]; corners: Spot[] } | undefined;
  parser.on('opentag', ({ name, attributes }) => {
    const number = (key: string): number => Number(attributes[key]);
    if (name === 'model') expect(attributes.unit).toBe('millimeter');
    if (name === 'object') {
      current = { name: String(attributes.name), vertices: [], corners: [] };
      objects.set(String(attributes.id), current);
    }
    if (name === 'vertex') current?.vertices.push([number('x'), number('y'), number('z')]);
    if (name === 'triangle') {
      for (const key of ['v1', 'v2', 'v3']) {
        const spot = current?.vertices[number(key)];
        if (spot) current?.corners.push(spot);
      }
    }
    if (name === 'item') built.push(String(attributes.objectid));
  });
  parser.write(new TextDecoder().decode(parts['3D/3dmodel.model'])).close();
  return built.map((id) => {
    const { name, corners } = objects.get(id) ?? { name: '', corners: [] };
    return { name, surface: { triangles: inThrees(corners) } };
  });
}

function inThrees(corners: readonly Spot[]): Surface['triangles'] {
  return Array.from({ length: corners.length / 3 }, (_, i) => {
    const [a, b, c] = corners.slice(3 * i, 3 * i + 3);
    if (!a || !b || !c) throw new Error('a triangle has three corners');
    return [a, b, c] as const;
  });
}
