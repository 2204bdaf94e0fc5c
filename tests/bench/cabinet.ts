import { solveJob } from '../../src/outputs/joint.js';
import { readText } from '../support/jobs.js';
import { judgeFiles, makeFiles, proveJob } from '../support/made.js';
import { median, row } from './measure.js';

const COUNT = 60;
const ROUNDS = 3;

/** Drawer corners of sixty heights, as a wall of specimen drawers has them: each with the tails that suit it. */
export async function sixtyJoints(): Promise<void> {
  console.log(`Cabinet of ${COUNT} joints in one process`);
  const job = readText(cabinet());
  const [solved, proved, drawn] = [[], [], []] as number[][];
  for (let round = 0; round < ROUNDS; round += 1) {
    const start = performance.now();
    const outcomes = solveJob(job);
    solved?.push(performance.now() - start);
    const proof = await proveJob(job, outcomes);
    proved?.push(performance.now() - start);
    await judgeFiles(job, proof, {});
    const files = await makeFiles(job, proof, {});
    drawn?.push(performance.now() - start);
    if (proof.some(({ made }) => !made)) throw new Error('a joint of the bench is refused');
    if (files.length < COUNT * 10) throw new Error(`${files.length} files are too few`);
  }
  row('laid out and compensated', median(solved ?? []), 'ms', 'aim: under 2000');
  row('and cut on paper', median(proved ?? []), 'ms');
  row('and drawn in every usual format', median(drawn ?? []), 'ms');
  console.log();
}

function cabinet(): string {
  const joints = Array.from({ length: COUNT }, (_, i) => {
    const width = 70 + 4 * i;
    return `  drawer-${i + 1}:
    kind: through-dovetail
    width: ${width} mm
    boards: { tails: { thickness: 12 mm }, pins: { thickness: 12 mm } }
    layout: { spacing: even }
    cutters: { tails: half-8, pins: straight-8 }
    bushing: guide
    fit: { slack: 0.1 mm }
`;
  });
  return `title: Sixty specimen drawers
units: mm
shop:
  bits:
    half-8: { kind: dovetail, diameter: 12.7, angle: 8, height: 20, shank: 6.35 }
    straight-8: { kind: straight, diameter: 8, height: 32, shank: 8 }
  bushings:
    guide: { outside: 11.1, bore: 9.5, barrel: 4 }
  plate: { material: plywood, thickness: 12, least-finger: 4 }
joints:
${joints.join('')}`;
}
