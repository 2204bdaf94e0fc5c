import { type Finding, finding, given, type Result, refused } from '../findings/finding.js';
import type { Affine } from '../geometry/curve.js';
import { type DrawnPath, type PathTrouble, readSvgPath } from '../geometry/svg-path.js';
import { findSvgLine, MM_PER_PX } from '../job/svg-document.js';
import { MM_PER_INCH } from '../units/length.js';
import type { DrawnLine, LineUnit } from './edge-fields.js';

/**
 * The one line that a job names, from its file or its path data: mm, y up. SVG's y runs down, and here it is
 * turned over, once. Findings are placed under `at`, the path of the key `line`.
 */
export function readLine(line: DrawnLine, at: string): Result<DrawnPath> {
  if ('d' in line) {
    const size = mmPer[line.unit];
    return onePath(line.d, [size, 0, 0, -size, 0, 0], {}, `${at}.d`);
  }
  const place = line.id === undefined ? `${at}.svg` : `${at}.id`;
  const found = findSvgLine(line.svg, line.id, place);
  if (!found.ok) return refused(found.findings);
  const { d, toMm, id } = found.value;
  const [a, b, c, e, x, y] = toMm;
  const where = { file: line.svg.path, ...(id === undefined ? {} : { id }) };
  const path = onePath(d, [a, -b, c, -e, x, -y], where, place);
  const findings = [...found.findings, ...path.findings];
  return path.ok ? given(path.value, findings) : refused(findings);
}

const mmPer: Readonly<Record<LineUnit, number>> = { mm: 1, in: MM_PER_INCH, px: MM_PER_PX };

/** Where path data stands, for messages: nowhere else than in the job unless a file is named. */
interface Where {
  readonly file?: string;
  readonly id?: string;
}

function onePath(d: string, placed: Affine, where: Where, at: string): Result<DrawnPath> {
  const read = readSvgPath(d, placed);
  if (!read.ok) return refused([troubleFinding(read, where, at)]);
  const [path, ...others] = read.subpaths;
  if (path === undefined || path.path.segments.length === 0) {
    return refused([finding('path-empty', 'refused', at, where)]);
  }
  if (others.length > 0) {
    return refused([finding('path-in-parts', 'refused', at, { ...where, parts: others.length + 1 })]);
  }
  return path.closed ? refused([finding('path-closed', 'refused', at, where)]) : given(path);
}

function troubleFinding(one: PathTrouble, where: Where, at: string): Finding {
  const { trouble, position, read, expected } = one;
  if (trouble === 'empty') return finding('path-empty', 'refused', at, where);
  if (trouble === 'syntax') {
    return finding('path-unreadable', 'refused', at, { ...where, position, read, expected });
  }
  return finding('path-far', 'refused', at, { ...where, position, read, endless: trouble === 'not-finite' });
}
