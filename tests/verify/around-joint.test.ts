import { describe, expect, test } from 'vitest';
import { type TestCutBoard, type TestCutRequest, testCut } from '../../src/verify/assemble.js';
import { evenOdd, extents, rectangle, union } from '../../src/verify/cut/polygons.js';
import { judgeTestCut } from '../../src/verify/judge.js';
import { settled } from '../support/hand-testcut.js';
import { isWritten, requestFor, writeJoint } from '../support/written-joint.js';

/** What the test cut measures beside gaps and overlaps, against what is worked out by hand. Lengths in mm. */

const shop = {
  bits: {
    flared: { kind: 'dovetail', diameter: 12, angle: 9, height: 14 },
    plain: { kind: 'straight', diameter: 10, height: 30 },
  },
  bushings: { guide: { outside: 13 } },
  plate: { material: 'plywood', thickness: 12, 'least-finger': 4 },
};

const k = Math.tan((9 * Math.PI) / 180);

const drawer = {
  kind: 'half-blind-dovetail',
  method: 'apart',
  boards: { tails: { thickness: 12 }, pins: { thickness: 18 } },
  depth: 12,
  cutter: 'flared',
  width: 104,
  layout: { spacing: 'list', spans: [9, 20, 14, 26, 13, 14, 8] },
};

const carcass = {
  kind: 'through-dovetail',
  boards: { tails: { thickness: 15 }, pins: { thickness: 12 } },
  cutters: { tails: 'flared', pins: 'plain' },
  width: 116,
  layout: { spacing: 'list', spans: [9, 20, 20, 26, 19, 14, 8] },
};

const box = {
  kind: 'box',
  boards: { one: { thickness: 12 }, two: { thickness: 14 } },
  cutter: 'plain',
  width: 70,
  layout: { spacing: 'list', spans: [14, 12, 16, 13, 15] },
};

async function requestOf(joint: object, slack = 0): Promise<TestCutRequest> {
  const made = await writeJoint(
    JSON.stringify({
      title: 'Specimen cabinet, drawer',
      units: 'mm',
      shop,
      joints: { corner: { ...joint, bushing: 'guide', fit: { slack } } },
    }),
  );
  if (!isWritten(made)) throw new Error(made.join(' '));
  return requestFor(made);
}

function changed(
  request: TestCutRequest,
  change: (board: TestCutBoard) => Partial<TestCutBoard>,
): TestCutRequest {
  return { ...request, boards: request.boards.map((board) => ({ ...board, ...change(board) })) };
}

const deeper = (by: number, only?: string) => (board: TestCutBoard) =>
  only === undefined || board.board === only ? { depth: board.depth + by } : {};

const codes = (request: TestCutRequest, slack = 0) =>
  judgeTestCut(settled(testCut(request)), slack, 'joints.corner').map(
    ({ code, level }) => `${level} ${code}`,
  );

describe('what the bit left', () => {
  test('is a corner of (1 − π/4) r² on both sides of every socket’s end', async () => {
    const { unreached } = settled(testCut(await requestOf(drawer)));
    expect(unreached.pins?.area).toBeCloseTo(3 * 2 * (1 - Math.PI / 4) * 6 ** 2, 1);
    expect(unreached.tails).toMatchObject({ area: 0, width: 0 });
  });

  test('is more where one template for both boards ends in half circles', async () => {
    const request = await requestOf({
      ...drawer,
      method: 'together',
      layout: { spacing: 'even', pitch: 22 },
      width: 90,
    });
    const sockets = (request.layout ?? []).filter(({ part }) => part === 'tail').length;
    const { unreached } = settled(testCut(request));
    expect(unreached.pins?.area).toBeCloseTo(
      sockets * 2 * (1 - Math.PI / 4) * ((22 + 2 * 12 * k) / 4) ** 2,
      0,
    );
  });

  test.each([
    ['through dovetail', carcass],
    ['box joint', box],
  ])('is nothing in a %s, whose sockets are open on both faces', async (_, joint) => {
    expect(Object.values(settled(testCut(await requestOf(joint))).unreached).map(({ area }) => area)).toEqual(
      [0, 0],
    );
  });

  test('is a whole socket where a bar stands across its mouth', async () => {
    const request = await requestOf(carcass);
    const shut = changed(request, ({ board, drawing }) => {
      const plate = evenOdd(drawing.layers.CUT ?? []);
      const { minY } = extents(plate);
      const bar = rectangle({ minX: 20, maxX: 58, minY, maxY: minY + 3 });
      const layers = { ...drawing.layers, CUT: union(plate, [bar]) };
      return board === 'tails' ? { drawing: { ...drawing, layers } } : {};
    });
    const { area, width } = settled(testCut(shut)).unreached.tails ?? { area: 0, width: 0 };
    expect(area).toBeCloseTo(20 * 15, 2);
    expect(width).toBeCloseTo(15, 2);
    expect(codes(shut)).toContain('refused layout-uncut');
  });
});

