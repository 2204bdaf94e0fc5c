import { type Diagnostic, diagnostic, err, ok, type Result } from '../../diagnostics/diagnostic.js';
import type { Affine } from '../../geometry/svg/curve.js';
import { type DrawnPath, type PathTrouble, readSvgPath } from '../../geometry/svg/path.js';
import { findSvgLine, MM_PER_PX } from '../../input/svg/document.js';
import { MM_PER_INCH } from '../../units/length.js';
import type { DrawnLine, LineUnit } from './fields.js';

/**
 * The one line that a job names, from its file or its path data: mm, y up. SVG's y runs down, and here it is
 * turned over, once. Diagnostics are placed under `at`, the path of the key `line`.
 */
export function readLine(line: DrawnLine, at: string): Result<DrawnPath> {
  if ('d' in line) {
    const size = mmPer[line.unit];
    return onePath(line.d, [size, 0, 0, -size, 0, 0], {}, `${at}.d`);
  }
  const place = line.id === undefined ? `${at}.svg` : `${at}.id`;
  const found = findSvgLine(line.svg, line.id, place);
  if (!found.ok) return err(found.diagnostics);
  const { d, toMm, id } = found.value;
  const [a, b, c, e, x, y] = toMm;
  const where = { file: line.svg.path, ...(id === undefined ? {} : { id }) };
  const path = onePath(d, [a, -b, c, -e, x, -y], where, place);
  const diagnostics = [...found.diagnostics, ...path.diagnostics];
  return path.ok ? ok(path.value, diagnostics) : err(diagnostics);
}

const mmPer: Readonly<Record<LineUnit, number>> = { mm: 1, in: MM_PER_INCH, px: MM_PER_PX };

/** Where path data stands, for messages: nowhere else than in the job unless a file is named. */
interface Where {
  readonly file?: string;
  readonly id?: string;
}

function onePath(d: string, placed: Affine, where: Where, at: string): Result<DrawnPath> {
  const read = readSvgPath(d, placed);
  if (!read.ok) return err([problemDiagnostic(read, where, at)]);
  const [path, ...others] = read.subpaths;
  if (path === undefined || path.path.segments.length === 0) {
    return err([diagnostic('path-empty', 'refused', at, where)]);
  }
  if (others.length > 0) {
    return err([diagnostic('path-in-parts', 'refused', at, { ...where, parts: others.length + 1 })]);
  }
  return path.closed ? err([diagnostic('path-closed', 'refused', at, where)]) : ok(path);
}

function problemDiagnostic(one: PathTrouble, where: Where, at: string): Diagnostic {
  const { trouble, position, read, expected } = one;
  if (trouble === 'empty') return diagnostic('path-empty', 'refused', at, where);
  if (trouble === 'syntax') {
    return diagnostic('path-unreadable', 'refused', at, { ...where, position, read, expected });
  }
  return diagnostic('path-far', 'refused', at, {
    ...where,
    position,
    read,
    endless: trouble === 'not-finite',
  });
}
