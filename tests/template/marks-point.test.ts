import { describe, expect, test } from 'vitest';
import type { Item } from '../../src/drawing/model.js';
import { extents } from '../../src/geometry/outline.js';
import { solveJob } from '../../src/outputs/joint.js';
import { inch, readText } from '../support/jobs.js';

/** Marks of a lipped front's plate: what an arrow points at is scored, and stops stand at the lip's own edges. */
const drawer = (lower: string, upper: string) => `
units: in
shop: ./shop.yaml
joints:
  drawer:
    kind: half-blind-dovetail
    width: 5-1/4
    boards: { tails: { thickness: 1/2 }, pins: { thickness: 3/4 } }
    method: apart
    layout: { tails: 2 }
    lip: { end: 3/8, lower: ${lower}, upper: ${upper}, rabbet: 1/2 }
    depth: 1/2
    cutter: half-8
    bushing: seven-sixteenths
`;

function itemsOf(text: string): readonly Item[] {
  const made = solveJob(readText(text))[0]?.made;
  const template = made?.templates.find(({ plate }) => plate.name === 'finger-template-sockets');
  if (!template) throw new Error('no sockets template');
  return template.drawing.items;
}

/** x of lines scored from front to back. */
function scoredAt(items: readonly Item[]): readonly number[] {
  return items.flatMap((item) => {
    if (item.layer !== 'SCORE' || item.kind !== 'open') return [];
    const { minX, maxX } = extents(item.path);
    return maxX - minX < 1e-9 ? [minX] : [];
  });
}

describe('a lipped front with a lip of 1/4 in below and 3/8 in above', () => {
  const items = itemsOf(drawer('1/4', '3/8'));
  const scored = scoredAt(items);
  const isScored = (x: number) => scored.some((one) => Math.abs(one - x) < 1e-6);

  test('stops stand where the lower lip ends, at the left and at the right', () => {
    expect(isScored(-inch(1 / 4))).toBe(true);
    expect(isScored(inch(5.25 + 1 / 4))).toBe(true);
  });

  test('each arrow ends less than 1 mm beside a scored line', () => {
    const barbs = items.flatMap((item) => {
      if (item.layer !== 'ENGRAVE' || item.kind !== 'open') return [];
      const [segment] = item.path.segments;
      return segment && Math.abs(segment.from.y - segment.to.y) > 1 ? [segment.from.x] : [];
    });
    expect(barbs.length).toBeGreaterThanOrEqual(4);
    for (const tip of barbs) expect(scored.some((x) => Math.abs(x - tip) < 1)).toBe(true);
  });
});
