import { expect, test } from 'vitest';
import { families } from '../../src/joints/list.js';
import { cards } from '../../src/page/card.js';

test.each(families.map(({ kind }) => kind))(
  'the card of %s says which slack stands where none is given',
  (kind) => {
    const fields = (cards.get(kind) ?? []).flatMap((group) => group.fields);
    expect(fields.find(({ path }) => path.join('.') === 'fit.slack')?.usual).toBe('0.1 mm');
  },
);