describe('strength', () => {
  test('a box joint’s thinnest finger is f − (B − d), and its thinnest wood the narrowest finger', async () => {
    const { strength } = settled(testCut(await requestOf(box)));
    expect(strength.finger?.width).toBeCloseTo(12 - 3, 2);
    expect(strength.wood).toMatchObject({ board: 'two' });
    expect(strength.wood?.width).toBeCloseTo(12, 2);
    expect(strength.leastFinger).toBe(4);
  });

  test('a through dovetail’s thinnest wood is the end pin at the outside face, a slope narrower', async () => {
    const { strength } = settled(testCut(await requestOf(carcass)));
    expect(strength.wood).toMatchObject({ board: 'pins' });
    expect(strength.wood?.width).toBeCloseTo(8 - 12 * k, 2);
  });

  test('a pin template’s thinnest finger is at its tip, b − 2 (t + nose) k − (B − d)/cos θ', async () => {
    const request = await requestOf({ ...carcass, template: { nose: 10 } });
    const { finger } = settled(testCut(request)).strength;
    const tip = 19 - 2 * (12 + 10) * k - 3 / Math.cos((9 * Math.PI) / 180);
    expect(finger?.board).toBe('pins');
    // It is measured behind the rounding of the tip, within the 1.5 mm of it.
    expect((finger?.width ?? 0) - tip).toBeGreaterThan(-0.01);
    expect((finger?.width ?? 0) - tip).toBeLessThan(2 * 2 * k);
  });

  test('a finger under the least is refused, wood under 3 mm spoken of', async () => {
    const request = await requestOf(box);
    expect(codes({ ...request, leastFinger: 10 })).toContain('refused cut-finger-thin');
    const cut = settled(testCut(request));
    const thin = { ...cut, strength: { ...cut.strength, wood: { board: 'two', width: 2.5, x: 20 } } };
    expect(judgeTestCut(thin, 0, 'joints.corner').map(({ code }) => code)).toContain('cut-wood-thin');
  });
});

describe('breakthrough', () => {
  const lipped = { ...drawer, lip: { end: 9, lower: 6, upper: 6, rabbet: 13 } };

  test('the lap is the front less the depth; over the lip stays the rabbet less the depth', async () => {
    const flush = settled(testCut(await requestOf(drawer))).breakthrough;
    expect(flush.lap).toBeCloseTo(6, 6);
    expect(flush.overLip).toBeUndefined();
    expect(settled(testCut(await requestOf(lipped))).breakthrough.overLip).toBeCloseTo(1, 6);
  });

  test('a bit through the face or into the lip is refused', async () => {
    expect(codes(changed(await requestOf(drawer), deeper(5.8)), 10)).toContain('refused cut-through-face');
    expect(codes(changed(await requestOf(lipped), deeper(1.5)), 10)).toContain('refused cut-into-lip');
  });

  test('the bit runs into the backing, and is refused where that is too thin to keep it from the fence', async () => {
    const request = await requestOf(carcass);
    const { intoBacking, toFence } = settled(testCut(request)).breakthrough;
    for (const board of ['tails', 'pins']) {
      expect(intoBacking[board]).toBeGreaterThan(5);
      expect(toFence[board]).toBeGreaterThan(2.9);
    }
    expect(codes(changed(request, () => ({ backing: 4 })))).toContain('refused cut-into-fence');
  });

  test('an edge wider than its bushing is refused where it rises into the plate', async () => {
    const request = await requestOf(box);
    expect(codes(request)).toEqual(['ok joint-closes']);
    const wide = changed(request, ({ cutter }) => ({ cutter: { ...cutter, diameter: 14, height: 30 } }));
    expect(codes(wide)).toContain('refused cut-into-plate');
    const short = changed(request, ({ cutter }) => ({ cutter: { ...cutter, diameter: 14, height: 10 } }));
    expect(codes(short)).not.toContain('refused cut-into-plate');
  });
});

describe('how the boards sit', () => {
  test('ends that stand out are to be sanded, ends that stand back are refused', async () => {
    const request = await requestOf(carcass);
    expect(codes(request)).toEqual(['ok joint-closes']);
    expect(codes(changed(request, deeper(0.3, 'pins')))).toEqual(['ok joint-closes', 'ok end-proud']);
    expect(codes(changed(request, deeper(1.5, 'pins')))).toContain('caution end-proud');
    expect(codes(changed(request, deeper(-0.3, 'pins')))).toContain('refused face-shy');
    expect(settled(testCut(changed(request, deeper(0.3, 'pins')))).proud.pins).toBeCloseTo(0.3, 6);
  });

  test('tails longer than the sockets are deep keep the shoulders open', async () => {
    const request = await requestOf(drawer, 0.4);
    expect(codes(changed(request, deeper(0.3, 'tails')), 0.4)).toContain('refused shoulders-open');
    expect(settled(testCut(changed(request, deeper(0.3, 'tails')))).underTails).toBeCloseTo(-0.3, 6);
  });

  test('deeper sockets alone leave room under the tails, and are tighter by 2k for each unit', async () => {
    const request = changed(await requestOf(drawer, 0.4), deeper(0.3, 'pins'));
    const cut = settled(testCut(request));
    expect(cut.underTails).toBeCloseTo(0.3, 6);
    expect(cut.tightest?.play).toBeCloseTo(0.4 - 2 * k * 0.3, 2);
    expect(codes(request, 0.4)).toContain('caution sockets-deep');
  });

  test('a side flush in its sockets stays flush, square tails too', async () => {
    for (const more of [{}, { 'tails-inside': 'square' }]) {
      const cut = settled(testCut(await requestOf({ ...drawer, ...more })));
      expect(Math.abs(cut.proud.tails ?? 1)).toBeLessThan(0.002);
      expect(cut.underTails).toBe(0);
    }
  });
});

test('glue area of a half-blind joint: two walls of t by h ÷ cos θ for each tail, without the sockets’ ends', async () => {
  const { glueArea } = settled(testCut(await requestOf({ ...drawer, 'tails-inside': 'square' })));
  expect(glueArea).toBeCloseTo((3 * 2 * 12 * 12) / Math.cos((9 * Math.PI) / 180), 0);
});

test('the slack shows at every level of every kind, down to the baseline', async () => {
  for (const joint of [drawer, { ...drawer, 'tails-inside': 'square' }, carcass, box]) {
    const { levels } = settled(testCut(await requestOf(joint, 0.1)));
    for (const { gap } of levels) expect(gap).toBeCloseTo(0.05, 3);
  }
});
