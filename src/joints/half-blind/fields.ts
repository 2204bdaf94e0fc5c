import type { z } from 'zod';
import type { FieldKit } from '../../job/field-kit.js';
import { markerFields } from '../../job/marker-fields.js';
import type { Bit, Board, Joint } from '../../job/types.js';
import { handOrRouter, JOINT_WIDTH, tailLayoutFields } from '../shared-fields.js';

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
  readonly lip?: Lip;
}

/** A rabbet all round the front, so that the front overlaps the opening. */
export interface Lip {
  /** How far the front reaches past the joint at its end, and past its lower and upper edge. */
  readonly end: number;
  readonly lower: number;
  readonly upper: number;
  /** How deep the rabbet is, from the inside face. */
  readonly rabbet: number;
}

/** mm; 10 for 10 mm in an inch file is more. */
const GREATEST_LIP = 100;

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
        depth: kit.length().exactOptional(),
        'tails-inside': kit.option(['rounded', 'square']).exactOptional(),
        lip: kit
          .object({
            end: kit.length({ most: GREATEST_LIP, because: 'no lip reaches so far past a joint' }),
            lower: kit.lengthOrZero(),
            upper: kit.lengthOrZero(),
            rabbet: kit.length(),
          })
          .exactOptional(),
        fit: kit.fit(),
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
      slack: fit.slack,
      method: method ?? (tailsInside === 'square' || rest.layout.spacing !== 'even' ? 'apart' : 'together'),
      tailsInside: tailsInside ?? 'rounded',
    }));
}
