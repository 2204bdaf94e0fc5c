import { beforeAll, expect, test } from 'vitest';
import type { TestCutBoard } from '../../src/verify/assemble.js';
import { withGroup, withVertices } from '../support/dxf-faults.js';
import {
  bit,
  bushing,
  expectAllCaught,
  type Fault,
  mirroredAbout,
  mouthsClosed,
  moveFinger,
  offset,
  plateGrown,
  scaled,
  shiftedBy,
  turned,
  withoutFinger,
} from '../support/faults.js';
import { isWritten, type WrittenJoint, writeJoint } from '../support/written-joint.js';

/** Deliberate errors in the templates of half-blind dovetails, under one template and under two. */

const SLACK = 0.1;

/** The lopsided row is not its own mirror image. */
const apart = {
  method: 'apart',
  width: 104,
  bushing: 'large',
  layout: { spacing: 'list', spans: [9, 20, 14, 26, 13, 14, 8] },
};

const jobs: Readonly<Record<string, object>> = {
  together: { method: 'together', width: 96, bushing: 'small', layout: { spacing: 'even', tails: 4 } },
  apart,
  square: { ...apart, 'tails-inside': 'square' },
  lipped: { ...apart, lip: { end: 9, lower: 6, upper: 6, rabbet: 10.5 } },
};

const text = (name: string): string =>
  JSON.stringify({
    title: 'Specimen cabinet, drawer',
    units: 'mm',
    shop: {
      bits: { dovetail: { kind: 'dovetail', diameter: 12.7, angle: 14, height: 12.7 } },
      bushings: { small: { outside: 12.7 }, large: { outside: 15 } },
      plate: { material: 'plywood', thickness: 6, 'least-finger': 4 },
    },
    joints: {
      corner: {
        kind: 'half-blind-dovetail',
        boards: { tails: { thickness: 12 }, pins: { thickness: 18 } },
        depth: 10,
        cutter: 'dovetail',
        fit: { slack: SLACK },
        ...jobs[name],
      },
    },
  });

const sound = new Map<string, WrittenJoint>();

beforeAll(async () => {
  for (const name of Object.keys(jobs)) {
    const one = await writeJoint(text(name));
    if (!isWritten(one)) throw new Error(`${name}: ${one.join(', ')}`);
    sound.set(name, one);
  }
});

const joint = (name: string): WrittenJoint => {
  const one = sound.get(name);
  if (!one) throw new Error(name);
  return one;
};

const deeper = (by: number) => (board: TestCutBoard) => ({ ...board, depth: board.depth + by });

/** The ends of the slots, or of the sockets, that much further in; the plate's other edges lie behind y 20. */
const rootsMoved = (by: number) => (dxf: string) =>
  withVertices(dxf, 'CUT', (v) => (v.y > 1 && v.y < 20 ? { ...v, y: v.y + by } : v));

type Files = WrittenJoint['files'];

/** Files under the names of others. */
const renamed = (files: Files, from: Readonly<Record<string, string>>): Files =>
  files.map((file) => ({
    ...file,
    text: files.find(({ name }) => name === from[file.name])?.text ?? file.text,
  }));

const exchanged = (files: Files) =>
  renamed(files, {
    'finger-template-tails.dxf': 'finger-template-sockets.dxf',
    'finger-template-sockets.dxf': 'finger-template-tails.dxf',
  });

/** The boards of the other end: they fit each other, and nothing else of this layout. */
const bothMirrored = (files: Files) =>
  renamed(files, {
    'finger-template-tails.dxf': 'finger-template-tails-mirrored.dxf',
    'finger-template-sockets.dxf': 'finger-template-sockets-mirrored.dxf',
  });

