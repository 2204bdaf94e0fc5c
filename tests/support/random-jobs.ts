import fc from 'fast-check';

/**
 * Random jobs that a maker might write: plausible boards, bits, bushings and spacings, as the text of a job
 * file (JSON is YAML), lengths in mm. Most of them can be cut; some cannot, and halfpin has to say so.
 */

/** A length in mm as a caliper or a rule gives it: hundredths. */
export function length(min: number, max: number): fc.Arbitrary<number> {
  return fc.integer({ min: Math.round(min * 100), max: Math.round(max * 100) }).map((n) => n / 100);
}

export function oneOf<T>(...values: readonly T[]): fc.Arbitrary<T> {
  return fc.constantFrom(...values);
}

const plate = { material: 'plywood', thickness: 12, 'least-finger': 3 };
export const slack = oneOf(0, 0, 0.05, 0.1, 0.2);
export const room = fc.double({ min: 0, max: 1, noNaN: true });

/** A name that no reader of the job need to know. */
export const JOINT = 'corner';

/** A bushing's wall where only its outside is known, mm: no thinner than this. */
const WALL = 0.5;

/**
 * How high a bit's edge is that cuts this deep: a little more, but no more where it would turn in the bushing or in the
 * plate at a diameter that they have no room for. Lengths in mm, the angle in degrees.
 */
export function edgeHeight(
  depth: number,
  bushing: number,
  { diameter, angle = 0 }: { readonly diameter: number; readonly angle?: number },
  spare = 1,
): number {
  const inPlate = diameter - 2 * depth * Math.tan((angle * Math.PI) / 180);
  return inPlate <= bushing - 2 * WALL ? depth + spare : depth;
}

export const round = (value: number): number => Math.round(value * 100) / 100;

interface Row {
  readonly layout: Readonly<Record<string, unknown>>;
  readonly width: number;
}

/** A row of tails between least widths: n tails as wide as `spare` allows, by every spacing. */
export function tailRow(
  leastPin: number,
  leastEnd: number,
  leastTail: number,
  mostTails = 6,
): fc.Arbitrary<Row> {
  const counts = {
    tails: fc.integer({ min: 1, max: mostTails }),
    spare: fc.array(room, { minLength: 13, maxLength: 13 }),
  };
  return fc
    .record({
      ...counts,
      spacing: oneOf('even', 'graduated', 'mirrored', 'list', 'list', 'varied'),
      seed: fc.nat(999),
      ratio: length(0.7, 1.4),
      spread: length(0, 0.5),
    })
    .map(({ tails, spare, spacing, seed, ratio, spread }) => {
      const at = (i: number): number => spare[i] ?? 0;
      if (spacing === 'list') {
        const spans = Array.from({ length: 2 * tails + 1 }, (_, i) => {
          const isEnd = i === 0 || i === 2 * tails;
          const least = isEnd ? leastEnd : i % 2 === 0 ? leastPin : leastTail;
          return round(least + 0.01 + at(i) * (i % 2 === 0 ? 8 : 30));
        });
        return { layout: { spacing, spans }, width: round(spans.reduce((sum, span) => sum + span, 0)) };
      }
      const pin = round(leastPin + 0.01 + at(0) * 6);
      const endPin = round(Math.max(leastEnd, pin * 0.625) + 0.01);
      const tail = leastTail * (spacing === 'even' ? 1 : 2.2) + 0.01 + at(1) * 30;
      const width = round((tails - 1) * pin + 2 * endPin + tails * tail);
      const asked = at(2) < 0.5 ? { pin } : { pin, 'end-pin': endPin };
      const own =
        spacing === 'graduated' || spacing === 'mirrored'
          ? { ratio }
          : spacing === 'varied'
            ? { seed, spread }
            : {};
      return { layout: { spacing, tails, ...asked, ...own }, width };
    });
}

