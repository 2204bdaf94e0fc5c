import { edgeHeight, job } from './random-jobs.js';

/** The half-blind joint of a drawer: what it is cut with and what of, mm and degrees. `joint` says the rest of it. */
export interface Drawer {
  readonly bit: number;
  readonly angle: number;
  readonly bushing: number;
  readonly depth: number;
  readonly side: number;
  readonly front: number;
  readonly slack?: number;
  readonly joint: Readonly<Record<string, unknown>>;
}

/** Its job. The bit's edge is longer than the depth of cut by `spare`, mm, where the bushing has room for it. */
export function halfBlind(
  { bit, angle, bushing, depth, side, front, slack = 0, joint }: Drawer,
  spare: number,
): string {
  return job({
    bits: {
      flared: {
        kind: 'dovetail',
        diameter: bit,
        angle,
        height: edgeHeight(depth, bushing, { diameter: bit, angle }, spare),
      },
    },
    bushing,
    joint: {
      kind: 'half-blind-dovetail',
      boards: { tails: { thickness: side }, pins: { thickness: front } },
      depth,
      cutter: 'flared',
      fit: { slack },
      ...joint,
    },
  });
}
