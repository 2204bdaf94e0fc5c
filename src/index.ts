/** The public API of halfpin: read a job, solve it, make its files. No disk, no terminal: it runs in a browser too. */

export { neverMade } from './asked.js';
export { betterBushings } from './better-bushings.js';
export type { Drawing, Item, Layer } from './drawing/model.js';
export { sentence } from './findings/catalogue.js';
export { type Catalogue, raiser } from './findings/family-codes.js';
export { type Finding, finding, given, type Level, type Result, refused } from './findings/finding.js';
export { type Edit, type Fix, type FixContext, fixable } from './findings/fix.js';
export { sayIn } from './findings/say.js';
export { polygon, rectangle, roundedRectangle } from './geometry/outline.js';
export type { Line, Outline, Path, Point, Region, Segment } from './geometry/types.js';
export { defaultPrinter } from './job/defaults.js';
export { editYaml } from './job/edit-yaml.js';
export type { FieldKit } from './job/field-kit.js';
export { jobJsonSchema } from './job/json-schema.js';
export { readJob } from './job/read-job.js';
export type { Bit, Board, Bushing, Job, Joint, Shop } from './job/types.js';
export type {
  BoardMarking,
  Cut,
  JointFamily,
  MarkedPanel,
  SolvedJoint,
  StockBoard,
} from './joints/family.js';
export { fixesFor } from './joints/fixes.js';
export { families } from './joints/list.js';
export { judgeTools } from './joints/tools.js';
export { type Kit, type KitChoice, type KitOptions, kitOf, kitsOf } from './kit/kit.js';
export {
  formats,
  type JointOutcome,
  type MadeFile,
  type MakeOptions,
  makeFiles,
  products,
  solveJob,
  type TestCutOptions,
  testCutJob,
  testCutPictureOf,
  withTestCuts,
} from './pipeline.js';
export {
  type MeasuredBars,
  printerPage,
  readPrinter,
  type ShopPrinter,
  setFactors,
} from './printer.js';
export { type Advice, refit } from './refit/refit.js';
export { replaceValues } from './refit/replace-values.js';
export { type SolidOutcome, solidFiles, solidJob } from './solid-job.js';
export { toleranceDrawing } from './tolerance/picture.js';
export { type AskedTolerances, readTolerances } from './tolerance/read.js';
export { type ToleranceStudy, type Tolerances, toleranceStudy } from './tolerance/tolerance.js';
export { svgWriter } from './writers/svg.js';
