/**
 * What can hurt, in one line each, with where it was published. Short on purpose: the maker's manual of each
 * machine and local rules come first, and say more.
 */
export interface Caution {
  readonly text: string;
  /** The published text that says it, or `common practice, no source`. */
  readonly source: string;
}

const COMMON = 'common practice, no source';

export const cautions = {
  first: {
    text: "The maker's manual of each machine and local rules come first.",
    source: COMMON,
  },
  unplug: {
    text: 'Unplug the router.',
    source: COMMON,
  },
  secure: {
    text: 'Clamp work, plate and fence so that none of them can move; keep both hands on the router.',
    source: 'OSHA woodworking guidance, routers',
  },
  eyes: {
    text: 'Wear eye protection.',
    source: 'OSHA woodworking guidance, routers',
  },
  noise: {
    text: 'Wear ear protection: 90 dBA is allowed for 8 hours a day, 100 dBA for 2, 105 dBA for 1.',
    source: '29 CFR 1910.95, Table G-16',
  },
  dust: {
    text: 'Collect the dust and wear a mask: the limit advised for wood dust is 1 mg in a cubic metre of air.',
    source: 'NIOSH recommended limit for wood dust',
  },
  laser: {
    text: 'Laser: never cut PVC or vinyl, and never leave it alone while it runs.',
    source: 'laser rules of university workshops',
  },
  cnc: {
    text: 'CNC: clamp the sheet clear of the path and stay with a hand at the stop.',
    source: COMMON,
  },
  start: {
    text: 'Let the bit stop before you lift the router off the plate: lifted while it turns, it cuts plate and bushing.',
    source: COMMON,
  },
  fingers: {
    text: 'Chisels: cut away from yourself, with both hands behind the edge.',
    source: COMMON,
  },
} as const satisfies Readonly<Record<string, Caution>>;

/** Every published text that a caution rests on, once each. */
export function publishedSources(): readonly string[] {
  const all: readonly string[] = Object.values(cautions).map(({ source }) => source);
  return [...new Set(all)].filter((source) => source !== COMMON);
}