/** Jobs with one through dovetail. */
export const throughDovetailJobs: fc.Arbitrary<string> = fc
  .record({
    dovetail: length(6, 20),
    angle: length(7, 14),
    straight: length(4, 12),
    wider: oneOf(-1, 0, 0.5, 2, 4, 6),
    tailBoard: length(6, 25),
    pinBoard: room,
    slack,
    nose: oneOf<number | undefined>(undefined, undefined, 4, 7, 12),
  })
  .chain((tools) => {
    const { dovetail, angle, straight, tailBoard } = tools;
    const k = Math.tan((angle * Math.PI) / 180);
    // The bit's neck at the surface keeps 2.6 mm, and boards are 4 to 25 mm thick.
    const thickest = Math.min(25, (dovetail / 2 - 1.3) / k);
    const pinBoard = round(4 + tools.pinBoard * Math.max(0, thickest - 4));
    const bushing = round(Math.max(dovetail, straight) + tools.wider);
    const tip =
      2 * (pinBoard + (tools.nose ?? 4)) * k +
      (bushing - straight) / Math.cos(Math.atan(k)) +
      tools.slack +
      3;
    const leastPin = Math.max(dovetail, tip);
    const leastTail = Math.max(straight, 3, 3 + bushing - dovetail);
    return tailRow(leastPin, pinBoard * k + 3.5, leastTail).map(({ layout, width }) =>
      job({
        bits: {
          flared: {
            kind: 'dovetail',
            diameter: dovetail,
            angle,
            height: edgeHeight(pinBoard, bushing, { diameter: dovetail, angle }),
          },
          plain: {
            kind: 'straight',
            diameter: straight,
            height: edgeHeight(tailBoard, bushing, { diameter: straight }),
          },
        },
        bushing,
        joint: {
          kind: 'through-dovetail',
          width,
          boards: { tails: { thickness: tailBoard }, pins: { thickness: pinBoard } },
          layout,
          cutters: { tails: 'flared', pins: 'plain' },
          fit: { slack: tools.slack },
          ...(tools.nose === undefined ? {} : { template: { nose: tools.nose } }),
        },
      }),
    );
  });

/** A row of fingers and slots, by every spacing. */
function fingerRow(least: number): fc.Arbitrary<Row> {
  return fc
    .record({
      fingers: fc.integer({ min: 3, max: 13 }),
      spare: fc.array(room, { minLength: 13, maxLength: 13 }),
      spacing: oneOf('even', 'even', 'list', 'list', 'varied', 'graduated', 'mirrored'),
      seed: fc.nat(999),
      ratio: length(0.9, 1.15),
    })
    .map(({ fingers, spare, spacing, seed, ratio }) => {
      const at = (i: number): number => spare[i] ?? 0;
      if (spacing === 'list') {
        const spans = Array.from({ length: fingers }, (_, i) => round(least + 0.01 + at(i) * 15));
        return {
          layout: { spacing, spans },
          width: round(spans.reduce((sum, span) => sum + span, 0)),
        };
      }
      const each = least * (spacing === 'even' ? 1.02 : 1.8) + at(0) * 10;
      const own =
        spacing === 'graduated' || spacing === 'mirrored'
          ? { ratio }
          : spacing === 'varied'
            ? { seed, spread: 0.2 }
            : {};
      return { layout: { spacing, fingers, ...own }, width: round(fingers * each) };
    });
}

/** Jobs with one box joint. */
export const boxJobs: fc.Arbitrary<string> = fc
  .record({
    cutter: length(4, 13),
    wider: oneOf(-1, 0, 0.5, 2, 4, 6),
    one: length(5, 22),
    two: length(5, 22),
    start: oneOf<string | undefined>(undefined, 'one', 'two'),
    slack,
    nose: oneOf<number | undefined>(undefined, undefined, 4, 7, 12),
  })
  .chain(({ cutter, wider, one, two: other, start, slack: asked, nose }) => {
    const bushing = round(cutter + wider);
    // A bit that is too wide for the bushing's bore must cut both boards with all of its edge.
    const two = edgeHeight(one, bushing, { diameter: cutter }) > one ? other : one;
    const least = Math.max(cutter, 3, bushing - cutter + asked / 2 + 3);
    return fingerRow(least).map(({ layout, width }) =>
      job({
        bits: {
          plain: {
            kind: 'straight',
            diameter: cutter,
            height: edgeHeight(Math.max(one, two), bushing, { diameter: cutter }),
          },
        },
        bushing,
        joint: {
          kind: 'box',
          width,
          boards: { one: { thickness: one }, two: { thickness: two } },
          layout,
          cutter: 'plain',
          ...(start === undefined ? {} : { start }),
          fit: { slack: asked },
          ...(nose === undefined ? {} : { template: { nose } }),
        },
      }),
    );
  });

interface Parts {
  readonly bits: Readonly<Record<string, unknown>>;
  readonly bushing: number;
  readonly joint: Readonly<Record<string, unknown>>;
}

export function job({ bits, bushing, joint }: Parts): string {
  return JSON.stringify(
    {
      title: 'Specimen cabinet, at random',
      units: 'mm',
      shop: { units: 'mm', bits, bushings: { guide: { outside: bushing } }, plate },
      joints: { [JOINT]: { ...joint, bushing: 'guide' } },
    },
    null,
    2,
  );
}
