import type { Diagnostic } from '../diagnostics/diagnostic.js';
import type { Speaker } from '../diagnostics/family-codes.js';
import type { Formatter } from '../diagnostics/formatter.js';
import { type ReportedDiagnostic, reportedDiagnostics } from '../diagnostics/reported.js';
import { extents } from '../geometry/outline.js';
import type { Bit, Fit, Joint, Shop } from '../input/types.js';
import { lipOf } from '../joints/boards.js';
import type { Assembly, Lip, WantedWaste } from '../joints/contract.js';
import type { Cut, SolvedJoint } from '../joints/family.js';
import { bitExtension } from '../joints/tools.js';
import type { Stand, Stands } from '../set-up/stands.js';
import { benchOf } from '../sheet/bench.js';
import type { FingerTemplate } from '../template/finger-template.js';
import type { PlateSide } from '../template/plate.js';
import { templateOf } from '../template/side-of.js';
import { tidied } from '../units/tidied.js';
import type { Breakthrough } from '../verify/cut/breakthrough.js';
import type { Strength } from '../verify/cut/strength.js';
import type { Unreached } from '../verify/cut/unreached.js';
import type { SetUpProof } from '../verify/whole/prove.js';

/** `report.json`: the solved joint in numbers, millimetres and degrees. */
export interface Report {
  readonly joint: string;
  readonly kind: string;
  readonly width: number;
  /** What the plates' drawings hold: nominal outlines, or the path of the middle of a tool this wide, mm. */
  readonly holds: { readonly for: 'nominal' | 'laser' | 'cnc'; readonly width: number };
  /** How the boards come together, angles in radians; left out of a joint that has no test cut. */
  readonly assembly?: Assembly;
  /** The whole clearance of one mating pair, and whether the job says it or it is the usual one of this kind. */
  readonly fit: Fit;
  readonly layout: readonly { readonly part: string; readonly from: number; readonly to: number }[];
  /** Of each board. */
  readonly thickness: Readonly<Record<string, number>>;
  /** The rabbet round a front that overlaps the opening. */
  readonly lip?: Lip;
  /** The spans of the layout that each board loses at the level of the bit's tip, where a test cut looks for them. */
  readonly wanted?: Readonly<Record<string, WantedWaste>>;
  readonly plate: { readonly thickness: number; readonly leastFinger: number };
  readonly cuts: readonly ReportedCut[];
  /** How every end of every board is held, in the order of work; absent where the joint is cut by hand. */
  readonly setUp?: ReportedSetUp;
  readonly findings: readonly ReportedDiagnostic[];
  /** The joint as cut on paper under its written templates; absent where no test cut was made. */
  readonly testcut?: ReportedTestCut;
}

/** Widths in mm, area in mm². `x` is measured from the reference edge, `z` from the first board's end. */
export interface ReportedTestCut {
  readonly worstGap: number;
  readonly worstOverlap: number;
  readonly gapAt?: { readonly x: number; readonly z: number };
  readonly overlapAt?: { readonly x: number; readonly z: number };
  /** Long grain against long grain. */
  readonly glueArea: number;
  /** Shoulders and socket bottoms, end grain. */
  readonly shoulderArea: number;
  /** How far ends and faces stand out when the joint is home: below 0 they stand back. */
  readonly proud: Readonly<Record<string, number>>;
  /** Room under the tails' ends in blind sockets. */
  readonly underTails?: number;
  /** Wood that the bit left in corners, of each board: its area, and how wide it is beside the bit's radius. */
  readonly unreached: Readonly<Record<string, Unreached>>;
  /** The thinnest finger of the templates, and the thinnest pin, tail or finger of wood, with the least that may be. */
  readonly strength: Strength;
  /** What is left of lap, lip and backing, and where the bit's edge is wider than its bushing in the plate. */
  readonly breakthrough: Breakthrough;
  readonly levels: readonly { readonly z: number; readonly gap: number; readonly overlap: number }[];
}

/** Corner of the trial joint, and all stands: bits as in cuts, bushings by their outside diameter. */
export interface ReportedSetUp extends Pick<Stands, 'trial'> {
  /** What came of cutting all ends so and closing all corners; absent where no test cut was made. */
  readonly proof?: SetUpProof;
  readonly stands: readonly ReportedStand[];
}

export interface ReportedStand extends Omit<Stand, 'bit' | 'bushing'> {
  readonly bit: ReportedCut['bit'];
  readonly bushing: number;
}

export interface ReportedCut {
  readonly board: string;
  readonly template: string;
  /**
   * The files that a template longer than the bed is written as, left to right, in place of one of its own
   * name: a point (x, y) of a part's file is the template's (x + shift, y).
   */
  readonly parts?: readonly { readonly template: string; readonly shift: number }[];
  readonly bit: {
    readonly name: string;
    readonly kind: string;
    readonly diameter: number;
    readonly angle?: number;
    /** Of the cutting edge. */
    readonly height: number;
  };
  readonly bushing: number;
  readonly depth: number;
  readonly bitExtension: number;
  /** Behind a board on end, before the fence: the backing is at least this thick. */
  readonly backing?: number;
  /**
   * Where this cut's template coordinates lie in the template's file, left out where they are the file's own:
   * a point (x′, y′) of this cut, and of `boards` here, is drawn at (x − x′, y − y′), turned by 180°.
   */
  readonly placed?: { readonly turned: 180; readonly x: number; readonly y: number };
  /**
   * x of the board's reference edge at each stop, 0 first, where the board is cut more than once under a
   * template that carries every second slot; left out where once is enough. A board at stop s is under the
   * template at x + s.
   */
  readonly stops?: readonly number[];
  /** From and to, along x in template coordinates, of an opening that is not used at the second stop. */
  readonly leaveOut?: readonly [number, number];
  /** Rectangle of each board under the template, in template coordinates: x from the reference edge, mm. */
  readonly boards: readonly {
    readonly board: string;
    readonly from: readonly [number, number];
    readonly to: readonly [number, number];
    /** Of a board that lies flat and is cut right through, which the rectangle does not show, mm. */
    readonly thickness?: number;
  }[];
}

