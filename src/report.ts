import { sentence } from './findings/catalogue.js';
import type { Finding, Level } from './findings/finding.js';
import type { Say } from './findings/say.js';
import { extents } from './geometry/outline.js';
import type { Bit, Shop } from './job/types.js';
import type { Cut, SolvedJoint } from './joints/family.js';
import { bitExtension } from './joints/tools.js';

/** `report.json`: the solved joint in numbers, millimetres and degrees. */
export interface Report {
  readonly joint: string;
  readonly kind: string;
  readonly width: number;
  readonly layout: readonly { readonly part: string; readonly from: number; readonly to: number }[];
  readonly cuts: readonly ReportedCut[];
  readonly findings: readonly ReportedFinding[];
}

export interface ReportedCut {
  readonly board: string;
  readonly template: string;
  readonly bit: {
    readonly name: string;
    readonly kind: string;
    readonly diameter: number;
    readonly angle?: number;
  };
  readonly bushing: number;
  readonly depth: number;
  readonly bitExtension: number;
  /** Rectangle of each board under the template, in template coordinates: x from the reference edge, mm. */
  readonly boards: readonly {
    readonly board: string;
    readonly from: readonly [number, number];
    readonly to: readonly [number, number];
  }[];
}

export interface ReportedFinding {
  readonly code: string;
  readonly level: Level;
  readonly at: string;
  readonly text: string;
}

export function reportOf(solved: SolvedJoint, findings: readonly Finding[], shop: Shop, say: Say): Report {
  return {
    joint: solved.name,
    kind: solved.kind,
    width: tidy(solved.width),
    layout: solved.layout.spans.map(({ part, from, to }) => ({ part, from: tidy(from), to: tidy(to) })),
    cuts: solved.cuts.map((cut) => reportedCut(cut, shop)),
    findings: reportedFindings(findings, say),
  };
}

export function reportedFindings(findings: readonly Finding[], say: Say): readonly ReportedFinding[] {
  return findings.map((one) => ({ code: one.code, level: one.level, at: one.at, text: sentence(one, say) }));
}

function reportedCut(cut: Cut, shop: Shop): ReportedCut {
  return {
    board: cut.board,
    template: `finger-template-${cut.board}`,
    bit: reportedBit(cut.bit),
    bushing: tidy(cut.bushing.outside),
    depth: tidy(cut.depth),
    bitExtension: tidy(bitExtension(shop, cut.depth)),
    boards: cut.stock.map(({ board, outline }) => {
      const { minX, minY, maxX, maxY } = extents(outline);
      return { board, from: [tidy(minX), tidy(minY)], to: [tidy(maxX), tidy(maxY)] };
    }),
  };
}

function reportedBit({ name, kind, diameter, angle }: Bit): ReportedCut['bit'] {
  const size = { name, kind, diameter: tidy(diameter) };
  return kind === 'dovetail' ? { ...size, angle: tidy((angle * 180) / Math.PI) } : size;
}

/** Rounded to a millionth, which is far under any wood and keeps 0.1 + 0.2 out of the file. */
function tidy(value: number): number {
  return Math.round(value * 1e6) / 1e6 + 0;
}
