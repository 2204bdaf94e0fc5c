import { describe, expect, test } from 'vitest';
import { families } from '../../src/joints/list.js';
import { leastRoom } from '../../src/joints/measure.js';
import { solveJob } from '../../src/outputs/joint.js';
import { codesOf, readSample, readText, solveOnly } from '../support/jobs.js';

/** With bit, bushing and kerf each 0.05 mm off, a bushing 0.2 mm narrower than its opening still goes in. */
const ROOM = 0.2;

const roomIn = (text: string): number => {
  const cuts = solveOnly(readText(text)).made?.solved.cuts;
  if (!cuts) throw new Error('the job is refused');
  return leastRoom(cuts);
};

const starterOf = (kind: string) => families.find((family) => family.kind === kind)?.starter ?? '';

describe('room for the bushing', () => {
  test.each(['through-dovetail', 'half-blind-dovetail', 'box'])('is left by the starter of %s', (kind) => {
    const outcome = solveOnly(readText(starterOf(kind)));
    expect(roomIn(starterOf(kind))).toBeGreaterThanOrEqual(ROOM - 1e-3);
    expect(codesOf(outcome)).not.toContain('bushing-room');
  });

  test('is left where the commonest drawer is laid out blank: four tails', () => {
    const drawer = `units: in
shop:
  bits: { half-14: { kind: dovetail, diameter: 1/2, angle: 14, height: 1/2, shank: 1/4 } }
  bushings: { five-eighths: { outside: 5/8, bore: 17/32, barrel: 5/32 } }
  plate: { material: plywood, thickness: 1/2, least-finger: 3/16 }
joints:
  front:
    kind: half-blind-dovetail
    width: 5
    boards: { tails: { thickness: 1/2 }, pins: { thickness: 3/4 } }
    cutter: half-14
    bushing: five-eighths
`;
    const outcome = solveOnly(readText(drawer));
    expect(outcome.made?.solved.layout.spans.filter(({ part }) => part === 'tail')).toHaveLength(4);
    expect(roomIn(drawer)).toBeGreaterThanOrEqual(ROOM - 1e-3);
  });

  test('less is a caution, but for a slot as wide as its bit, which is meant to be one pass', () => {
    const of = (pin: string) =>
      solveOnly(readText(starterOf('through-dovetail').replace('tails: 3 }', `tails: 3, pin: ${pin} }`)));
    expect(codesOf(of('1/2 in'), 'ok')).toContain('bushing-room');
    expect(codesOf(of('12.8 mm'), 'caution')).not.toContain('bushing-room');
    expect(codesOf(of('12.85 mm'), 'caution')).toContain('bushing-room');
    expect(codesOf(of('13 mm'))).not.toContain('bushing-room');
  });

  test('is in the fit model, for refit and the study of tolerances', () => {
    const [outcome] = solveJob(readSample('case-corner.yaml'));
    const solved = outcome?.made?.solved;
    expect(solved?.fit?.room).toBe(solved && leastRoom(solved.cuts));
  });
});
