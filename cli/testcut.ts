import { depthFrom } from '../src/diagnostics/wording/testcut.js';
import type { Job } from '../src/input/types.js';
import type { TestCutOutcome } from '../src/outputs/testcut.js';
import { bothUnits, columns } from './summary.js';
import { paint } from './terminal.js';

/** What the test cut of each joint says, for people: sizes in both units, the job's own first. */

const MM2_PER_IN2 = 25.4 * 25.4;

export function describeTestCut(
  { title, units }: Job,
  cuts: readonly TestCutOutcome[],
  refusedBefore: readonly string[],
): string {
  const both = (mm: number) => bothUnits(mm, units).join(' = ');
  const area = (mm2: number, more = 0) => {
    const [metric, imperial] = [`${mm2.toFixed(more)} mm²`, `${(mm2 / MM2_PER_IN2).toFixed(2 + more)} in²`];
    return units === 'mm' ? `${metric} = ${imperial}` : `${imperial} = ${metric}`;
  };
  const where = (at: { readonly x: number; readonly z: number } | undefined, flat: boolean) =>
    at ? `at ${both(at.x)} from the reference edge, ${both(at.z)} ${depthFrom(flat)}` : '';
  const parts = cuts.flatMap(({ joint, cut, diagnostics }) => {
    const refused = diagnostics.some(({ level }) => level === 'refused');
    if (!cut) {
      const why = refused ? 'not cut: the reasons stand above' : whyNot(diagnostics.map(({ code }) => code));
      return ['', `${paint('bold', joint)}  ${why}`];
    }
    const flat = cut.way === 'placed';
    const verdict = refused ? paint('red', 'does not close as asked') : paint('green', 'closes');
    return [
      '',
      `${paint('bold', joint)}  ${verdict}`,
      ...columns([
        ['worst gap', both(cut.worstGap), where(cut.gapAt, flat)],
        ['worst overlap', both(cut.worstOverlap), where(cut.overlapAt, flat)],
        ...playRows(cut, both),
        ['glue area', area(cut.glueArea), 'long grain to long grain'],
        ...(flat ? [] : [['shoulders', area(cut.shoulderArea), 'end grain']]),
        ...seatRows(cut, both),
        ...cornerRows(cut, (left) => area(left, 2)),
        ...limitRows(cut, both),
      ]),
      '',
      ...columns([
        [depthFrom(flat), 'gap', 'overlap'],
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

type CutOutcome = NonNullable<TestCutOutcome['cut']>;
type Both = (mm: number) => string;

function playRows({ tightest, loosest }: CutOutcome, both: Both): readonly string[][] {
  if (!tightest || !loosest) return [];
  return [['play', both(tightest.play), `of the tightest pair; ${both(loosest.play)} of the loosest`]];
}

/** Ends and faces, and room under tails that end in the wood. */
function seatRows({ proud, underTails, way }: CutOutcome, both: Both): readonly string[][] {
  const sunk = way === 'sunk';
  const said = (by: number): string => {
    if (Math.abs(by) < 0.0005) return 'flush';
    if (by > 0) return 'proud of the other face';
    return sunk ? 'of room to the sockets’ ends' : 'below the other face';
  };
  const faces = Object.entries(proud).map(([board, by]) => [
    `${sunk ? 'face' : 'end'} of ${board}`,
    both(Math.abs(by)),
    said(by),
  ]);
  if (underTails === undefined) return faces;
  const where = underTails < 0 ? 'between the shoulders: the tails are too long' : 'free under the tails';
  return [...faces, ['sockets', both(Math.abs(underTails)), where]];
}

function cornerRows({ unreached }: CutOutcome, area: (mm2: number) => string): readonly string[][] {
  const left = Object.entries(unreached).filter(([, one]) => one.area > 0);
  return left.map(([board, one]) => [
    `corners, ${board}`,
    area(one.area),
    'left standing where the bit is round',
  ]);
}

/** What is thinnest, and what is left where the bit must not come through. */
function limitRows({ strength, breakthrough }: CutOutcome, both: Both): readonly string[][] {
  const { finger, leastFinger, wood } = strength;
  const { lap, overLip, intoBacking, toFence, intoPlate } = breakthrough;
  const at = (x: number) => `at ${both(x)} from the reference edge`;
  const least = leastFinger === undefined ? '' : `, ${both(leastFinger)} is the least`;
  return [
    ...(finger
      ? [['template', both(finger.width), `thinnest finger, ${finger.board}, ${at(finger.x)}${least}`]]
      : []),
    ...(wood ? [['wood', both(wood.width), `thinnest, ${wood.board}, ${at(wood.x)}`]] : []),
    ...(lap === undefined ? [] : [['lap', both(lap), 'of the front left over the sockets']]),
    ...(overLip === undefined ? [] : [['lip', both(overLip), 'between the bit and the lip']]),
    ...Object.entries(intoBacking).map(([board, by]) => {
      const left = toFence[board];
      return [
        `behind ${board}`,
        both(by),
        `into the backing${left === undefined ? '' : `, ${both(left)} before the fence`}`,
      ];
    }),
    ...Object.entries(intoPlate).map(([board, by]) => [
      `over ${board}`,
      both(by),
      'of the edge beyond the bushing, in the plate',
    ]),
  ];
}

function whyNot(codes: readonly string[]): string {
  return codes.includes('testcut-by-hand')
    ? 'is cut by hand: no template to prove'
    : 'not tried: joints of this kind cannot be cut on paper yet; close one in scrap before you cut good wood';
}
