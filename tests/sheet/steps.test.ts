import { describe, expect, test } from 'vitest';
import { cautions } from '../../shared/cautions.js';
import { extents } from '../../src/geometry/outline.js';
import { bitExtension } from '../../src/joints/tools.js';
import { BACKING_MORE, benchOf } from '../../src/sheet/bench.js';
import { benchPage } from '../../src/sheet/cards.js';
import { correctionTable } from '../../src/sheet/corrections.js';
import { sheetHtml } from '../../src/sheet/html.js';
import { scaleLengths } from '../../src/sheet/plate-steps.js';
import { sharedFence } from '../../src/sheet/set-up-steps.js';
import { standsOf } from '../../src/sheet/stands.js';
import { stepsOf } from '../../src/sheet/steps.js';
import { fitToSet } from '../../src/units/to-set.js';
import { readSample, readText } from '../support/jobs.js';
import { makeSheets } from './sheets.js';

const sheets = ['cabinet.yaml', 'small-tray.yaml', 'slide-box.yaml'].flatMap((name) =>
  makeSheets(readSample(name)).map((one) => ({ ...one, name: `${name}: ${one.name}` })),
);

const onePlate = `
units: in
shop: ./shop.yaml
joints:
  tray:
    kind: through-dovetail
    width: 5-1/2
    boards: { tails: { thickness: 1/2 }, pins: { thickness: 1/2 } }
    layout: { spacing: even, tails: 3 }
    cutters: { tails: half-8, pins: straight-38 }
    bushing: seven-sixteenths
    template: { plate: one }
`;

