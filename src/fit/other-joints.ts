import type { Job } from '../input/types.js';
import { familyOf } from '../joints/list.js';
import type { NewSize } from './steps.js';

/** Joints of a job besides one whose plates another size of a tool changes, by the tool's name. */
export function otherJoints(
  { joints }: Job,
  name: string,
  sizes: readonly NewSize[],
): readonly { readonly tool: string; readonly joints: readonly string[] }[] {
  return sizes.flatMap(({ tool, path: [kind, key] }) => {
    const uses = joints
      .filter((joint) => {
        if (joint.name === name) return false;
        if (kind === 'bushings') return joint.bushing?.name === key;
        const slots = familyOf(joint.kind)?.bitSlots?.(joint) ?? [];
        return slots.some(({ bit }) => bit.name === key);
      })
      .map((joint) => joint.name);
    return uses.length > 0 ? [{ tool, joints: uses }] : [];
  });
}
