import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import type { Affine } from '../../src/geometry/svg/curve.js';
import { readSvgPath } from '../../src/geometry/svg/path.js';
import type { Segment } from '../../src/geometry/types.js';
import { mutated, textMutations } from './mutations.js';

/** The text of a path and where it is placed. */
export interface PathMutant {
  readonly d: string;
  readonly placed: Affine;
}

/** No path may take longer, s of the processor's time. */
const MAX_SECONDS = 1;

/** Curves of every kind, which samples may not hold. */
const curves = [
  'M0 0C0 10 20 10 20 0S40 -10 40 0Q50 20 60 0T80 0',
  'm 5 5 a 25 12 30 0 1 50 25 A 3 3 0 1 0 9 9 a10 10 0 01 20 0z m 3 3 h 4 v 5 l -3 -2 z',
  'M.5.25L.6.5.7.8c1e1-2E-1+3e0.4.5.6s7 8 9 10',
  'M 0 0 C 30 0 0 30 0 0 C 1 1 1 1 1 1 C 0 0 100 0 3 0',
];

const scale = fc.double({ min: 0.001, max: 30, noNaN: true });
const placements: fc.Arbitrary<Affine> = fc.oneof(
  scale.map((by): Affine => [by, 0, 0, -by, 0, 0]),
  fc.tuple(scale, scale).map(([a, d]): Affine => [a, 0.3, -0.2, -d, 11, -7]),
);

/** Spoilt paths of the drawings in some folders. */
export function pathMutantsOf(folders: readonly string[]): fc.Arbitrary<PathMutant> {
  const drawn = folders.flatMap((folder) =>
    readdirSync(folder)
      .filter((name) => name.endsWith('.svg'))
      .flatMap((name) => [...readFileSync(join(folder, name), 'utf8').matchAll(/\sd="([^"]+)"/g)])
      .map(([, d]) => d ?? ''),
  );
  const texts = fc.oneof(fc.constantFrom(...curves), fc.constantFrom(...curves, ...drawn));
  return fc
    .tuple(texts, textMutations, placements)
    .map(([d, mutations, placed]) => ({ d: mutated(d, mutations), placed }));
}

/** What is wrong with how a path is read; undefined where nothing is. A refusal with its place is a good answer. */
export function problemWithPath({ d, placed }: PathMutant): string | undefined {
  const before = process.cpuUsage();
  const reading = readSvgPath(d, placed);
  const { user, system } = process.cpuUsage(before);
  if ((user + system) / 1e6 > MAX_SECONDS) return `took ${(user + system) / 1e6} s`;
  if (!reading.ok) {
    const { position } = reading;
    return position >= 1 && position <= d.length + 1 ? undefined : `is refused at ${position} of ${d.length}`;
  }
  const segments = reading.subpaths.flatMap(({ path }) => path.segments);
  return segments.every(isSound) ? problemInChains(reading.subpaths) : 'holds a number that is none';
}

function isSound(segment: Segment): boolean {
  const points = [segment.from, segment.to, ...(segment.kind === 'arc' ? [segment.center] : [])];
  const round = segment.kind === 'line' || segment.radius > 0;
  return round && points.every(({ x, y }) => Number.isFinite(x) && Number.isFinite(y));
}

function problemInChains(subpaths: readonly { readonly path: { readonly segments: readonly Segment[] } }[]) {
  const torn = subpaths.some(({ path: { segments } }) =>
    segments.some((one, i) => {
      const before = segments[i - 1];
      return before !== undefined && (before.to.x !== one.from.x || before.to.y !== one.from.y);
    }),
  );
  return torn ? 'comes apart' : undefined;
}
