import { boardFixes, type Fix, type FixContext, setKey } from '../fix.js';
import type { Formatter } from '../formatter.js';

/** Something that would make a refused layout possible. Lengths in mm. */
export type LayoutFix =
  | { readonly do: 'fewer'; readonly what: 'tails' | 'fingers and slots'; readonly count: number }
  | { readonly do: 'widen'; readonly what: LayoutPart; readonly to: number }
  | { readonly do: 'narrow'; readonly what: LayoutPart; readonly to: number }
  | { readonly do: 'board'; readonly width: number }
  | { readonly do: 'gentler'; readonly ratio: number }
  | { readonly do: 'tools'; readonly what: LayoutPart; readonly least: number };

export type LayoutPart = 'pin' | 'half-pin' | 'tail' | 'finger' | 'slot';

/** What works instead, as the end of a sentence. */
export function whatWouldDo(cures: readonly LayoutFix[], fmt: Formatter): string {
  return `${either(cures.map((cure) => layoutFixText(cure, fmt)))} would do`;
}

function layoutFixText(cure: LayoutFix, fmt: Formatter): string {
  switch (cure.do) {
    case 'fewer':
      return cure.what === 'tails' ? count(cure.count, 'tail') : `${cure.count} ${cure.what}`;
    case 'widen':
      return `a ${cure.what} of ${fmt.atLeast(cure.to)} or more`;
    case 'narrow':
      return `a ${cure.what} of ${fmt.atMost(cure.to)} or less`;
    case 'board':
      return `a board ${fmt.atLeast(cure.width)} wide`;
    case 'gentler':
      return `a ratio of ${cure.ratio} or nearer to 1`;
    case 'tools': {
      const needs = cure.what === 'pin' ? 'tools, and a least-pin,' : 'tools';
      return cure.least > 0
        ? `${needs} that ask no more than ${fmt.length(cure.least)} there`
        : `smaller tools together with a wider board`;
    }
  }
}

/** The keys of `layout:` that set the width of a part. */
const widthKeys: Readonly<Partial<Record<LayoutPart, string>>> = {
  pin: 'pin',
  'half-pin': 'end-pin',
  finger: 'finger',
};

/** The same as changes to the job. */
export function layoutFixes(cure: LayoutFix, to: FixContext): readonly Fix[] {
  const { key, length, fmt } = to;
  switch (cure.do) {
    case 'fewer': {
      if (cure.what === 'tails')
        return [setKey(count(cure.count, 'tail'), key('layout.tails'), String(cure.count))];
      // A wanted finger would settle the number again.
      const freed = ['finger', 'pitch'].map((other) => ({ remove: key(`layout.${other}`) }));
      const edits = [...freed, { set: key('layout.fingers'), to: String(cure.count) }];
      return [{ label: `${cure.count} ${cure.what}`, edits }];
    }
    case 'widen':
    case 'narrow': {
      const listed = listedFix(cure.to, to);
      if (listed) return [listed];
      const field = widthKeys[cure.what];
      const written = length(cure.to, cure.do === 'widen' ? 'up' : 'down');
      return field === undefined
        ? []
        : [setKey(`a ${cure.what} of ${fmt.length(cure.to)}`, key(`layout.${field}`), written)];
    }
    case 'board':
      return boardFixes([cure.width], to, 'up');
    case 'gentler':
      return [setKey(`a ratio of ${cure.ratio}`, key('layout.ratio'), String(cure.ratio))];
    case 'tools':
      return [];
  }
}

/** In a list a span is widened at the cost of its neighbours, so that the sum stays. */
function listedFix(to: number, { at, key, length, fmt, spans }: FixContext): Fix | undefined {
  const index = at.at(-2) === 'spans' ? Number(at.at(-1)) : Number.NaN;
  const now = spans?.[index];
  if (!spans || now === undefined) return undefined;
  const sides = [index - 1, index + 1].filter((side) => spans[side] !== undefined);
  const share = (to - now) / sides.length;
  const widths = spans.map((width, i) => (i === index ? to : sides.includes(i) ? width - share : width));
  if (widths.some((width) => width < 0)) return undefined;
  const list = `[${widths.map((width) => length(width)).join(', ')}]`;
  return setKey(`make it ${fmt.length(to)} wide`, key('layout.spans'), list);
}

export function count(number: number, what: string): string {
  return `${number} ${what}${number === 1 ? '' : 's'}`;
}

export function either(words: readonly string[]): string {
  const last = words.at(-1) ?? '';
  return words.length > 1 ? `${words.slice(0, -1).join(', ')} or ${last}` : last;
}
