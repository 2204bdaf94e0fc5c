import { type PathFormat, pathData, polylineData } from '../drawing/path-data.js';
import type { Outline, Path, Point, Region } from '../geometry/types.js';
import type { Polygons } from '../verify/cut/polygons.js';

/** Path data for the screen, mm: a tenth of a µm is far finer than any screen shows at any zoom here. */
const SCREEN: PathFormat = { digits: 4 };

export const screenPath = (...lines: readonly (Outline | Path)[]): string =>
  lines.map((line) => pathData(line, SCREEN)).join('');

export const pathOfRegion = (region: Region): string => screenPath(...region);

export const pathOfPolygons = (polygons: Polygons): string =>
  polygons.map((ring) => polylineData(ring, SCREEN, true)).join('');

export const pathOfPoints = (points: readonly Point[]): string => polylineData(points, SCREEN);
