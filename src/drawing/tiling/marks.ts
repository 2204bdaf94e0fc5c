import { line } from '../../geometry/segment.js';
import type { Point } from '../../geometry/types.js';
import { open, seen, text } from '../drawing.js';
import type { Item, TextItem } from '../model.js';
import type { StyleName } from '../styles.js';

interface Lettering {
  readonly height: number;
  readonly angle?: number;
  readonly align?: TextItem['align'];
  readonly style?: StyleName;
}

/** A line of lettering on its baseline. */
export const lettering = (
  words: string,
  at: Point,
  { height, style = 'print', ...options }: Lettering,
): readonly Item[] => seen(style, [text('REF', words, at, height, options)]);

export const straight = (style: StyleName, from: Point, to: Point, dashed = false): readonly Item[] =>
  seen(style, [open('REF', { closed: false, segments: [line(from, to)] }, dashed)]);
