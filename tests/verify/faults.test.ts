import { beforeAll, expect, test } from 'vitest';
import { verticesOn, withGroup, withVertices } from '../support/dxf-faults.js';
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
  swappedFiles,
  turned,
  withoutFinger,
} from '../support/faults.js';
import { isWritten, type WrittenJoint, writeJoint } from '../support/written-joint.js';

/** Deliberate errors in the templates of joints whose boards cross. */

const shop = {
  bits: {
    dovetail: { kind: 'dovetail', diameter: '1/2 in', angle: 8, height: '13/16 in', shank: '1/4 in' },
    straight: { kind: 'straight', diameter: '3/8 in', height: '1-1/4 in', shank: '1/4 in' },
  },
  bushings: { small: { outside: '7/16 in', bore: '13/32 in', barrel: '5/32 in' } },
  plate: { material: 'plywood', thickness: '1/2 in', 'least-finger': '3/16 in' },
};

/** Neither is its own mirror image. */
const jobs = {
  through: (slack: number) => ({
    kind: 'through-dovetail',
    width: 110,
    boards: { tails: { thickness: 12 }, pins: { thickness: 13 } },
    layout: { spacing: 'list', spans: [9, 27, 18, 23, 15, 10, 8] },
    cutters: { tails: 'dovetail', pins: 'straight' },
    bushing: 'small',
    fit: { slack },
  }),
  box: (slack: number) => ({
    kind: 'box',
    width: 96,
    boards: { one: { thickness: 10 }, two: { thickness: 12 } },
    layout: { spacing: 'list', spans: [16, 14, 18, 12, 20, 16] },
    cutter: 'straight',
    bushing: 'small',
    fit: { slack },
  }),
};
type Which = keyof typeof jobs;

const SLACK = 0.1;

const text = (which: Which, slack: number): string =>
  JSON.stringify({
    title: 'Specimen cabinet, tray',
    units: 'mm',
    shop,
    joints: { corner: jobs[which](slack) },
  });

const sound = new Map<Which, WrittenJoint>();
const loose = new Map<Which, WrittenJoint>();

async function written(which: Which, slack: number): Promise<WrittenJoint> {
  const one = await writeJoint(text(which, slack));
  if (!isWritten(one)) throw new Error(`${which}: ${one.join(', ')}`);
  return one;
}

beforeAll(async () => {
  for (const which of ['through', 'box'] as const) {
    sound.set(which, await written(which, SLACK));
    loose.set(which, await written(which, 2 * SLACK));
  }
});

/** The same joint's files made for twice the slack. */
const looseFiles = (which: Which) => () => loose.get(which)?.files ?? [];

