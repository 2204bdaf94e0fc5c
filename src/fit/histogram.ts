import type { Formatter } from '../diagnostics/formatter.js';
import { closed, open, type TextOptions, text } from '../drawing/drawing.js';
import type { Drawing, Item } from '../drawing/model.js';
import type { StyleName } from '../drawing/styles.js';
import { rectangle } from '../geometry/outline.js';
import { line } from '../geometry/segment.js';
import type { Path, Point } from '../geometry/types.js';
import type { ToleranceStudy } from './tolerance.js';

/** The picture's field, mm. */
const WIDTH = 150;
const HEIGHT = 70;
const LETTER = 3;

/** Nothing of it is done to a sheet. */
const drawn = (style: StyleName, item: Item): Item => ({ ...item, style });

const chartText = (line: string, at: Point, height: number, options?: TextOptions): Item =>
  drawn('words', text('REF', line, at, height, options));

/** Bars across the whole spread. */
const BARS = 40;

/** Points of the curve of linear theory. */
const CURVE = 120;

/**
 * A histogram of the play: bars from the quasi-random run, over them the curve of linear theory, dashed lines
 * where too tight ends and too loose begins. To be written as a picture; nothing in it is to be cut. The drawing
 * is 150 by 70 mm, its axis the play in mm, from the least to the most with a margin.
 */
export function toleranceDrawing(study: ToleranceStudy, title: string, fmt: Formatter): Drawing {
  const { limits, sampled, linear, slack } = study;
  const reach = Math.max(linear.deviation * 3, (sampled.most - sampled.least) / 2, 0.01);
  const from = Math.min(sampled.least, slack - reach, limits.tight) - 0.05 * reach;
  const to = Math.max(sampled.most, slack + reach, limits.loose) + 0.05 * reach;
  const bar = (to - from) / BARS;
  const counts = countsOf(study.play, from, bar);
  const share = (count: number) => count / Math.max(1, study.play.length);
  const density = (play: number) =>
    linear.deviation === 0
      ? 0
      : (bar * Math.exp(-(((play - linear.mean) / linear.deviation) ** 2) / 2)) /
        (linear.deviation * Math.sqrt(2 * Math.PI));
  const top = Math.max(...counts.map(share), density(linear.mean), 1e-9);
  const x = (play: number) => ((play - from) / (to - from)) * WIDTH;
  const y = (height: number) => (height / top) * HEIGHT;
  const bars: readonly Item[] = counts.flatMap((count, index) => {
    if (count === 0) return [];
    const left = from + index * bar;
    return [drawn('bar', closed('REF', rectangle(x(left), 0, x(left + bar), y(share(count)))))];
  });
  return {
    title,
    notes: study.errors.map(
      ({ source, share: part }) => `${source}: ${(100 * part).toFixed(1)} % of the spread`,
    ),
    items: [
      ...bars,
      ...axis(from, to, x, fmt),
      ...(linear.deviation === 0
        ? []
        : [
            drawn(
              'curve',
              open(
                'REF',
                curve(from, to, x, (play) => y(density(play))),
              ),
            ),
          ]),
      ...limit(x(limits.tight), 'too tight', 'end'),
      ...limit(x(limits.loose), 'too loose', 'start'),
      ...legend(study),
      chartText(title, { x: 0, y: HEIGHT + 14 }, LETTER * 1.3),
    ],
  };
}

function countsOf(play: readonly number[], from: number, bar: number): readonly number[] {
  const counts = new Array<number>(BARS).fill(0);
  for (const one of play) {
    const index = Math.min(BARS - 1, Math.max(0, Math.floor((one - from) / bar)));
    counts[index] = (counts[index] ?? 0) + 1;
  }
  return counts;
}

/** A mark at every round number of hundredths that keeps the marks legible. */
function axis(from: number, to: number, x: (play: number) => number, fmt: Formatter): readonly Item[] {
  const step = [0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2].find((one) => (to - from) / one <= 8) ?? 5;
  const first = Math.ceil(from / step);
  const marks = Array.from({ length: Math.floor(to / step) - first + 1 }, (_, i) => (first + i) * step);
  return [
    drawn('rule', open('REF', straightPath({ x: 0, y: 0 }, { x: WIDTH, y: 0 }))),
    ...marks.flatMap((play): readonly Item[] => [
      drawn('rule', open('REF', straightPath({ x: x(play), y: 0 }, { x: x(play), y: -1.5 }))),
      chartText(Number(play.toFixed(2)).toString(), { x: x(play), y: -5.5 }, LETTER, {
        align: 'middle',
      }),
    ]),
    chartText('play of a pair, mm', { x: WIDTH / 2, y: -11 }, LETTER, { align: 'middle' }),
    chartText(`from ${fmt.length(from)} to ${fmt.length(to)}`, { x: WIDTH / 2, y: -16 }, LETTER * 0.8, {
      align: 'middle',
    }),
  ];
}

function limit(at: number, label: string, align: 'start' | 'end'): readonly Item[] {
  const beside = align === 'start' ? 1 : -1;
  return [
    drawn('rule', open('REF', straightPath({ x: at, y: 0 }, { x: at, y: HEIGHT + 6 }), true)),
    chartText(label, { x: at + beside, y: HEIGHT + 3 }, LETTER, { align }),
  ];
}

function legend({ sampled, linear, errors }: ToleranceStudy): readonly Item[] {
  const percent = (share: number) => `${(100 * share).toFixed(1)} %`;
  const rows = [
    `bars, run:   tight ${percent(sampled.tight)}   good ${percent(sampled.good)}   loose ${percent(sampled.loose)}`,
    `curve, linear:   tight ${percent(linear.tight)}   good ${percent(linear.good)}   loose ${percent(linear.loose)}`,
    `spread from:   ${errors
      .filter(({ share }) => share >= 0.001)
      .map(({ source, share }) => `${source} ${percent(share)}`)
      .join('   ')}`,
  ];
  return rows.map((row, index) => chartText(row, { x: 0, y: -23 - index * LETTER * 1.8 }, LETTER));
}

function curve(
  from: number,
  to: number,
  x: (play: number) => number,
  height: (play: number) => number,
): Path {
  const points = Array.from({ length: CURVE + 1 }, (_, index): Point => {
    const play = from + ((to - from) * index) / CURVE;
    return { x: x(play), y: height(play) };
  });
  return {
    closed: false,
    segments: points.slice(1).map((point, index) => line(points[index] ?? point, point)),
  };
}

function straightPath(from: Point, to: Point): Path {
  return { closed: false, segments: [line(from, to)] };
}