export function reportOf(
  joint: Joint,
  solved: SolvedJoint,
  { templates, setUp }: { readonly templates: readonly FingerTemplate[]; readonly setUp: Stands },
  diagnostics: readonly Diagnostic[],
  shop: Shop,
  fmt: Formatter,
  known: readonly Speaker[] = [],
): Report {
  const { boards, assembly } = solved;
  const lip = lipOf(solved);
  const wanted = boards.flatMap((one) => (one.wanted ? [[one.board, one.wanted] as const] : []));
  return {
    joint: solved.name,
    kind: solved.kind,
    width: tidied(solved.width),
    holds: heldBy(shop),
    ...(assembly && { assembly: tidied(assembly) }),
    fit: fitOf(joint),
    layout: tidied(solved.layout.spans.map(({ part, from, to }) => ({ part, from, to }))),
    thickness: tidied(Object.fromEntries(boards.map(({ board, material }) => [board, material.thickness]))),
    ...(lip && { lip }),
    ...(wanted.length > 0 && { wanted: tidied(Object.fromEntries(wanted)) }),
    plate: tidied({ thickness: shop.plate.thickness, leastFinger: shop.plate.leastFinger }),
    cuts: solved.cuts.map((cut) => reportedCut(cut, templates, shop)),
    ...(setUp.stands.length > 0 && { setUp: reportedSetUp(setUp) }),
    findings: reportedDiagnostics(diagnostics, fmt, known),
  };
}

function reportedSetUp({ trial, stands }: Stands): ReportedSetUp {
  return tidied({
    ...(trial && { trial }),
    stands: stands.map((stand) => ({
      ...stand,
      bit: reportedBit(stand.bit),
      bushing: stand.bushing.outside,
    })),
  });
}

/** The report with what the test cut found. */
export function withTestCut(
  report: Report,
  { cut, proof }: { readonly cut?: ReportedTestCut; readonly proof?: SetUpProof },
  diagnostics: readonly Diagnostic[],
  fmt: Formatter,
): Report {
  return {
    ...report,
    findings: [...report.findings, ...reportedDiagnostics(diagnostics, fmt)],
    ...(report.setUp && proof && { setUp: { ...report.setUp, proof: tidied(proof) } }),
    ...(cut && { testcut: reportedTestCut(cut) }),
  };
}

/** A test cut's numbers as reports give them. */
function reportedTestCut(cut: ReportedTestCut): ReportedTestCut {
  const { worstGap, worstOverlap, gapAt, overlapAt, glueArea, shoulderArea } = cut;
  const { proud, underTails, unreached, strength, breakthrough, levels } = cut;
  return tidied({
    worstGap,
    worstOverlap,
    ...(gapAt && { gapAt }),
    ...(overlapAt && { overlapAt }),
    glueArea,
    shoulderArea,
    proud,
    ...(underTails !== undefined && { underTails }),
    unreached,
    strength,
    breakthrough,
    levels: levels.map(({ z, gap, overlap }) => ({ z, gap, overlap })),
  });
}

function fitOf({ slack, slackFrom = 'job' }: Joint): Fit {
  return tidied({ slack, from: slackFrom });
}

function heldBy({ plate, laser, cnc }: Shop): Report['holds'] {
  const width = { laser: laser?.kerf, cnc: cnc?.cutter, nominal: 0 }[plate.cutFor ?? 'nominal'];
  return { for: plate.cutFor ?? 'nominal', width: tidied(width ?? 0) };
}

function reportedCut(cut: Cut, templates: readonly FingerTemplate[], shop: Shop): ReportedCut {
  const place = templateOf(templates, cut);
  if (!place) throw new Error(`no template for the board ${cut.board}`);
  return reportedSide(place.side, place.template, shop);
}

/** One working edge of a template with what is cut under it. */
export function reportedSide(
  side: PlateSide,
  { plate, parts }: Pick<FingerTemplate, 'plate' | 'parts'>,
  shop: Shop,
): ReportedCut {
  const { cut, turned } = side;
  const { backing } = benchOf(side);
  const { secondStop } = cut;
  return tidied<ReportedCut>({
    board: cut.board,
    template: plate.name,
    ...(parts && { parts: parts.map((one) => ({ template: one.name, shift: one.shift })) }),
    bit: reportedBit(cut.bit),
    bushing: cut.bushing.outside,
    depth: cut.depth,
    bitExtension: bitExtension(shop, cut.depth),
    ...(backing && { backing: backing.to }),
    ...(turned && { placed: { turned: 180, x: turned.x, y: turned.y } }),
    ...(secondStop && { stops: [0, secondStop.x] }),
    ...(secondStop?.leaveOut && { leaveOut: secondStop.leaveOut }),
    boards: cut.stock.map(({ board, outline, thickness }) => {
      const { minX, minY, maxX, maxY } = extents(outline);
      const own = thickness === undefined ? {} : { thickness };
      return { board, from: [minX, minY], to: [maxX, maxY], ...own };
    }),
  });
}

function reportedBit({ name, kind, diameter, angle, height }: Bit): ReportedCut['bit'] {
  const size = { name, kind, diameter, height };
  return kind === 'dovetail' ? { ...size, angle: (angle * 180) / Math.PI } : size;
}
