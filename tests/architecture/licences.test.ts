import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { isAllowed, licenceTable, mayBeInside, mayBeUsed, packagesByPlace } from '../../.ci/licences.mjs';
import { root } from './imports.js';

/** Whose work halfpin is made with, and on what terms. */
const { inside, beside, tools } = packagesByPlace();

describe('licences', () => {
  test('are listed in shared/licences.md as the lock file has them (node .ci/licences.mjs writes it)', () => {
    expect(readFileSync(join(root, 'shared/licences.md'), 'utf8')).toBe(licenceTable());
  });

  test('of what is passed on suit a program under MIT', () => {
    expect(inside.length).toBeGreaterThan(8);
    expect(beside.map(({ name }) => name)).toContain('zod');
    expect([...inside, ...beside].filter(({ licence }) => !isAllowed(licence, mayBeInside))).toEqual([]);
  });

  test('of tools for development allow their use', () => {
    expect(tools.length).toBeGreaterThan(50);
    expect(tools.filter(({ licence }) => !isAllowed(licence, mayBeUsed))).toEqual([]);
  });

  test('a choice is allowed by one of its licences, a sum by all of them', () => {
    expect(isAllowed('(GPL-3.0 OR MIT)', mayBeInside)).toBe(true);
    expect(isAllowed('MIT AND GPL-3.0', mayBeInside)).toBe(false);
    expect(isAllowed('not said', mayBeUsed)).toBe(false);
  });

  test('are those that the installed packages name themselves', () => {
    for (const { name, licence, place } of [...inside, ...beside]) {
      const own = JSON.parse(readFileSync(join(root, place, 'package.json'), 'utf8'));
      expect(own.license, name).toBe(licence);
    }
  });

  test('of packages inside stand in full beside the code', () => {
    const texts = readFileSync(join(root, 'dist/licences.txt'), 'utf8').split(/^-{80}$/m);
    expect(texts).toHaveLength(inside.length + 1);
    for (const text of texts.slice(1)) {
      expect(text.length, text.slice(0, 60)).toBeGreaterThan(400);
      expect(text, text.slice(0, 60)).toMatch(
        /without (?:fee|charge|limitation|restriction)|free of charge|purpose with/i,
      );
    }
  });
});
