import { cautions } from '../../shared/cautions.js';
import { extents } from '../geometry/outline.js';
import { carriersToCut } from '../template/carrier/list.js';
import type { FingerTemplate } from '../template/finger-template.js';
import { scoredEdges } from '../template/marks.js';
import type { SheetStep } from './document.js';
import type { SheetInput } from './input.js';
import { listed } from './names.js';

/** Cutting the plates, and joining those that come in parts. */
export function plateSteps(input: SheetInput): readonly SheetStep[] {
  const { templates, fmt, shop } = input;
  const plates = templates.length === 1 ? 'the plate' : 'the plates';
  return [
    {
      text: `Cut ${plates} (${listed(templates.map(shortName))}) from ${fmt.length(shop.plate.thickness)} ${shop.plate.material}. ${scaleCheck(input)}`,
      caution: `${cautions.laser.text} ${cautions.cnc.text}`,
    },
    ...joiningSteps(input),
    ...carrierSteps(input),
  ];
}

/** The carriers of the plates: drawn parts, so that nothing is set by eye. None where plates have no screw holes. */
function carrierSteps({ templates, fmt }: SheetInput): readonly SheetStep[] {
  const carriers = carriersToCut(templates);
  const [first] = carriers;
  if (!first) return [];
  const screws = first.screws.fitting.map(({ name }) => name);
  const heads =
    screws.length > 0
      ? ` Sink the plates' holes from above for the heads of ${screws.join(' or ')} screws.`
      : '';
  const built = carriers.map(({ file, parts }) => `${file}: ${listed(parts.map(({ name }) => name))}`);
  const lacking = carriers.flatMap((one) => one.lacking.map(({ name }) => name));
  const clamped = lacking.length > 0 ? ` Clamp on by the plate's lines: ${listed(lacking)}.` : '';
  const scrap = carriers.some(({ parts }) => parts.some((one) => one.scrap))
    ? ' The fence is the backing, too: the bit cuts into its upper layers, so cut spare ones and renew them when they are worn.'
    : '';
  const raise = Math.max(...carriers.map((one) => one.raise));
  const raised =
    raise > 0
      ? ` Lay boards that lie flat on scrap ${fmt.length(raise)} thick, no larger than themselves.`
      : '';
  return [
    {
      text: `Cut the carriers from the plates' sheet (make JOB --only carrier) and screw their layers together under the plates, hole over hole: ${built.join('; ')}.${heads}${clamped}${scrap}${raised}`,
    },
  ];
}

/** What a rule finds between the outermost lines that are scored from front to back, plate by plate. */
export function scaleLengths({ templates }: SheetInput): readonly { plate: string; length: number }[] {
  return templates.map((template) => {
    const edges = template.plate.sides.flatMap((side) => scoredEdges(side));
    return { plate: shortName(template), length: Math.max(...edges) - Math.min(...edges) };
  });
}

function scaleCheck(input: SheetInput): string {
  const lengths = scaleLengths(input).map(({ plate, length }) => ({
    plate,
    words: input.fmt.length(length),
  }));
  const words = [...new Set(lengths.map((one) => one.words))];
  const said =
    words.length === 1
      ? words.join('')
      : listed(
          words.map(
            (one) =>
              `${one} (${lengths
                .filter((each) => each.words === one)
                .map(({ plate }) => plate)
                .join(', ')})`,
          ),
        );
  return `Between the outermost lines scored from front to back measure ${said}.`;
}

const shortName = ({ plate }: FingerTemplate): string => plate.name.replace('finger-template-', '');

/** One step for all plates of the same length in as many parts. */
function joiningSteps({ templates, fmt }: SheetInput): readonly SheetStep[] {
  const joined = templates.flatMap((template) => {
    const { minX, maxX } = extents(template.plate.outline);
    const count = template.parts?.length ?? 1;
    return count > 1 ? [{ template, count, over: fmt.length(maxX - minX) }] : [];
  });
  const firsts = joined.filter(
    (one, i) => joined.findIndex(({ count, over }) => count === one.count && over === one.over) === i,
  );
  return firsts.flatMap(({ template, count, over }): readonly SheetStep[] => {
    const alike = joined.filter((one) => one.count === count && one.over === over);
    const names = listed(alike.map((one) => shortName(one.template)));
    const order = Array.from({ length: count }, (_, i) => i + 1).join(', ');
    return [
      {
        text: `Join the parts of ${alike.length === 1 ? 'the plate' : 'each plate'} (${names}), marks up on a flat surface, parts ${order} from left to right along a straightedge: glue each key lightly, push it in until the shoulders touch, tape the seam until dry.`,
      },
      {
        text: `Check ${over} from end to end; feel no step along the seam. On the fence, ${fmt.length(template.plate.pinHole)} pins go through the holes beside it.`,
      },
    ];
  });
}
