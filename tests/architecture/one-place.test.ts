import { expect, test } from 'vitest';
import { filesBelow, textOf } from './imports.js';

/** What several writers need is written once: a second one would differ from it before long. */
const sources = [...filesBelow('src'), ...filesBelow('cli')];
const holding = (pattern: RegExp) => sources.filter((file) => pattern.test(textOf(file)));

test('markup is escaped in one place', () => {
  expect(holding(/['"]&amp;['"]\)/)).toEqual(['src/drawing/xml.ts']);
});

test('lines and arcs become SVG path data in one place', () => {
  expect(holding(/join\('L'\)|`A\$\{/)).toEqual(['src/drawing/path-data.ts']);
});

test('widths of lines stand in the table of styles, not in the markup', () => {
  expect(holding(/stroke-width="[\d.]/)).toEqual([]);
});
