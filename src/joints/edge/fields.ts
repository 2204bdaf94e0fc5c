import type { z } from 'zod';
import { diagnostic } from '../../diagnostics/diagnostic.js';
import type { FieldKit } from '../../input/fields/field-kit.js';
import type { Bit, Board, Joint, TextFile } from '../../input/types.js';
import { handOrRouter, JOINT_WIDTH, slackOf } from '../shared-fields.js';

/** Two boards that meet along a drawn line, as the job file gives them. Without cutter and bushing, by hand. */
export interface EdgeJoint extends Joint {
  readonly kind: 'edge';
  readonly boards: { readonly one: Board; readonly two: Board };
  readonly line: DrawnLine;
  readonly repeat?: Repeat;
  readonly cutters?: { readonly one: Bit; readonly two: Bit };
  /** Whether the job names one bit for both boards. */
  readonly oneCutter: boolean;
}

/** The line: an element of an SVG file, or path data with its unit. */
export type DrawnLine = (
  | { readonly svg: TextFile; readonly id?: string }
  | { readonly d: string; readonly unit: LineUnit }
) & {
  /** How much of the line lies before the reference edge, along x. */
  readonly lead: number;
};

export const lineUnits = ['mm', 'in', 'px'] as const;
export type LineUnit = (typeof lineUnits)[number];

/** The line again and again: at every `pitch`, its own length along x unless said; `count` times, or all along. */
export interface Repeat {
  readonly pitch?: number;
  readonly count?: number;
}

/** Longer path data is a drawing and belongs in a file of its own. */
const MAX_CHARACTERS = 20_000;

const MAX_REPEATS = 1000;

/**
 * Slack where the job says none, mm: it leaves each of a bump's two glue lines 0.05 mm, which clamps close across
 * the joint and glue fills along it (common practice, no source).
 */
const DEFAULT_SLACK = 0.1;

/** Fields of `kind: edge`. */
export function edgeFields(kit: FieldKit): z.ZodType<Omit<EdgeJoint, 'name' | 'kind'>> {
  return kit
    .object(
      {
        width: kit.length(JOINT_WIDTH),
        boards: kit.object({ one: kit.board(), two: kit.board() }),
        line: lineFields(kit),
        repeat: kit
          .object({
            pitch: kit.length().exactOptional(),
            count: kit.count(1, MAX_REPEATS).exactOptional(),
          })
          .exactOptional(),
        cutter: kit.bit('straight').exactOptional(),
        cutters: kit.object({ one: kit.bit('straight'), two: kit.bit('straight') }).exactOptional(),
        bushing: kit.bushing().exactOptional(),
        fit: kit.fit(DEFAULT_SLACK),
        template: kit.template(),
      },
      ({ written }) => [
        ...(written('cutter') && written('cutters')
          ? [diagnostic('cutter-twice', 'refused', 'cutter', {})]
          : handOrRouter(
              { bits: written('cutter') || written('cutters'), bushing: written('bushing') },
              'cutter',
              'cutter: BIT',
            )),
      ],
    )
    .transform(({ fit, cutter, cutters, ...rest }) => {
      const both = cutters ?? (cutter && { one: cutter, two: cutter });
      return {
        ...rest,
        ...(both && { cutters: both }),
        oneCutter: cutter !== undefined,
        layout: { spacing: 'even' as const },
        ...slackOf(fit, rest),
      };
    });
}

function lineFields(kit: FieldKit): z.ZodType<DrawnLine> {
  return kit
    .object(
      {
        svg: kit.file('edging.svg').exactOptional(),
        id: kit.text('wave', 200).exactOptional(),
        d: kit.text('M 0 0 C 10 8 20 8 30 0', MAX_CHARACTERS).exactOptional(),
        unit: kit.option(lineUnits).exactOptional(),
        lead: kit.lengthOrZero().prefault(0),
      },
      ({ written }) => {
        const [svg, d] = [written('svg'), written('d')];
        if (svg && d) return [diagnostic('line-twice', 'refused', 'd', {})];
        if (!svg && !d) return [diagnostic('line-missing', 'refused', '', {})];
        if (svg && written('unit')) return [diagnostic('line-unit-of-file', 'refused', 'unit', {})];
        if (d && written('id')) return [diagnostic('line-id-without-file', 'refused', 'id', {})];
        return d && !written('unit') ? [diagnostic('line-unit-missing', 'refused', 'd', {})] : [];
      },
    )
    .transform(({ svg, id, d = '', unit = 'mm', lead }): DrawnLine => {
      if (svg === undefined) return { d, unit, lead };
      return { svg, lead, ...(id === undefined ? {} : { id }) };
    });
}