describe('steps', () => {
  test.each(sheets)('$name: extensions, parts first, glue last', ({ input }) => {
    const words = stepsOf(input).map(({ text }) => text.toLowerCase());
    for (const cut of input.solved.cuts) {
      const extension = input.fmt.length(bitExtension(input.shop, cut.depth));
      expect(words.some((text) => text.includes(`${extension} below the base`))).toBe(true);
    }
    expect(words[0]).toMatch(/^cut the plate/);
    const carrier = words.findIndex((text) => text.includes('--only carrier'));
    expect(carrier).toBeGreaterThan(0);
    expect(carrier).toBeLessThan(words.findIndex((text) => text.includes(' put in the ')));
    for (const part of input.templates.flatMap(({ carrier }) =>
      carrier && !carrier.turnedOver ? carrier.parts : [],
    ))
      expect(words[carrier]).toContain(part.name.toLowerCase());
    expect(words.at(-1)).toMatch(/glue up/);
  });

  test.each(sheets)('$name: no step stands there twice', ({ input }) => {
    const words = stepsOf(input).map(({ text }) => text);
    expect(new Set(words).size).toBe(words.length);
  });

  test.each(sheets)(
    '$name: every end has one card, numbered on; the trial joint is one corner',
    ({ input }) => {
      const { settings, trial } = benchPage(input);
      const cards = settings.flatMap((one) => one.cards);
      expect(cards.map(({ number }) => number)).toEqual(cards.map((_, i) => i + 1));
      const ticks = cards.reduce((sum, one) => sum + one.ticks, 0);
      expect(ticks).toBe(input.setUp.stands.length);
      for (const { piece, corner } of input.setUp.stands) {
        const own = cards.filter(
          ({ title, place }) => place === `corner ${corner}` && title.split(/\W+/).includes(piece),
        );
        expect(own, `${piece}, corner ${corner}`).toHaveLength(1);
      }
      const places = new Set(trial.map((number) => cards[number - 1]?.place));
      expect(places.size).toBe(1);
      expect(trial).toHaveLength(input.solved.cuts.length);
    },
  );

  test.each(sheets)(
    '$name: unplugged before a tool is touched; what can hurt is said before the first cut',
    ({ input }) => {
      const steps = stepsOf(input);
      const first = steps.findIndex(({ text }) => text.includes(' Put in the '));
      expect(steps[first]?.text).toMatch(new RegExp(`^${cautions.unplug.text}`));
      const route = steps.findIndex(({ caution }) => caution?.includes(cautions.start.text));
      expect(route).toBeGreaterThan(first);
      expect(steps.findIndex(({ text }) => text.startsWith('Cut the trial piece'))).toBeGreaterThan(route);
      for (const key of ['start', 'eyes', 'noise', 'dust'] as const)
        expect(steps[route]?.caution).toContain(cautions[key].text);
      const said = steps.map(({ caution }) => caution ?? '').join(' ');
      for (const key of ['secure', 'laser', 'cnc'] as const) expect(said).toContain(cautions[key].text);
      expect(said.split(cautions.start.text)).toHaveLength(2);
    },
  );

  test('plates in parts are joined before a tool is touched: order, flat surface, glue, length over all', () => {
    const [sheet] = makeSheets(readSample('shelf-case.yaml'));
    if (!sheet) throw new Error('no sheet');
    const words = stepsOf(sheet.input).map(({ text }) => text);
    const joining = words.flatMap((text, i) => (/^Join the parts/.test(text) ? [i] : []));
    expect(joining).toHaveLength(1);
    const [at = 0] = joining;
    expect(at).toBeGreaterThan(words.findIndex((text) => text.startsWith('Cut the plate')));
    expect(at).toBeLessThan(words.findIndex((text) => text.includes(' Put in the ')));
    // The board of 640 mm with a margin of 45 mm at both ends.
    expect(words[at]).toContain('(tails and pins), marks up on a flat surface, parts 1, 2');
    expect(words[at + 1]).toMatch(/^Check 730 mm.*no step along the seam/);
    expect(words[at]).toMatch(/glue.*tape/);
    for (const { input } of sheets)
      expect(stepsOf(input).some(({ text }) => text.startsWith('Join the parts'))).toBe(false);
  });

  test('a lipped front: the rabbet by its sizes before the sockets, and no spacer', () => {
    const drawer = sheets.find(({ name }) => name.endsWith('drawer-4'));
    const words = drawer ? stepsOf(drawer.input).map(({ text }) => text) : [];
    const rabbet = words.findIndex((text) => text.startsWith('Cut the rabbet'));
    expect(words[rabbet]).toMatch(/3\/8 in wide all round, 1\/2 in deep/);
    const lies = words.filter((text) => /lies flat/.test(text));
    expect(lies).toHaveLength(1);
    expect(words.indexOf(lies[0] ?? '')).toBeGreaterThan(rabbet);
    expect(words.join(' ')).not.toMatch(/nearer|spacer .*thick|spacer that/);
  });

  test('one plate: fence and backings fill the room between both lines, and the second edge is turned', () => {
    const [sheet] = makeSheets(readText(onePlate));
    const [near, far] = sheet?.input.templates[0]?.plate.sides ?? [];
    if (!sheet || !near || !far) throw new Error('no plate with two edges');
    const { whole, fence = 0, backings = [] } = sharedFence(near, far);
    expect(whole).toBeCloseTo(far.turned?.y ?? 0, 9);
    expect(fence + backings.reduce((sum, one) => sum + one, 0)).toBeCloseTo(whole, 9);
    const turned = standsOf(sheet.input).map(({ board, halfTurned }) => [board, halfTurned]);
    expect(new Set(turned.map(String))).toEqual(new Set(['tails,false', 'pins,true']));
  });

  test('the scale is checked over lines that are on the plate', () => {
    for (const { input } of sheets) {
      for (const { plate, length } of scaleLengths(input)) {
        const template = input.templates.find((one) => one.plate.name === `finger-template-${plate}`);
        const scored = (template?.drawing.items ?? []).flatMap((item) => {
          if (item.layer !== 'SCORE' || item.kind !== 'open') return [];
          const { minX, maxX } = extents(item.path);
          return maxX - minX < 1e-9 ? [minX] : [];
        });
        expect(Math.max(...scored) - Math.min(...scored)).toBeCloseTo(length, 9);
      }
    }
  });

  /** A backing at least 1/4 in thicker than the work: common practice, no source. */
  test('the backing is at least a quarter inch thicker than the work', () => {
    for (const { input } of sheets) {
      for (const { plate } of input.templates) {
        for (const side of plate.sides) {
          const { backing } = benchOf(side);
          const board = input.solved.markings.find(({ board: name }) => side.cut.stock[0]?.board === name);
          if (!backing || !board) continue;
          expect(backing.to - backing.from).toBeGreaterThanOrEqual(
            board.material.thickness + BACKING_MORE - 1e-9,
          );
        }
      }
    }
  });

  test('a joint cut by hand has steps for saw and chisel, and no router', () => {
    const [hand] = makeSheets(
      readText(
        'units: mm\njoints:\n  lid:\n    kind: through-dovetail\n    width: 90\n    slope: 1:8\n    boards: { tails: { thickness: 12 }, pins: { thickness: 12 } }\n',
      ),
    );
    const words = hand
      ? stepsOf(hand.input)
          .map(({ text }) => text)
          .join(' ')
      : '';
    expect(words).toMatch(/saw/i);
    expect(words).not.toMatch(/router|bushing/i);
  });
});

