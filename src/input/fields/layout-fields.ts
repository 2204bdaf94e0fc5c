import type { z } from 'zod';
import { type Diagnostic, diagnostic } from '../../diagnostics/diagnostic.js';
import { FINGERS, RATIOS, SEEDS, SPANS, SPREADS, TAILS } from '../limits.js';
import type { LayoutRequest, Spacing } from '../types.js';
import type { FieldKit, LayoutField } from './field-kit.js';
import { type FileUnits, lengthReader, listReader, numberReader, optionReader } from './read-value.js';
import { field, object } from './schema.js';

const spacings: readonly Spacing[] = ['even', 'graduated', 'mirrored', 'list', 'varied'];

/** Fields that mean something with some spacings only. */
const spacingsOf: Readonly<Partial<Record<LayoutField, readonly Spacing[]>>> = {
  ratio: ['graduated', 'mirrored'],
  seed: ['varied'],
  spread: ['varied'],
  spans: ['list', 'mirrored'],
};

/** See FieldKit.layout. */
export function layoutFields(
  kit: FieldKit,
  units: FileUnits,
  fields: readonly LayoutField[],
): z.ZodType<LayoutRequest> {
  const shape = Object.fromEntries(
    fields.map((one) => [fieldKey(one), schemaOf(kit, units, one).exactOptional()]),
  );
  return object(
    { spacing: field(optionReader(spacings)).prefault('even'), ...shape },
    ({ fields: read, written }) => {
      const { spacing } = read as { spacing?: Spacing };
      return spacing === undefined
        ? []
        : atOdds(
            spacing,
            fields.filter((one) => written(fieldKey(one) as 'spacing')),
          );
    },
  )
    .prefault({})
    .transform(byFieldName);
}

/** Fields written that their spacing knows nothing of, and a list without its spans. */
function atOdds(spacing: Spacing, written: readonly LayoutField[]): readonly Diagnostic[] {
  const odd = written.flatMap((key) => {
    const known = spacingsOf[key];
    if (known === undefined || known.includes(spacing)) return [];
    return [
      diagnostic('field-of-spacing', 'refused', fieldKey(key), {
        key: fieldKey(key),
        spacing,
        spacings: known,
      }),
    ];
  });
  const lacking = spacing === 'list' && !written.includes('spans');
  return lacking ? [...odd, diagnostic('spans-missing', 'refused', 'spans', { spacing })] : odd;
}

function schemaOf(kit: FieldKit, units: FileUnits, one: LayoutField): z.ZodType {
  switch (one) {
    case 'tails':
      return kit.count(TAILS.least, TAILS.most);
    case 'fingers':
      return kit.count(FINGERS.least, FINGERS.most);
    case 'seed':
      return kit.count(SEEDS.least, SEEDS.most);
    case 'ratio':
      return field(numberReader(RATIOS));
    case 'spread':
      return field(numberReader(SPREADS));
    case 'spans':
      return field(
        listReader(lengthReader(units), {
          least: SPANS.least,
          most: SPANS.most,
          what: 'widths',
          example: '[1/2 in, 1 in, 1/2 in]',
        }),
      );
    case 'start':
      return kit.option(['one', 'two']);
    case 'groove':
      return kit.object({ from: kit.lengthOrZero(), width: kit.length() });
    case 'pitch':
    case 'pin':
    case 'endPin':
    case 'leastPin':
    case 'finger':
      return kit.length();
  }
}

/** `endPin` is written `end-pin`. */
function fieldKey(one: LayoutField): string {
  return one.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`);
}

function byFieldName(read: Readonly<Record<string, unknown>>): LayoutRequest {
  const named = Object.entries(read).map(([key, value]) => [
    key.replace(/-([a-z])/g, (_, letter: string) => letter.toUpperCase()),
    value,
  ]);
  return Object.fromEntries(named) as LayoutRequest;
}
