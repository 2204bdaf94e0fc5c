import type { z } from 'zod';
import type { FieldKit } from '../../input/fields/field-kit.js';
import { markerFields } from '../../input/fields/marker-fields.js';
import type { Bit, Board, Joint } from '../../input/types.js';
import { handOrRouter, JOINT_WIDTH, slackOf } from '../shared-fields.js';

/** A box joint as the job file gives it. Without cutter and bushing it is cut by hand. */
export interface BoxJoint extends Joint {
  readonly kind: 'box';
  readonly boards: { readonly one: Board; readonly two: Board };
  readonly cutter?: Bit;
}

/**
 * Slack where the job says none, mm: fingers slide in by hand with room for a film of glue (common practice, no source). In the middle
 * of what counts as good, 0 to 0.2 mm, which makes the greatest share of joints fit: with ordinary errors 44 % in place of 37 %,
 * and 28 % too tight in place of 50 %.
 */
const DEFAULT_SLACK = 0.1;

/**
 * Fields of `kind: box`. `start`, the board that has a finger at the reference edge, stands beside `layout`
 * in the file and with the other wishes for the layout in the joint.
 */
export function boxFields(kit: FieldKit): z.ZodType<Omit<BoxJoint, 'name' | 'kind'>> {
  return kit
    .object(
      {
        width: kit.length(JOINT_WIDTH),
        boards: kit.object({ one: kit.board(), two: kit.board() }),
        layout: kit.layout(['finger', 'fingers', 'pitch', 'ratio', 'seed', 'spread', 'spans', 'groove']),
        start: kit.option(['one', 'two']).exactOptional(),
        cutter: kit.bit('straight').exactOptional(),
        bushing: kit.bushing().exactOptional(),
        fit: kit.fit(DEFAULT_SLACK),
        template: kit.template(),
        marker: markerFields(kit).exactOptional(),
      },
      ({ written }) =>
        handOrRouter({ bits: written('cutter'), bushing: written('bushing') }, 'cutter', 'cutter: BIT'),
    )
    .transform(({ fit, start, layout, ...rest }) => ({
      ...rest,
      layout: start === undefined ? layout : { ...layout, start },
      ...slackOf(fit, rest),
    }));
}
