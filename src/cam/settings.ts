import { diagnostic, err, ok, type Result } from '../diagnostics/diagnostic.js';
import type { Cnc, Laser, PlateStock } from '../input/types.js';
import type { Relief } from './relief.js';

/** What a milling program needs to know, all of it: mm, mm per minute, radians. */
export interface MillSettings {
  readonly cutter: number;
  readonly rpm: number;
  readonly feed: number;
  readonly plunge: number;
  readonly pass: number;
  readonly safeHeight: number;
  readonly thickness: number;
  /** How far below the sheet the last pass goes. */
  readonly through: number;
  /** Steepness of ramps and helices. */
  readonly ramp: number;
  readonly direction: 'climb' | 'conventional';
  readonly tabs: { readonly count: number; readonly width: number; readonly height: number };
  readonly relief: Relief;
  /** Depth of scores and lettering, and the width of what cuts them: an engraving bit, or else the end mill. */
  readonly marks: { readonly tip: number; readonly depth: number; readonly ownTool: boolean };
  readonly bed?: readonly [number, number];
}

export interface BeamSettings {
  readonly kerf: number;
  readonly speed: number;
  readonly power: number;
  /** Absent when marks are left out for want of their own speed and power. */
  readonly marks?: { readonly speed: number; readonly power: number };
  /** How far beside the line, in the waste, the beam starts; 0 starts on the line. */
  readonly leadIn: number;
  readonly bed?: readonly [number, number];
}

// What is not a matter of wood, cutter and machine may be left out; common practice, no source.

/** Over the sheet, clear of clamps that do not stand up, mm. */
const SAFE_HEIGHT = 5;

/** Into the board under the sheet, so that the last pass goes through a sheet that is not quite flat, mm. */
const THROUGH = 0.2;

/** Gentle enough for any end mill, radians. */
const RAMP = (3 * Math.PI) / 180;

const TABS = 4;
const TAB_WIDTH = 6;

/** As high as this, or a third of the sheet if that is less, mm. */
const TAB_HEIGHT = 2;

/** Deep enough to be seen and felt, mm. */
const MARK_DEPTH = 0.3;

/**
 * The settings of a router table, or what is missing. Cutter, spindle speed, feeds and depth of a pass hang on
 * wood, cutter and machine: they are never assumed.
 */
export function millSettings(cnc: Cnc | undefined, stock: PlateStock): Result<MillSettings> {
  const { cutter, rpm, feed, plunge, pass } = cnc ?? {};
  if (
    cutter === undefined ||
    rpm === undefined ||
    feed === undefined ||
    plunge === undefined ||
    pass === undefined
  ) {
    const missing = Object.entries({ cutter, rpm, feed, plunge, pass }).flatMap(([key, value]) =>
      value === undefined ? [key] : [],
    );
    return err([diagnostic('mill-settings-missing', 'refused', 'shop.cnc', { missing })]);
  }
  const { thickness } = stock;
  const tabs = {
    count: cnc?.tabs?.count ?? TABS,
    width: cnc?.tabs?.width ?? TAB_WIDTH,
    height: cnc?.tabs?.height ?? Math.min(TAB_HEIGHT, thickness / 3),
  };
  if (tabs.count > 0 && tabs.height >= thickness) {
    return err([
      diagnostic('tab-over-sheet', 'refused', 'shop.cnc.tabs.height', { height: tabs.height, thickness }),
    ]);
  }
  return ok({
    cutter,
    rpm,
    feed,
    plunge,
    pass,
    thickness,
    tabs,
    safeHeight: cnc?.safeHeight ?? SAFE_HEIGHT,
    through: cnc?.through ?? THROUGH,
    ramp: cnc?.ramp ?? RAMP,
    direction: cnc?.direction ?? 'climb',
    relief: cnc?.relief ?? 'none',
    marks: {
      tip: cnc?.engraver?.tip ?? cutter,
      depth: Math.min(cnc?.engraver?.depth ?? MARK_DEPTH, thickness / 2),
      ownTool: cnc?.engraver !== undefined,
    },
    ...(cnc?.bed && { bed: cnc.bed }),
  });
}

/** The settings of a laser, or what is missing: kerf, speed and power hang on sheet and machine. */
export function beamSettings(laser: Laser | undefined): Result<BeamSettings> {
  const { kerf, speed, power } = laser ?? {};
  if (kerf === undefined || speed === undefined || power === undefined) {
    const missing = Object.entries({ kerf, speed, power }).flatMap(([key, value]) =>
      value === undefined ? [key] : [],
    );
    return err([diagnostic('beam-settings-missing', 'refused', 'shop.laser', { missing })]);
  }
  const { scoreSpeed, scorePower, leadIn, bed } = laser ?? {};
  return ok({
    kerf,
    speed,
    power,
    leadIn: leadIn ?? 0,
    ...(scoreSpeed !== undefined &&
      scorePower !== undefined && { marks: { speed: scoreSpeed, power: scorePower } }),
    ...(bed && { bed }),
  });
}
