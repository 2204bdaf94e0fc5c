import type { Job } from '../src/job/types.js';
import type { testCutJob } from '../src/pipeline.js';
import { bothUnits, columns } from './summary.js';
import { paint } from './terminal.js';

/** What the test cut of each joint says, for people: sizes in both units, the job's own first. */

export type TestCutOf = Awaited<ReturnType<typeof testCutJob>>[number];

const MM2_PER_IN2 = 25.4 * 25.4;

export function describeTestCut(
  { title, units }: Job,
  cuts: readonly TestCutOf[],
  refusedBefore: readonly string[],
): string {
  const both = (mm: number) => bothUnits(mm, units).join(' = ');
  const area = (mm2: number) => {
    const [metric, imperial] = [`${mm2.toFixed(0)} mm²`, `${(mm2 / MM2_PER_IN2).toFixed(2)} in²`];
    return units === 'mm' ? `${metric} = ${imperial}` : `${imperial} = ${metric}`;
  };
  const where = (at: { readonly x: number; readonly z: number } | undefined) =>
    at ? `at ${both(at.x)} from the reference edge, ${both(at.z)} from the end` : '';
  const parts = cuts.flatMap(({ joint, cut, findings }) => {
    const refused = findings.some(({ level }) => level === 'refused');
    if (!cut) {
      const why = refused ? 'not cut: the reasons stand above' : whyNot(findings.map(({ code }) => code));
      return ['', `${paint('bold', joint)}  ${why}`];
    }
    const verdict = refused ? paint('red', 'does not close as asked') : paint('green', 'closes');
    return [
      '',
      `${paint('bold', joint)}  ${verdict}`,
      ...columns([
        ['worst gap', both(cut.worstGap), where(cut.gapAt)],
        ['worst overlap', both(cut.worstOverlap), where(cut.overlapAt)],
        ['glue area', area(cut.glueArea), 'long grain to long grain'],
        ...Object.entries(cut.proud).map(([board, by]) => [
          `${board}`,
          both(Math.abs(by)),
          Math.abs(by) < 0.0005 ? 'flush' : by > 0 ? 'proud of the other face' : 'below the other face',
        ]),
      ]),
      '',
      ...columns([
        ['from the end', 'gap', 'overlap'],
        ...cut.levels.map(({ z, gap, overlap }) => [both(z), both(gap), both(overlap)]),
      ]),
    ];
  });
  const others = refusedBefore.flatMap((joint) => [
    '',
    `${paint('bold', joint)}  ${paint('red', 'cannot be made as asked')}`,
  ]);
  return [`${paint('bold', title)}, cut on paper`, ...parts, ...others].join('\n');
}

function whyNot(codes: readonly string[]): string {
  return codes.includes('testcut-by-hand')
    ? 'is cut by hand: no template to prove'
    : 'not tried: joints of this kind cannot be cut on paper yet; close one in scrap before you cut good wood';
}
