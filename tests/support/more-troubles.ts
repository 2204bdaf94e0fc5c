import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { families } from '../../src/joints/list.js';
import { root } from './jobs.js';

/** Jobs that raise what no other table does: one change each of a starter job or a sample. */

const starter = (kind: string) => families.find((family) => family.kind === kind)?.starter ?? '';
const through = starter('through-dovetail');
const halfBlind = starter('half-blind-dovetail');
const box = starter('box');
const edge = readFileSync(join(root, 'samples/edge-drawer-edging.yaml'), 'utf8');

/** A text with one piece changed; a fault of the table where the piece is not in it. */
function but(text: string, piece: string | RegExp, put: string): string {
  const changed = text.replace(piece, () => put);
  if (changed === text) throw new Error(`no ${piece} in ${text}`);
  return changed;
}

const line = (text: string) => but(edge, /line: .*\n.*repeat.*/, `line: ${text}`);
const name = /joints:\n(?: *#.*\n)*\s+([\w-]+):/.exec(through)?.[1] ?? '';
const pieces = (text: string) => `${through}\npieces:\n  piece: ${text}\n`;
const outside = 'kind: box, outside: { length: 8, width: 5, height: 3-1/2 }';

export const moreProblems: readonly string[] = [
  through,
  halfBlind,
  box,
  line('{ }'),
  line('{ d: "", unit: mm }'),
  line('{ d: "M 0 0", unit: mm }'),
  line('{ d: "M 0 0 L 1e30 0", unit: mm }'),
  line('{ d: "M 0 0 L 300 0" }'),
  line('{ d: "M 0 0 L 300 0", svg: a.svg, unit: mm }'),
  line('{ d: "M 0 0 L 300 0", unit: mm, id: a }'),
  line('{ svg: a.svg, unit: mm }'),
  line('{ d: "M 0 0 L 900 900", unit: mm }'),
  line('{ d: "M 0 0 L 900 0", unit: mm }\n    cutters: { one: straight-38, two: straight-38 }'),
  line('{ d: "M 0 0 L 300 0", unit: mm }\n    repeat: { pitch: 1 }'),
  but(through, 'tails: 3', 'pitch: 1'),
  but(through, 'tails: 3', 'pin: 1/2'),
  but(through, 'tails: 3', 'tails: 3, end-pin: 0.35, pin: 3/4'),
  but(through, 'tails: 3', 'tails: 1, pin: 1/2'),
  but(through, 'layout: { spacing: even', 'layout: { spacing: varied'),
  but(through, 'layout: { spacing: even', 'layout: { spacing: graduated'),
  but(halfBlind, 'method: together', 'method: apart'),
  but(halfBlind, 'method: together', 'method: apart\n    tails-inside: square'),
  but(halfBlind, /depth: .*\n/, '\n'),
  but(halfBlind, 'layout: { spacing: even }', 'layout: { pin: 1/4 }'),
  but(through, 'tails: 3', 'tails: 3 }\n    template: { spine: 1.9'),
  but(through, 'tails: 3', 'tails: 3 }\n    template: { plate: one'),
  but(through, 'tails: 3', 'tails: 3 }\n    template: { margin: 12'),
  but(through, 'tails: 3', 'tails: 1 }\n    template: { slots: every-second'),
  but(through, 'title: ', 'title: 七 '),
  but(through, 'tails: 3', 'tails: 3 }\n    align: nobody\n    x-none: { a: 1'),
  but(through, 'tails: 3', 'tails: 3 }\n    align: nobody\n    fit: { slack: 0.004'),
  pieces(`{ ${outside}, corners: nobody }`),
  pieces(`{ kind: box, outside: { length: 8, width: 5 }, corners: ${name} }`),
  pieces(`{ kind: box, outside: { length: 8, width: 5, height: 3-1/2, depth: 2 }, corners: ${name} }`),
  pieces(`{ kind: box, outside: { length: 8, width: 5, height: 2 }, corners: ${name} }`),
  pieces(`{ kind: box, outside: { length: 8, width: 1/2, height: 3-1/2 }, corners: ${name} }`),
];
