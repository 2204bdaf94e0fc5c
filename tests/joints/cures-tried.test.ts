import { describe, expect, it } from 'vitest';
import { sentence } from '../../src/diagnostics/catalogue.js';
import { formatterFor } from '../../src/diagnostics/formatter.js';
import { readJob } from '../../src/input/read-job.js';
import { halfBlindDovetail } from '../../src/joints/half-blind/half-blind-dovetail.js';
import { families } from '../../src/joints/list.js';
import { solveJob } from '../../src/outputs/joint.js';

/** Every way out that a refusal offers is typed as it stands, and then nothing is refused. */

function refusals(text: string): readonly string[] {
  const { result, units } = readJob({ name: 'job.yaml', text }, families, () => undefined);
  const found = result.ok
    ? solveJob(result.value).flatMap(({ diagnostics }) => diagnostics)
    : result.diagnostics;
  return found.filter(({ level }) => level === 'refused').map((one) => sentence(one, formatterFor(units)));
}

function but(...changes: readonly (readonly [string, string])[]): string {
  return changes.reduce((text, [piece, put]) => {
    expect(text).toContain(piece);
    return text.replace(piece, () => put);
  }, halfBlindDovetail.starter);
}

const even = '{ spacing: even }';

describe('a half-blind joint under one template', () => {
  it('takes the least pitch as it is said', () => {
    const [said] = refusals(but([even, '{ pitch: 1/2 }']));
    const least = /deep; (.*? in(?: [+-] [\d.]+)?) \(/.exec(said ?? '')?.[1];
    expect(least).toBeDefined();
    expect(said).not.toContain('depth of');
    const again = refusals(but([even, `{ pitch: ${least} }`]));
    expect(again.filter((one) => one.includes('narrower than the bushing'))).toEqual([]);
  });

  it('fits on the board that is said for so many tails', () => {
    const [said] = refusals(but([even, '{ tails: 9 }']));
    const board = /a board (.*? in(?: [+-] [\d.]+)?) \(/.exec(said ?? '')?.[1];
    expect(board).toBeDefined();
    expect(refusals(but([even, '{ tails: 9 }'], ['width: 4-1/2', `width: ${board}`]))).toEqual([]);
  });

  it('has the half-pin that is asked for', () => {
    expect(refusals(but([even, '{ end-pin: 3/8 }']))).toEqual([]);
  });

  it('says one thing of sockets that go through the front', () => {
    const said = refusals(but(['depth: 3/8', 'depth: 1']));
    expect(said).toHaveLength(1);
    expect(said[0]).toMatch(/go through a front of 3\/4 in .* up to 9\/16 in/);
  });

  it('refuses a screw hole that leaves no edge', () => {
    const said = refusals(but(['fit: { slack: 0.004 }', 'template: { hole: 12 }']));
    expect(said).toHaveLength(1);
    expect(said[0]).toContain('12 mm would do');
    expect(refusals(but(['fit: { slack: 0.004 }', 'template: { hole: 12 mm }']))).toEqual([]);
  });
});
