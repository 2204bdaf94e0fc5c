/** The public API of halfpin: read a job, solve it, make its files. No disk, no terminal: it runs in a browser too. */

export { type Colours, usualColours } from '../shared/operations.js';
export { type BoardSolid, solidsOf } from './board/solids.js';
export type { Drawing, Item, Layer, Writer, WriterOptions } from './drawing/model.js';
export { sentence } from './findings/catalogue.js';
export { type Catalogue, raiser } from './findings/family-codes.js';
export {
  type Finding,
  finding,
  given,
  isRefused,
  type Level,
  type Result,
  refused,
} from './findings/finding.js';
export { type Edit, type Fix, type FixContext, fixable } from './findings/fix.js';
export { formatFinding, formatFindings } from './findings/format.js';
export type { Locator, Place } from './findings/place.js';
export { type Say, sayIn } from './findings/say.js';
export { type AskedTolerances, readTolerances } from './fit/read-tolerances.js';
export { type Advice, refit } from './fit/refit.js';
export { replaceValues } from './fit/replace-values.js';
export { type ToleranceStudy, type Tolerances, toleranceStudy } from './fit/tolerance.js';
export { polygon, rectangle, roundedRectangle } from './geometry/outline.js';
export type { Line, Outline, Path, Point, Region, Segment } from './geometry/types.js';
export { defaultPrinter } from './job/defaults.js';
export { editYaml } from './job/edit-yaml.js';
export type { FieldKit } from './job/field-kit.js';
export { jobJsonSchema } from './job/json-schema.js';
export { type JobReading, readJob } from './job/read-job.js';
export type { Bit, Board, Bushing, Job, Joint, Shop } from './job/types.js';
export type {
  Assembly,
  BoardStand,
  BoardWords,
  Hold,
  JointBoard,
  OnBoards,
  Placed,
  Placement,
  SetUp,
  WantedWaste,
  Words,
} from './joints/contract.js';
export type {
  BoardMarking,
  Cut,
  JointFamily,
  MarkedPanel,
  SolvedJoint,
  StockBoard,
} from './joints/family.js';
export type { FitModel } from './joints/fit-model.js';
export { fixesFor } from './joints/fixes.js';
export { families } from './joints/list.js';
export { judgeTools } from './joints/tools.js';
export { type Kit, type KitChoice, type KitOptions, kitOf, kitsOf } from './kit/kit.js';
export { layOutRow } from './layout/lay-out.js';
export type { Artifact, MadeFile } from './outputs/artifact.js';
export { type Ask, formats, neverMade, type Product, products } from './outputs/ask.js';
export { betterBushings } from './outputs/better-bushings.js';
export { type JointOutcome, solveJob } from './outputs/joint.js';
export { type LayOutOptions, layOut, type Plain } from './outputs/lay-out.js';
export { type MakeOptions, makeFiles } from './outputs/make.js';
export { canBeMade, type Plan, plan, prove, renderAll } from './outputs/plan.js';
export type { PreparedPlate } from './outputs/plates.js';
export type { Report } from './outputs/report.js';
export { type SolidOutcome, solidFiles, solidJob } from './outputs/solid.js';
export {
  type TestCutOptions,
  type TestCutOutcome,
  testCutJob,
  testCutPictureOf,
} from './outputs/testcut.js';
export {
  type MeasuredBars,
  printerPage,
  readPrinter,
  type ShopPrinter,
  setFactors,
} from './printer.js';
export type { FingerTemplate } from './template/finger-template.js';
export type { TestCut, TestCutRequest } from './testcut/assemble.js';
export { toleranceDrawing } from './tolerance/picture.js';
export { svgWriter } from './writers/svg.js';