const faults: readonly Fault[] = [
  {
    name: 'bushing offset halved',
    joint: 'apart',
    board: 'pins',
    inRequest: plateGrown((b) => offset(b) / 2),
  },
  {
    name: 'bushing offset doubled',
    joint: 'apart',
    board: 'tails',
    inRequest: plateGrown((b) => -offset(b)),
  },
  {
    name: 'bushing offset turned',
    joint: 'square',
    board: 'pins',
    inRequest: plateGrown((b) => 2 * offset(b)),
  },
  { name: 'kerf of 0.2 mm not allowed for', joint: 'together', inRequest: plateGrown(() => -0.1) },
  { name: 'kerf of 0.2 mm on the wrong side', joint: 'apart', inRequest: plateGrown(() => 0.2) },
  { name: 'one finger moved by 0.2 mm', joint: 'apart', board: 'sockets', inFile: moveFinger(28, 45, 0.2) },
  { name: 'one finger moved by 0.2 mm', joint: 'together', inFile: moveFinger(28, 60, 0.2) },
  { name: 'a finger left out', joint: 'apart', board: 'pins', inRequest: withoutFinger(29, 43) },
  { name: 'a finger left out', joint: 'square', board: 'tails', inRequest: withoutFinger(43, 69) },
  { name: 'mirrored plate', joint: 'apart', board: 'sockets', inFile: mirroredAbout(104) },
  { name: 'mirrored plate', joint: 'square', board: 'tails', inFile: mirroredAbout(104) },
  { name: 'the two templates exchanged', joint: 'apart', inFiles: exchanged },
  { name: 'both templates mirrored', joint: 'apart', inFiles: bothMirrored },
  { name: 'bit of 8° where 14° is meant', joint: 'apart', inRequest: bit(0, 8) },
  { name: 'bit of 8° where 14° is meant', joint: 'together', inRequest: bit(0, 8) },
  { name: 'straight bit in place of the dovetail bit', joint: 'square', inRequest: bit(0, 0) },
  { name: 'bit 0.1 mm too large', joint: 'together', inRequest: bit(0.1) },
  { name: 'bit 0.1 mm too small', joint: 'lipped', inRequest: bit(-0.1) },
  { name: 'bushing 1/2 in for 15 mm', joint: 'apart', inRequest: bushing(12.7 - 15) },
  { name: 'bushing worn by 0.1 mm', joint: 'together', inRequest: bushing(-0.1) },
  { name: 'bit 0.5 mm too deep', joint: 'together', inRequest: deeper(0.5) },
  { name: 'bit 0.5 mm too shallow', joint: 'apart', inRequest: deeper(-0.5) },
  { name: 'tails 0.3 mm longer than the sockets', joint: 'apart', board: 'tails', inRequest: deeper(0.3) },
  { name: 'sockets through the front’s face', joint: 'apart', board: 'pins', inRequest: deeper(8.5) },
  { name: 'bit cuts the lip', joint: 'lipped', inRequest: deeper(1) },
  { name: 'plate 0.3 mm off its stop', joint: 'apart', board: 'sockets', inFile: shiftedBy(0.3, 0) },
  { name: 'plate 0.3 mm forward', joint: 'together', inFile: shiftedBy(0, -0.3) },
  { name: 'plate 0.3 mm back', joint: 'lipped', board: 'sockets', inFile: shiftedBy(0, 0.3) },
  { name: 'sockets 0.4 mm too far in', joint: 'square', board: 'sockets', inFile: rootsMoved(0.4) },
  { name: 'slots 0.4 mm too long', joint: 'together', inFile: rootsMoved(0.4) },
  { name: 'plate turned by half a degree', joint: 'together', inFile: turned(0.5) },
  { name: 'open contour', joint: 'together', inFile: (dxf) => withGroup(dxf, 'CUT', 70, '0') },
  { name: 'plate smaller by 25.4', joint: 'lipped', inFile: scaled(1 / 25.4) },
  { name: 'plate 0.5 % too large', joint: 'together', inFile: scaled(1.005) },
  {
    name: 'board drawn 0.5 mm off the reference edge',
    joint: 'lipped',
    inFile: (dxf) => withVertices(dxf, 'STOCK', ({ x, y }) => ({ x: x + 0.5, y })),
  },
  { name: 'bar across the mouths', joint: 'apart', board: 'pins', inRequest: mouthsClosed },
];

test('are a dozen and more', () => {
  expect(faults.length).toBeGreaterThanOrEqual(12);
});

expectAllCaught('deliberate errors in half-blind joints', faults, SLACK, joint);
