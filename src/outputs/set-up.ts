import { paperSize } from '../../shared/paper.js';
import { formatToSet } from '../diagnostics/format-to-set.js';
import { correctionsOf } from '../fit/corrections.js';
import { fitOf } from '../fit/joint-fit.js';
import { keysOf } from '../fit/measured.js';
import type { Job } from '../input/types.js';
import { endsOf, letteredPieces } from '../set-up/ends.js';
import { standsOf } from '../set-up/stands.js';
import type { SheetDocument } from '../sheet/document.js';
import { type PictureOf, sheetHtml } from '../sheet/html.js';
import { indexDocument, indexPage } from '../sheet/index-page.js';
import type { MadeJoint, PieceJoints, SheetInput } from '../sheet/input.js';
import { layPages } from '../sheet/pages.js';
import { setUpSheet } from '../sheet/set-up-sheet.js';
import { writePages } from '../writers/pdf/pages.js';
import { pictureWriter } from '../writers/picture.js';

/** What set-up sheets and the index page hold; read only when one of them is rendered. */

export const setUpDocument = (job: Job, made: MadeJoint, all: readonly MadeJoint[]): SheetDocument =>
  setUpSheet(sheetInput(job, made, all));

/** For a browser. */
export const sheetPage = (document: SheetDocument, job: Job): string => sheetHtml(document, pictures(job));

export function sheetPaper(document: SheetDocument, { shop }: Job): Promise<Uint8Array> {
  const { paper, margin } = shop.printer;
  const size = paperSize(paper);
  if (!size) throw new Error(`paper without a size: ${JSON.stringify(paper)}`);
  const pages = layPages(document, { ...size, margin });
  const about = { title: document.title, subject: document.subtitle };
  return writePages(pages, about, { colours: shop.colours });
}

const pictures =
  ({ shop: { colours } }: Job): PictureOf =>
  (drawing) =>
    pictureWriter.write(drawing, { colours });

/** Every joint of a job, one cut list, one order of tools. `paths` are those of the joints' files. */
export function indexText(job: Job, all: readonly MadeJoint[], paths: readonly string[]): string {
  const files = Object.fromEntries(
    all.map(({ joint }) => [joint.name, paths.filter((path) => path.startsWith(`${joint.name}/`))]),
  );
  const input = { job, joints: all, pieces: piecesOf(job, all), fmt: formatToSet(job.units), files };
  return indexPage(input, pictures(job));
}

/** One page for the bench over all joints, and the cut list. */
export const indexPaper = (job: Job, all: readonly MadeJoint[]): Promise<Uint8Array> =>
  sheetPaper(
    indexDocument({ job, joints: all, pieces: piecesOf(job, all), fmt: formatToSet(job.units) }),
    job,
  );

export function sheetInput(job: Job, made: MadeJoint, all: readonly MadeJoint[]): SheetInput {
  return {
    ...made,
    ends: endsOf(made.solved, job.pieces),
    setUp: standsOf({ ...made, shop: job.shop, pieces: job.pieces }),
    jobTitle: job.title,
    shop: job.shop,
    fmt: formatToSet(job.units),
    units: job.units,
    measures: measuresOf(job, made),
    corrections: correctionsOf(made.solved, job.units),
    pieces: piecesOf(job, all).filter(
      ({ front, back }) => front.joint.name === made.joint.name || back?.joint.name === made.joint.name,
    ),
  };
}

/** The pieces of a job whose joints can be made. */
export function piecesOf(job: Job, all: readonly MadeJoint[]): readonly PieceJoints[] {
  const lettered = letteredPieces(job.pieces);
  const find = (name: string) => all.find(({ joint }) => joint.name === name);
  return job.pieces.flatMap((piece): readonly PieceJoints[] => {
    const front = find(piece.corners);
    const behind = piece.back ?? (piece.kind === 'drawer' ? undefined : piece.corners);
    const back = behind === undefined ? undefined : find(behind);
    if (!front || (behind !== undefined && !back)) return [];
    const letters = lettered.filter((one) => one.piece === piece).map((one) => one.letters);
    return [{ piece, letters, front, ...(back && { back }) }];
  });
}

/** The words that `refit` takes for this joint; none where it takes no such joint. */
function measuresOf({ pieces }: Job, { solved }: MadeJoint): readonly string[] {
  const model = fitOf(solved);
  if (!model.ok) return [];
  const { corners } = model.value;
  // The corner that the sheet tries first: at the back where the joint stands there alone.
  const atFront = pieces.length === 0 || pieces.some((piece) => piece.corners === solved.name);
  const trial = atFront ? 1 : 3;
  const keys = keysOf(model.value).filter((key) => key !== 'thickness' && key !== 'angle');
  return keys.map((key) => (key === 'mismatch' && corners[trial] ? `mismatch-${trial}` : key));
}
