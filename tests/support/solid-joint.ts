import { blanksOf } from '../../src/outputs/solid.js';
import { type TestCutRequest, testCut } from '../../src/verify/assemble.js';
import { jointInSolid } from '../../src/verify/solid/closed.js';
import type { JointInSolid } from '../../src/verify/solid/joint.js';
import { slicedVolumes } from '../../src/verify/solid/sliced.js';
import { settled } from './hand-testcut.js';
import { isWritten, requestFor, type WrittenJoint, writeJoint } from './written-joint.js';

/** A job's joint as written, cut on paper and built in solid wood. */
export interface SolidJoint {
  readonly written: WrittenJoint;
  readonly request: TestCutRequest;
  readonly solid: JointInSolid;
  readonly slices: ReturnType<typeof slicedVolumes>;
}

/** The joint of a job text; of one that is refused, why. `change` puts an error into what is cut. */
export async function solidJoint(
  text: string,
  change: (request: TestCutRequest) => TestCutRequest = (request) => request,
): Promise<SolidJoint | readonly string[]> {
  const written = await writeJoint(text);
  if (!isWritten(written)) return written;
  const { made } = written.outcome;
  if (!made) return ['not made'];
  const request = change(requestFor(written));
  const cut = settled(testCut(request));
  const solid = await jointInSolid(request, blanksOf(made.solved));
  const [first, second] = solid.boards;
  if (!first || !second) throw new Error('a joint has two boards');
  return {
    written,
    request,
    solid,
    slices: slicedVolumes(cut.sections, [first.board, second.board], solid.volumes.room),
  };
}

export async function solidOrThrow(
  text: string,
  change?: (request: TestCutRequest) => TestCutRequest,
): Promise<SolidJoint> {
  const joint = await solidJoint(text, change);
  if ('solid' in joint) return joint;
  throw new Error(`refused: ${joint.join(' ')}`);
}
