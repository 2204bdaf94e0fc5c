import { describe, expect, test } from 'vitest';
import { cautions } from '../../shared/cautions.js';
import { sentence } from '../../src/findings/catalogue.js';
import { bitExtension } from '../../src/joints/tools.js';
import { fitModelOf } from '../../src/refit/model.js';
import { BACKING_MORE, benchOf } from '../../src/sheet/bench.js';
import { correctionTable, feeler, moveFor } from '../../src/sheet/corrections.js';
import { sheetHtml } from '../../src/sheet/html.js';
import { setUpCodes, stepsOf } from '../../src/sheet/steps.js';
import { readSample, readText } from '../support/jobs.js';
import { makeSheets } from './sheets.js';

const sheets = ['cabinet.yaml', 'small-tray.yaml', 'slide-box.yaml'].flatMap((name) =>
  makeSheets(readSample(name)).map((one) => ({ ...one, name: `${name}: ${one.name}` })),
);

describe('steps', () => {
  test.each(sheets)('$name: every move that the set-up needs is a step', ({ input }) => {
    const steps = stepsOf(input);
    const words = steps.map(({ text }) => text.toLowerCase());
    for (const one of input.findings.filter(({ code }) => setUpCodes.includes(code))) {
      expect(words).toContain(`${sentence(one, input.say)}.`.toLowerCase());
    }
    for (const cut of input.solved.cuts) {
      const extension = input.say.length(bitExtension(input.shop, cut.depth));
      expect(words.some((text) => text.includes(`${extension} below the base`))).toBe(true);
    }
    expect(words[0]).toMatch(/^cut the parts/);
    expect(words.at(-1)).toMatch(/^glue up/);
  });

  test.each(sheets)(
    '$name: the router is unplugged before a tool is touched; eyes, ears, dust are said',
    ({ input }) => {
      const steps = stepsOf(input);
      const first = steps.findIndex(({ text }) => text.includes(' in bushing '));
      expect(steps[first]?.text).toMatch(new RegExp(`^${cautions.unplug.text}`));
      const said = steps.map(({ caution }) => caution ?? '').join(' ');
      for (const key of ['eyes', 'noise', 'dust', 'secure', 'laser', 'cnc'] as const)
        expect(said).toContain(cautions[key].text);
      const cutFirst = steps.findIndex(({ text }) => /^Cut one end/.test(text));
      expect(cutFirst).toBeGreaterThan(first);
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
    expect(at).toBeLessThan(words.findIndex((text) => text.includes(' in bushing ')));
    // The board of 640 mm with a margin of 45 mm at both ends.
    expect(words[at]).toContain('(tails, pins) face up on a flat surface, from the left 1, 2,');
    expect(words[at]).toContain('Check 730 mm');
    expect(words[at]).toMatch(/glue.*tape.*No step may be felt/);
    for (const { input } of sheets)
      expect(stepsOf(input).some(({ text }) => text.startsWith('Join the parts'))).toBe(false);
  });

  test('two lipped drawers say so, with the second end of an uneven tray', () => {
    const texts = (name: string) =>
      sheets.filter((one) => one.name.includes(name)).flatMap(({ input }) => stepsOf(input));
    const lipped = texts('drawer-4').map(({ text }) => text);
    const spacer = lipped.findIndex((text) => /spacer/.test(text));
    expect(spacer).toBeGreaterThan(0);
    expect(lipped.findIndex((text) => /trial piece for the pin board/.test(text))).toBeGreaterThan(spacer);
    expect(texts('small-tray').some(({ text }) => /not its own mirror image/.test(text))).toBe(true);
  });

  /** A backing at least 1/4 in thicker than the work: common practice, no source. */
  test('the backing is at least a quarter inch thicker than the work', () => {
    for (const { input } of sheets) {
      for (const { plate } of input.templates) {
        for (const side of plate.sides) {
          const { backing } = benchOf(side, input.joint.kind);
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
  /** geometry of the joints: a pair changes by 2k for each unit; k = tan 8° = 0.140541 (table of tangents). */
  test('a gap of 0.1 mm at 8 degrees asks for 0.356 mm', () => {
    expect(moveFor(0.1, (8 * Math.PI) / 180)).toBeCloseTo(0.1 / (2 * 0.140541), 4);
  });

  test('through: the pin template back when loose, forward when tight', () => {
    const through = sheets.find(({ name }) => name.includes('case-corner'));
    const rows = through ? correctionTable(through.input).rows.flat().join('\n') : '';
    expect(rows).toMatch(/back \(away from you\) with the pin template; tight: forward/);
  });

  test('half-blind: deeper is tighter', () => {
    const half = sheets.find(({ name }) => name.includes('drawer-2'));
    const rows = half ? correctionTable(half.input).rows : [];
    expect(rows[0]?.[1]).toMatch(/deeper is tighter; tight: shallower/);
    // 0.004 in / (2 tan 8°) = 0.014 in.
    expect(rows[0]?.[1]).toContain(feeler(0.014 * 25.4, 'in').slice(0, 8));
  });

  /** The same rule as `refit` has: a plate moved back by 1 mm takes 1 mm off what is proud, 2 mm where both are cut at once. */
  test('half-blind: a side that stands proud moves the plate back', () => {
    const half = sheets.find(({ name }) => name.includes('drawer-2'));
    const model = half && fitModelOf(half.input.joint, half.input.solved);
    expect(model?.ok && model.value.faces.side?.perMm).toBe(-1);
    const rows = half ? correctionTable(half.input).rows.flat().join('\n') : '';
    expect(rows).toMatch(/move the sockets plate back \(away from you\) by what is proud/);
  });

  test('box: only a new plate', () => {
    const box = sheets.find(({ name }) => name.includes('slide-box'));
    const rows = box ? correctionTable(box.input).rows.flat().join('\n') : '';
    expect(rows).toMatch(/cut a new plate/);
    expect(rows).not.toMatch(/deeper is tighter|pin template/);
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
    const table = edging.document.blocks.find(
      (one) => one.kind === 'table' && one.columns[1]?.title === 'Face',
    );
    expect(table?.kind === 'table' && table.rows).toEqual([
      ['board one', 'outside face up', 'toward you', 'left stop', 'one'],
      ['board two', 'outside face down', 'toward you', 'left stop', 'two'],
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
    const first = steps.findIndex(({ text }) => text.includes(' in bushing '));
    expect(words[first]).toMatch(new RegExp(`^${cautions.unplug.text}`));
    const said = steps.map(({ caution }) => caution ?? '').join(' ');
    for (const key of ['eyes', 'noise', 'dust', 'secure', 'start', 'laser', 'cnc'] as const)
      expect(said).toContain(cautions[key].text);
  });

  test('sets the bit through the board, and asks for what refit takes', () => {
    const { say, shop, solved, measures } = edging.input;
    const [cut] = solved.cuts;
    expect(
      words.some((text) =>
        text.includes(`${say.length(bitExtension(shop, cut?.depth ?? 0))} below the base`),
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