const faults: readonly Fault[] = [
  { name: 'bushing offset halved', joint: 'box', inRequest: plateGrown((b) => offset(b) / 2) },
  { name: 'bushing offset doubled', joint: 'box', inRequest: plateGrown((b) => -offset(b)) },
  { name: 'bushing offset with its sign turned', joint: 'box', inRequest: plateGrown((b) => 2 * offset(b)) },
  {
    name: 'bushing offset halved',
    joint: 'through',
    board: 'pins',
    inRequest: plateGrown((b) => offset(b) / 2),
  },
  {
    name: 'bushing offset doubled',
    joint: 'through',
    board: 'pins',
    inRequest: plateGrown((b) => -offset(b)),
  },
  {
    name: 'bushing offset with its sign turned',
    joint: 'through',
    board: 'tails',
    inRequest: plateGrown((b) => 2 * offset(b)),
  },
  { name: 'no bushing offset at all', joint: 'through', inRequest: plateGrown((b) => offset(b)) },
  { name: 'kerf of 0.2 mm not allowed for', joint: 'box', inRequest: plateGrown(() => -0.1) },
  { name: 'kerf of 0.2 mm on the wrong side', joint: 'through', inRequest: plateGrown(() => -0.2) },
  { name: 'kerf of 0.2 mm allowed for twice', joint: 'box', inRequest: plateGrown(() => 0.1) },
  { name: 'one finger moved by 0.2 mm', joint: 'box', board: 'one', inFile: moveFinger(28, 51, 0.2) },
  { name: 'one finger moved by 0.2 mm', joint: 'through', board: 'pins', inFile: moveFinger(34, 56, 0.2) },
  { name: 'one finger moved by 0.2 mm', joint: 'through', board: 'tails', inFile: moveFinger(50, 80, -0.2) },
  { name: 'a finger left out', joint: 'box', board: 'two', inRequest: withoutFinger(46, 62) },
  { name: 'a finger left out', joint: 'through', board: 'pins', inRequest: withoutFinger(35, 55) },
  { name: 'mirrored plate', joint: 'through', board: 'pins', inFile: mirroredAbout(110) },
  { name: 'mirrored plate', joint: 'through', board: 'tails', inFile: mirroredAbout(110) },
  { name: 'mirrored plate', joint: 'box', board: 'one', inFile: mirroredAbout(96) },
  { name: 'the two templates exchanged', joint: 'box', inFiles: swappedFiles },
  { name: 'the two templates exchanged', joint: 'through', inFiles: swappedFiles },
  { name: 'bit of 7° where 8° is meant', joint: 'through', board: 'tails', inRequest: bit(0, 7) },
  { name: 'bit of 14° where 8° is meant', joint: 'through', board: 'tails', inRequest: bit(0, 14) },
  { name: 'plate turned by half a degree', joint: 'through', board: 'pins', inFile: turned(0.5) },
  { name: 'plate turned by half a degree', joint: 'box', board: 'two', inFile: turned(0.5) },
  { name: 'plate 0.3 mm off its stop', joint: 'box', board: 'one', inFile: shiftedBy(0.3, 0) },
  { name: 'pin plate 2 mm forward', joint: 'through', board: 'pins', inFile: shiftedBy(0, -2) },
  { name: 'pin plate 2 mm back', joint: 'through', board: 'pins', inFile: shiftedBy(0, 2) },
  { name: 'open contour', joint: 'through', board: 'tails', inFile: (dxf) => withGroup(dxf, 'CUT', 70, '0') },
  { name: 'open contour', joint: 'box', board: 'one', inFile: (dxf) => withGroup(dxf, 'CUT', 70, '0') },
  {
    name: 'file in inches, numbers in mm',
    joint: 'box',
    inFile: (dxf) => dxf.replace(/(\$INSUNITS\s+70\s+)4/, '$11'),
  },
  { name: 'plate smaller by 25.4', joint: 'through', inFile: scaled(1 / 25.4) },
  { name: 'plate 0.5 % too large', joint: 'box', board: 'one', inFile: scaled(1.005) },
  { name: 'units left out', joint: 'box', inFile: (dxf) => dxf.replace('$INSUNITS', '$NOTHING') },
  { name: 'straight bit 1/16 in too large', joint: 'box', inRequest: bit(25.4 / 16) },
  {
    name: 'straight bit in place of the dovetail bit',
    joint: 'through',
    board: 'tails',
    inRequest: bit(0, 0),
  },
  { name: 'bushing 1/2 in for 7/16 in', joint: 'through', inRequest: bushing(25.4 / 16) },
  { name: 'bushing worn by 0.1 mm', joint: 'box', inRequest: bushing(-0.1) },
  {
    name: 'bushing changed between the boards',
    joint: 'through',
    board: 'pins',
    inRequest: bushing(-25.4 / 16),
  },
  { name: 'bar across the mouths', joint: 'box', board: 'two', inRequest: mouthsClosed },
  { name: 'slack doubled', joint: 'through', inFiles: looseFiles('through') },
  { name: 'slack doubled', joint: 'box', inFiles: looseFiles('box') },
  {
    name: 'board drawn 1 mm too thin',
    joint: 'through',
    board: 'pins',
    inFile: (dxf) => withVertices(dxf, 'STOCK', (v) => (v.y < -1 ? { ...v, y: v.y + 1 } : v)),
  },
  {
    name: 'board drawn 1 mm off the reference edge',
    joint: 'box',
    board: 'one',
    inFile: (dxf) => withVertices(dxf, 'STOCK', ({ x, y }) => ({ x: x + 1, y })),
  },
];

const joint = (name: string): WrittenJoint => {
  const one = sound.get(name as Which);
  if (!one) throw new Error(name);
  return one;
};

test('are thirty or more', () => {
  expect(faults.length).toBeGreaterThanOrEqual(30);
  expect(verticesOn(joint('through').files[0]?.text ?? '', 'CUT').length).toBeGreaterThan(10);
});

expectAllCaught('deliberate errors', faults, SLACK, joint);
