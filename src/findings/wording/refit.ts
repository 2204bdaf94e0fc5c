import type { Say } from '../say.js';

/** Sentences about what was measured on a trial piece. Lengths in mm. */
export const refitWording = {
  'measured-form': (d: { known: readonly string[] }) =>
    `a measurement is written key=value, for example gap=0.1mm; this joint takes ${d.known.join(', ')}`,
  'measured-unknown': (d: { key: string; known: readonly string[]; nearest?: string }) =>
    `"${d.key}" is nothing that is measured on this joint${d.nearest === undefined ? '' : `; did you mean ${d.nearest}?`} It takes ${d.known.join(', ')}`,
  'measured-twice': (d: { key: string }) =>
    `${d.key} is given twice; keep one, or number them from the reference edge: ${d.key}-1=…, ${d.key}-2=…`,
  'measured-contrary': (d: { one: string; other: string }) =>
    `${d.one} and ${d.other} can't both be; keep the one that you saw`,
  'measured-negative': (d: { key: string; value: number }, say: Say) =>
    `${d.key} is ${say.length(d.value)}, which is below nothing; a loose pair is a gap, a tight one an overlap`,
  'measured-number': (d: { key: string; count: number }) =>
    d.count === 0
      ? `${d.key} takes no number behind it`
      : `there are ${d.count} of ${d.key}; number them from 1 at the reference edge`,
  'measured-none': (d: { key: string }) => `this joint has no ${d.key} to measure`,
  'measured-which': (d: { key: string; count: number }) =>
    `the ${d.count} of ${d.key} differ in width: say which one, counted from the reference edge: ${d.key}-1=…`,
  'measured-far': (d: { key: string; value: number; nominal: number; where?: string }, say: Say) =>
    `${d.key} of ${say.length(d.value)} is too far from the ${say.length(d.nominal)} it should be for an error of the tools; measure again${d.where === undefined ? '' : `, ${d.where}`}`,
  'refit-by-hand': (d: { joint: string }) =>
    `${d.joint} is cut by hand, so no bit, bushing or template sets its fit`,
  'refit-kind': (d: { kind: string; known: readonly string[] }) =>
    `no fit can be worked out for ${d.kind}; it can for ${d.known.join(', ')}`,
};
