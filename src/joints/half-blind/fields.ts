import type { z } from 'zod';
import type { FieldKit } from '../../input/fields/field-kit.js';
import { markerFields } from '../../input/fields/marker-fields.js';
import type { LengthRange } from '../../input/fields/read-value.js';
import { BOARD_THICKNESS } from '../../input/kit.js';
import { MAX_LIP } from '../../input/limits.js';
import type { Bit, Board, Joint } from '../../input/types.js';
import type { Lip } from '../contract.js';
import { handOrRouter, JOINT_WIDTH, slackOf, tailLayoutFields } from '../shared-fields.js';

/** A half-blind dovetail as the job file gives it. Without cutter and bushing it is cut by hand at `slope`. */
export interface HalfBlindJoint extends Joint {
  readonly kind: 'half-blind-dovetail';
  /** tails: the side. pins: the front, which hides the joint. */
  readonly boards: { readonly tails: Board; readonly pins: Board };
  readonly cutter?: Bit;
  readonly slope?: number;
  /** One template under which both boards are cut at once, or one template for each. */
  readonly method: 'together' | 'apart';
  /** h: how deep the sockets go into the front, mm. */
  readonly depth?: number;
  /** Shape of the tails on the inside face: as round as the sockets' corners, or square. */
  readonly tailsInside: 'rounded' | 'square';
  /** A rabbet all round the front, so that the front overlaps the opening. */
  readonly lip?: Lip;
}

const LIP: LengthRange = { most: MAX_LIP, because: 'no lip reaches so far past a joint' };

/**
 * Slack where the job says none, mm: blind sockets hold the glue that a tight tail would drive before it (common practice, no source). In the middle
 * of what counts as good, 0 to 0.2 mm, which makes the greatest share of joints fit: with ordinary errors 42 % in place of 36 %,
 * and 29 % too tight in place of 50 %.
 */
const DEFAULT_SLACK = 0.1;

/** Fields of `kind: half-blind-dovetail`. */
export function halfBlindFields(kit: FieldKit): z.ZodType<Omit<HalfBlindJoint, 'name' | 'kind'>> {
  return kit
    .object(
      {
        width: kit.length(JOINT_WIDTH),
        boards: kit.object({ tails: kit.board(), pins: kit.board() }),
        layout: kit.layout(tailLayoutFields),
        method: kit.option(['together', 'apart']).exactOptional(),
        cutter: kit.bit('dovetail').exactOptional(),
        bushing: kit.bushing().exactOptional(),
        slope: kit.slope().exactOptional(),
        depth: kit.length(BOARD_THICKNESS).exactOptional(),
        'tails-inside': kit.option(['rounded', 'square']).exactOptional(),
        lip: kit
          .object({
            end: kit.length(LIP),
            lower: kit.lengthOrZero(LIP),
            upper: kit.lengthOrZero(LIP),
            rabbet: kit.length(BOARD_THICKNESS),
          })
          .exactOptional(),
        fit: kit.fit(DEFAULT_SLACK),
        template: kit.template(),
        marker: markerFields(kit).exactOptional(),
      },
      ({ written }) =>
        handOrRouter(
          { bits: written('cutter'), bushing: written('bushing'), slope: written('slope') },
          'cutter',
          'cutter: BIT',
        ),
    )
    .transform(({ fit, method, 'tails-inside': tailsInside, ...rest }) => ({
      ...rest,
      ...slackOf(fit, rest),
      method: method ?? (tailsInside === 'square' || rest.layout.spacing !== 'even' ? 'apart' : 'together'),
      tailsInside: tailsInside ?? 'rounded',
    }));
}
