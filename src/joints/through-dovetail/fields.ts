import type { z } from 'zod';
import type { FieldKit } from '../../input/fields/field-kit.js';
import { markerFields } from '../../input/fields/marker-fields.js';
import type { Bit, Board, Joint } from '../../input/types.js';
import { handOrRouter, JOINT_WIDTH, slackOf, tailLayoutFields } from '../shared-fields.js';

/** A through dovetail as the job file gives it. Without cutters and bushing it is cut by hand at `slope`. */
export interface ThroughDovetailJoint extends Joint {
  readonly kind: 'through-dovetail';
  readonly boards: { readonly tails: Board; readonly pins: Board };
  readonly cutters?: { readonly tails: Bit; readonly pins: Bit };
  /** Slope of hand-cut tails, radians from square; set by the dovetail bit where there is one. */
  readonly slope?: number;
  /** How far pins stand out, to be trimmed flush. */
  readonly proud?: number;
}

/**
 * Slack where the job says none, mm: the pins carry it, and tails close on them under light taps (common practice, no source). In the middle
 * of what counts as good, 0 to 0.2 mm, which makes the greatest share of joints fit: with ordinary errors 48 % in place of 41 %,
 * and 26 % too tight in place of 50 %.
 */
const DEFAULT_SLACK = 0.1;

/** Fields of `kind: through-dovetail`. */
export function throughDovetailFields(kit: FieldKit): z.ZodType<Omit<ThroughDovetailJoint, 'name' | 'kind'>> {
  return kit
    .object(
      {
        width: kit.length(JOINT_WIDTH),
        boards: kit.object({ tails: kit.board(), pins: kit.board() }),
        layout: kit.layout(tailLayoutFields),
        cutters: kit.object({ tails: kit.bit('dovetail'), pins: kit.bit('straight') }).exactOptional(),
        bushing: kit.bushing().exactOptional(),
        slope: kit.slope().exactOptional(),
        proud: kit.lengthOrZero().exactOptional(),
        fit: kit.fit(DEFAULT_SLACK),
        template: kit.template(),
        marker: markerFields(kit).exactOptional(),
      },
      ({ written }) =>
        handOrRouter(
          { bits: written('cutters'), bushing: written('bushing'), slope: written('slope') },
          'cutters',
          'cutters: { tails: BIT, pins: BIT }',
        ),
    )
    .transform(({ fit, ...rest }) => ({ ...rest, ...slackOf(fit, rest) }));
}
