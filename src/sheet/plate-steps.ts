import { cautions } from '../../shared/cautions.js';
import { extents } from '../geometry/outline.js';
import type { FingerTemplate } from '../template/finger-template.js';
import type { Step } from './document.js';
import type { SheetInput } from './input.js';

/** Cutting the plates, and joining those that come in parts. */
export function plateSteps(input: SheetInput): readonly Step[] {
  const { templates, solved, say, shop } = input;
  const names = templates.map(shortName).join(', ');
  const count = templates.length === 1 ? 'the plate' : 'the plates';
  return [
    {
      text: `Cut ${count} (${names}) from ${say.length(shop.plate.thickness)} ${shop.plate.material}. Check the scale: ${say.length(solved.width)} between the scored edges of the board.`,
      caution: `${cautions.laser.text} ${cautions.cnc.text} ${cautions.first.text}`,
    },
    ...joiningSteps(input),
  ];
}

const shortName = ({ plate }: FingerTemplate): string => plate.name.replace('finger-template-', '');

/** One step for all plates of the same length in as many parts. */
function joiningSteps({ templates, say }: SheetInput): readonly Step[] {
  const joined = templates.flatMap((template) => {
    const { minX, maxX } = extents(template.plate.outline);
    const count = template.parts?.length ?? 1;
    return count > 1 ? [{ template, count, over: say.length(maxX - minX) }] : [];
  });
  const firsts = joined.filter(
    (one, i) => joined.findIndex(({ count, over }) => count === one.count && over === one.over) === i,
  );
  return firsts.map(({ template, count, over }) => {
    const alike = joined.filter((one) => one.count === count && one.over === over);
    const names = alike.map((one) => shortName(one.template)).join(', ');
    const order = Array.from({ length: count }, (_, i) => i + 1).join(', ');
    return {
      text: `Join the parts of ${alike.length === 1 ? 'the plate' : 'each plate'} (${names}) face up on a flat surface, from the left ${order}, near edges along a straightedge: key into notch until the shoulders touch, a little glue on the key, tape over the seam until it is dry. Check ${over} over all, end to end. No step may be felt along the seam. On the fence pins of ${say.length(template.plate.pinHole)} go through the holes beside it.`,
    };
  });
}
