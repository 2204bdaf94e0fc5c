import { describe, expect, test } from 'vitest';
import { solveJob } from '../../src/outputs/joint.js';
import { writtenTemplates } from '../../src/outputs/testcut.js';
import { readSample } from '../support/jobs.js';
import { compared, cutEnd, cutRings, type OutsideStand } from '../support/outsider.js';

/**
 * Every corner of every sample, cut and closed by code that knows report.json and the DXF files alone. At a corner the first
 * board's outside face is where the second one's ends are: u runs outward from the second board's inside face, v from the first
 * one's. The first is cut by its bit at height u and shows t = t₁ − v; the second at height v and shows t = t₂ − u. Of a
 * board that is let down into a front, the side's outside face is at the front's end less its lip, and at z from the side's end
 * the side is at height h − z, the front at z.
 */
const samples = ['small-tray.yaml', 'slide-box.yaml', 'case-corner.yaml', 'cabinet.yaml', 'shelf-case.yaml'];
const SHARES = [0.03, 0.5, 0.97];

describe.each(samples)('%s', (name) => {
  const job = readSample(name);
  const outcomes = solveJob(job).filter(({ made }) => made?.report.setUp?.trial !== undefined);

  test.each(outcomes.map((outcome) => [outcome.joint.name, outcome] as const))('%s', async (_, outcome) => {
    const files = await writtenTemplates(job, outcome);
    const plates = Object.fromEntries(
      files.map(({ name: file, text }) => [file.replace('.dxf', ''), cutRings(text)]),
    );
    const report = JSON.parse(JSON.stringify(outcome.made?.report)) as {
      readonly width: number;
      readonly holds: { readonly width: number };
      readonly assembly: { readonly way: string; readonly boards: readonly [string, string] };
      readonly thickness: Readonly<Record<string, number>>;
      readonly lip?: { readonly end: number; readonly lower: number };
      readonly setUp: { readonly stands: readonly OutsideStand[] };
    };
    const { width, holds, assembly, thickness, lip, setUp } = report;
    const [one, two] = assembly.boards;
    const corners = [...new Set(setUp.stands.map(({ of, copy, corner }) => `${of} ${copy} ${corner}`))];
    expect(corners.length).toBeGreaterThanOrEqual(2);
    for (const corner of corners.slice(0, 4)) {
      const here = setUp.stands.filter((stand) => `${stand.of} ${stand.copy} ${stand.corner}` === corner);
      const [first, second] = [one, two].map((board) =>
        cutEnd(
          here.filter((stand) => stand.board === board),
          plates,
          width,
          holds.width,
        ),
      );
      if (!first || !second) throw new Error(corner);
      const [t1 = 0, t2 = 0] = [thickness[one], thickness[two]];
      for (const share of SHARES) {
        for (const across of SHARES) {
          const lines =
            assembly.way === 'crossed'
              ? [first.woodAt(share * t2, t1 - across * t1), second.woodAt(across * t1, t2 - share * t2)]
              : [
                  first.woodAt(first.depth * (1 - share), across * 0.4 * t1),
                  second
                    .woodAt(share * first.depth, (lip?.end ?? 0) + across * 0.4 * t1)
                    .map(([a, b]) => [a - (lip?.lower ?? 0), b - (lip?.lower ?? 0)] as const)
                    .flatMap(([a, b]) =>
                      b > 0 && a < width ? [[Math.max(0, a), Math.min(width, b)] as const] : [],
                    ),
                ];
          const { gap, overlap } = compared(lines[0] ?? [], lines[1] ?? [], width);
          expect(overlap, corner).toBeLessThan(0.01);
          expect(gap, corner).toBeLessThan(outcome.joint.slack / 2 + 0.01);
        }
      }
    }
  });
});
