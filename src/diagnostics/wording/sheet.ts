import type { Formatter } from '../formatter.js';

const list = (words: readonly string[]): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;

/** Sentences about pieces, cut lists and layouts that line up. Lengths in mm. */
export const sheetWording = {
  'piece-size-missing': (d: { kind: string; key: string; wanted: readonly string[] }) =>
    `the ${d.key} is missing: a ${d.kind} has ${list(d.wanted)} as its finished outside size`,
  'piece-size-odd': (d: { kind: string; key: string; wanted: readonly string[] }) =>
    `a ${d.kind} has no ${d.key} here: its finished outside size is ${list(d.wanted)}`,
  'piece-joint-unknown': (d: { key: string; read: string; known: readonly string[]; nearest?: string }) =>
    `there is no joint called "${d.read}" under joints; ${d.nearest === undefined ? `there are ${list(d.known)}` : `did you mean ${d.nearest}?`}`,
  'piece-joint-width': (d: { size: string; across: number; joint: string; width: number }, fmt: Formatter) =>
    `the ${d.size} is ${fmt.length(d.across)}, and the joint ${d.joint} is ${fmt.length(d.width)} wide; the two must be the same: change one of them`,
  'piece-small': (d: { size: string; outside: number; boards: number; least: number }, fmt: Formatter) =>
    `the ${d.size} of ${fmt.length(d.outside)} leaves nothing between two boards that take ${fmt.length(d.boards)} of it; over ${fmt.length(d.least)} would do`,
  'piece-no-corner': (d: { joint: string; kind: string }) =>
    `${d.joint} is a joint of kind ${d.kind}, which lengthens a board or widens a panel and makes no corner; name a dovetail or box joint`,
  'align-unknown': (d: { read: string; known: readonly string[]; nearest?: string }) =>
    `there is no other joint called "${d.read}" to line up with; ${
      d.known.length === 0
        ? 'this job has only one joint, so take align out'
        : d.nearest === undefined
          ? `there ${d.known.length === 1 ? 'is' : 'are'} ${list(d.known)}`
          : `did you mean ${d.nearest}?`
    }`,
  'align-chain': (d: { lead: string; its: string }) =>
    `${d.lead} is itself lined up with ${d.its}; write align: ${d.its} here, too`,
  'align-refused': (d: { lead: string }) =>
    `${d.lead} can't be made as asked, so nothing can be lined up with it; mend that joint first`,
  'align-kind': (d: { kind: string }) =>
    `a ${d.kind} joint has no pins and tails to line up; align is for dovetails of one kind`,
  'align-off': (
    d: { lead: string; width: number; pitch: number; pin: number; endPin: number; widths: readonly number[] },
    fmt: Formatter,
  ) =>
    `a board ${fmt.length(d.width)} wide can't line up with ${d.lead}: at its pitch of ${fmt.length(d.pitch)} and with its half-pins of ${fmt.length(d.endPin)} at both edges, ${list(d.widths.map((width) => fmt.length(width)))} would do`,
  'align-done': (d: { lead: string; pitch: number; endPin: number }, fmt: Formatter) =>
    `lined up with ${d.lead}: pitch ${fmt.length(d.pitch)}, half-pins ${fmt.length(d.endPin)} at both edges`,
};
