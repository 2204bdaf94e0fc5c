import type { Job } from '../input/types.js';
import type { MadeJoint } from '../sheet/input.js';
import type { Format } from '../writers/list.js';
import { type Artifact, artifact, once, ownerOf } from './artifact.js';

/** Set-up sheets and the page over all of them; what makes them is read when one is rendered. */

const maker = () => import('./set-up.js');

/** The set-up sheet of one joint, on paper where PDF is asked for and as a page for a browser where SVG is. */
export function sheetArtifacts(
  job: Job,
  made: MadeJoint,
  all: readonly MadeJoint[],
  as: readonly Format[],
): readonly Artifact[] {
  const owner = ownerOf('sheet', made.joint.name);
  const document = once(async () => (await maker()).setUpDocument(job, made, all));
  const page = artifact(owner, 'set-up.html', async () => (await maker()).sheetPage(await document(), job));
  const paper = artifact(owner, 'set-up.pdf', async () => (await maker()).sheetPaper(await document(), job));
  return [...(as.includes('svg') ? [page] : []), ...(as.includes('pdf') ? [paper] : [])];
}

/** `index.html` over several joints, for a browser, and `index.pdf`, for the bench; `paths` are those of the joints' files. */
export function indexArtifacts(
  job: Job,
  all: readonly MadeJoint[],
  as: readonly Format[],
  paths: readonly string[],
): readonly Artifact[] {
  if (all.length < 2) return [];
  const owner = { product: 'index', folder: '' } as const;
  const page = artifact(owner, 'index.html', async () => (await maker()).indexText(job, all, paths));
  const paper = artifact(owner, 'index.pdf', async () => (await maker()).indexPaper(job, all));
  return [...(as.includes('svg') ? [page] : []), ...(as.includes('pdf') ? [paper] : [])];
}