describe('corrections', () => {
  test.each(sheets)('$name: the sentences of refit, each once', ({ input }) => {
    const rows = correctionTable(input).rows.map((row) => row.join(': '));
    expect(new Set(rows).size).toBe(rows.length);
    const codes = input.corrections.flatMap(({ diagnostics }) => diagnostics.map(({ code }) => code));
    expect(codes).toContain('refit-shim');
    expect(rows.length).toBeGreaterThanOrEqual(4);
  });

  /** geometry of the joints: a pair changes by 2k for each unit; k = tan 8° = 0.140541 (table of tangents). */
  test('half-blind: the move in thousandths', () => {
    const half = sheets.find(({ name }) => name.includes('drawer-2'));
    const rows = half ? correctionTable(half.input).rows : [];
    // 0.004 in / (2 tan 8°) = 0.014 in.
    expect(rows[0]?.[1]).toContain(fitToSet((0.004 / (2 * 0.140541)) * 25.4, 'in'));
  });
});

describe('the page for a browser', () => {
  test.each(sheets)(
    '$name: needs no other file and no script, says what the steps say',
    ({ document, input }) => {
      const html = sheetHtml(
        document,
        ({ title }) => `<?xml version="1.0"?>\n<svg id="a" width="1mm"><title>${title}</title></svg>\n`,
      );
      expect(html).not.toMatch(/<script|<link|src=|url\(|https?:/);
      expect(html).not.toMatch(/ id="a"|<\?xml/);
      expect(html.match(/<svg /g)).toHaveLength(html.match(/role="img"/g)?.length ?? 0);
      for (const { text } of stepsOf(input)) {
        expect(html).toContain(text.replaceAll('&', '&amp;').replaceAll('"', '&quot;'));
      }
      for (const key of input.measures) expect(html).toContain(`${key} =`);
      expect(input.measures).toContain('gap');
    },
  );
});

describe('the sheet of boards that meet along a line', () => {
  const [edging] = makeSheets(readSample('edge-drawer-edging.yaml'));
  if (!edging) throw new Error('the drawer edging has no sheet');
  const steps = stepsOf(edging.input);
  const words = steps.map(({ text }) => text);

  test('lays board one face up and board two face down, both against the left stop', () => {
    const cards = benchPage(edging.input).settings.flatMap((one) => one.cards);
    expect(cards.map(({ title, lines }) => [title, ...lines]).toSorted()).toEqual([
      [
        'Board one',
        'Outside face up',
        'Straight edge toward you',
        'Reference edge at the left stop, plate one',
      ],
      [
        'Board two',
        'Inside face up',
        'Straight edge toward you',
        'Reference edge at the left stop, plate two',
      ],
    ]);
    expect(words.filter((text) => /^Lay board one .*outside face up/.test(text))).toHaveLength(1);
    expect(
      words.filter((text) => /^Lay board two .*outside face down.*page of a book/.test(text)),
    ).toHaveLength(1);
  });

  test('speaks of no corners, ends or lap', () => {
    const all = sheetHtml(edging.document, () => '').replaceAll(/<style>.*?<\/style>/gs, '');
    expect(all).not.toMatch(/corner|\blap\b|both ends|fence line|backing/i);
    expect(all).toMatch(/board that may be cut into/);
  });

  test('unplugs first, says eyes, ears and dust, and lets the bit stop', () => {
    const first = steps.findIndex(({ text }) => text.includes(' Put in the '));
    expect(words[first]).toMatch(new RegExp(`^${cautions.unplug.text}`));
    const said = steps.map(({ caution }) => caution ?? '').join(' ');
    for (const key of ['eyes', 'noise', 'dust', 'secure', 'start', 'laser', 'cnc'] as const)
      expect(said).toContain(cautions[key].text);
  });

  test('sets the bit through the board, and asks for what refit takes', () => {
    const { fmt, shop, solved, measures } = edging.input;
    const [cut] = solved.cuts;
    expect(
      words.some((text) =>
        text.includes(`${fmt.length(bitExtension(shop, cut?.depth ?? 0))} below the base`),
      ),
    ).toBe(true);
    expect(measures).toEqual(['mismatch', 'bit', 'bushing']);
  });

  test('by hand needs no router', () => {
    const text = `units: mm
joints:
  edging:
    kind: edge
    width: 100
    boards: { one: { thickness: 15 }, two: { thickness: 15 } }
    line: { d: M 0 0 C 20 0 30 22 50 22 S 80 0 100 0, unit: mm }
`;
    const [sheet] = makeSheets(readText(text));
    if (!sheet) throw new Error('refused');
    const all = stepsOf(sheet.input).map(({ text: one }) => one);
    expect(all.join(' ')).not.toMatch(/router|bushing|plate/i);
    expect(all.some((one) => /crossed/.test(one))).toBe(true);
  });
});
