import {
  MAX_FEED,
  MAX_KERF,
  MAX_OVERLAP,
  MAX_POWER,
  MAX_STROKE,
  MAX_TABS,
  SPINDLE_SPEEDS,
} from '../limits.js';
import type { Cnc, Files, Laser, Print } from '../types.js';
import type { FieldKit } from './field-kit.js';
import {
  angleReader,
  type FileUnits,
  type LengthRange,
  lengthReader,
  numberReader,
  optionReader,
  pairReader,
} from './read-value.js';
import { field, object } from './schema.js';

/** The machines of a shop file that cut or print plates. Lengths come out in mm, feeds in mm per minute. */
export function machineSettings(units: FileUnits, kit: FieldKit) {
  const length = kit.length().exactOptional();
  const lengthOrZero = kit.lengthOrZero().exactOptional();
  const feed = field(lengthReader(units, FEED)).exactOptional();
  const bed = field(pairReader(lengthReader(units))).exactOptional();
  const power = field(numberReader({ least: 0, most: MAX_POWER })).exactOptional();
  return {
    laser: object({
      kerf: field(lengthReader(units, KERF)).exactOptional(),
      bed,
      speed: feed,
      power,
      'score-speed': feed,
      'score-power': power,
      'lead-in': lengthOrZero,
    })
      .transform(
        ({ 'score-speed': scoreSpeed, 'score-power': scorePower, 'lead-in': leadIn, ...rest }): Laser => ({
          ...rest,
          ...(scoreSpeed !== undefined && { scoreSpeed }),
          ...(scorePower !== undefined && { scorePower }),
          ...(leadIn !== undefined && { leadIn }),
        }),
      )
      .exactOptional(),
    cnc: object({
      cutter: length,
      bed,
      rpm: field(numberReader(SPINDLE_SPEEDS)).exactOptional(),
      feed,
      plunge: feed,
      pass: length,
      'safe-height': length,
      through: lengthOrZero,
      ramp: field(angleReader(false)).exactOptional(),
      direction: field(optionReader(['climb', 'conventional'])).exactOptional(),
      relief: field(optionReader(['corner', 'edge', 'none'])).exactOptional(),
      tabs: object({
        count: kit.count(0, MAX_TABS).exactOptional(),
        width: length,
        height: length,
      }).exactOptional(),
      engraver: object({ tip: kit.length(), depth: length }).exactOptional(),
    })
      .transform(
        ({ 'safe-height': safeHeight, ...rest }): Cnc => ({
          ...rest,
          ...(safeHeight !== undefined && { safeHeight }),
        }),
      )
      .exactOptional(),
    print: object({ 'hole-growth': lengthOrZero, ease: lengthOrZero, marker: length })
      .transform(
        ({ 'hole-growth': holeGrowth, ...rest }): Print => ({
          ...rest,
          ...(holeGrowth !== undefined && { holeGrowth }),
        }),
      )
      .exactOptional(),
  };
}

const KERF: LengthRange = { zero: true, most: MAX_KERF, because: 'no laser cuts so wide' };

const FEED: LengthRange = {
  most: MAX_FEED,
  because: 'feeds are lengths per minute, and no router moves so fast',
};

/** How the files of a shop are written. Lengths come out in mm. */
export function fileSettings(units: FileUnits) {
  const option = <const W extends string>(words: readonly W[]) => field(optionReader(words)).exactOptional();
  return object({
    svg: object({
      arcs: option(['arcs', 'beziers']),
      'stroke-width': field(lengthReader(units, STROKE)).exactOptional(),
    })
      .transform(
        ({ 'stroke-width': strokeWidth, ...rest }): NonNullable<Files['svg']> => ({
          ...rest,
          ...(strokeWidth !== undefined && { strokeWidth }),
        }),
      )
      .exactOptional(),
    dxf: object({
      version: option(['r2000', 'r2007', 'r12']),
      entities: option(['polylines', 'lines-and-arcs', 'flattened']),
    }).exactOptional(),
    pdf: object({ overlap: field(lengthReader(units, OVERLAP)).exactOptional() }).exactOptional(),
  }).exactOptional();
}

const STROKE: LengthRange = { most: MAX_STROKE, because: 'a wider line hides what stands beside it' };

const OVERLAP: LengthRange = { most: MAX_OVERLAP, because: 'pages that share more waste paper' };
