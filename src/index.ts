/** The public API of halfpin: read a job, solve it, make its files. No disk, no terminal: it runs in a browser too. */

export { type Colours, defaultColours } from '../shared/operations.js';
export { sentence } from './diagnostics/catalogue.js';
export {
  type Diagnostic,
  diagnostic,
  err,
  hasErrors,
  type Level,
  ok,
  type Result,
} from './diagnostics/diagnostic.js';
export { type Catalogue, raiser } from './diagnostics/family-codes.js';
export { type Edit, type Fix, type FixContext, fixable } from './diagnostics/fix.js';
export { formatDiagnostic, formatDiagnostics } from './diagnostics/format.js';
export { type Formatter, formatterFor } from './diagnostics/formatter.js';
export type { Locator, Position } from './diagnostics/position.js';
export type { Drawing, Item, Layer, Writer, WriterOptions } from './drawing/model.js';
export { fitFormatter } from './fit/format-fit.js';
export { toleranceDrawing } from './fit/histogram.js';
export { sizesIn } from './fit/next-plate.js';
export { otherJoints } from './fit/other-joints.js';
export { type AskedTolerances, readTolerances } from './fit/read-tolerances.js';
export { type Advice, refit } from './fit/refit.js';
export { replaceValues } from './fit/replace-values.js';
export { type ToleranceStudy, type Tolerances, toleranceStudy } from './fit/tolerance.js';
export { polygon, rectangle, roundedRectangle } from './geometry/outline.js';
export type { Line, Outline, Path, Point, Region, Segment } from './geometry/types.js';
export { defaultPrinter } from './input/defaults.js';
export type { FieldKit } from './input/fields/field-kit.js';
export { jobJsonSchema } from './input/fields/json-schema.js';
export { type JobReading, readJob } from './input/read-job.js';
export type { Bit, Board, Bushing, Job, Joint, Shop } from './input/types.js';
export { editYaml } from './input/yaml/edit-yaml.js';
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
export { type Kit, type KitChoice, type KitOptions, kitOf, kitsOf } from './joints/kit/kit.js';
export { families } from './joints/list.js';
export { fixesFor } from './joints/search/fixes.js';
export { judgeTools } from './joints/tools.js';
export { layOutRow } from './layout/lay-out.js';
export type { Artifact, MadeFile } from './outputs/artifact.js';
export { type Ask, formats, neverMade, type Product, products } from './outputs/ask.js';
export { betterBushings } from './outputs/better-bushings.js';
export { type JointOutcome, solveJob } from './outputs/joint.js';
export { type LayOutOptions, layOut, type Plain } from './outputs/lay-out.js';
export { type MakeOptions, makeFiles } from './outputs/make.js';
export { canBeMade, type Plan, plan, prove, renderAll } from './outputs/plan.js';
export type { PreparedPlate } from './outputs/plates.js';
export {
  type MeasuredBars,
  printerPage,
  readPrinter,
  type ShopPrinter,
  setFactors,
} from './outputs/printer.js';
export type { Report } from './outputs/report.js';
export { type SolidOutcome, solidFiles, solidJob } from './outputs/solid.js';
export {
  type TestCutOptions,
  type TestCutOutcome,
  testCutJob,
  testCutPictureOf,
} from './outputs/testcut.js';
export { type BoardSolid, solidsOf } from './page/solids.js';
export type { Stand, Stands } from './set-up/stands.js';
export type { FingerTemplate } from './template/finger-template.js';
export type { TestCut, TestCutRequest } from './verify/assemble.js';
export { pictureWriter } from './writers/picture.js';
export { svgWriter } from './writers/svg.js';
