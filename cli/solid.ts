import type { Job } from '../src/input/types.js';
import type { SolidOutcome } from '../src/outputs/solid.js';
import { columns } from './summary.js';
import { paint } from './terminal.js';

/** What the solids of each joint hold, for people: volumes in both units, the job's own first. */

const MM3_PER_CM3 = 1000;
const MM3_PER_IN3 = 25.4 ** 3;

export function describeSolids({ units }: Job, solids: readonly SolidOutcome[]): string {
  const both = (mm3: number): string => {
    const [metric, imperial] = [
      `${(mm3 / MM3_PER_CM3).toFixed(3)} cm³`,
      `${(mm3 / MM3_PER_IN3).toFixed(4)} in³`,
    ];
    return units === 'mm' ? `${metric} = ${imperial}` : `${imperial} = ${metric}`;
  };
  if (solids.length === 0) return '\nNo joint here can be built as a solid.';
  const parts = solids.flatMap(({ joint, solid: { volumes }, slices }) => [
    '',
    `${paint('bold', joint)}  in solid wood`,
    ...columns([
      ['', 'volume', 'by the slices'],
      ['room of the joint', both(volumes.room), ''],
      ...volumes.boards.map(({ board, volume }, i) => [
        `${board} in it`,
        both(volume),
        both(slices.boards[i]?.volume ?? 0),
      ]),
      ['both in one place', both(volumes.overlap), both(slices.overlap)],
      ['filled by neither', both(volumes.voids), both(slices.voids)],
    ]),
  ]);
  return parts.join('\n');
}
