import { readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { serveBoard } from '../../cli/serve.js';
import { families } from '../../src/joints/list.js';
import { formats } from '../../src/writers/list.js';
import { builtCommand } from '../cli/command.js';
import { root } from '../support/jobs.js';
import { browserAt, edge, jobText, launch, open } from './browser.js';
import { type BuiltPage, builtPage } from './built-page.js';

if (browserAt === undefined)
  console.log('No browser here: the page is not opened, dragged, typed into or judged.');

/** A CNC router of a workshop in inches. */
const cnc =
  '  cnc: { cutter: 1/8, rpm: 16000, feed: 40, plunge: 12, pass: 1/8, engraver: { tip: 0.3 mm, depth: 0.3 mm } }';

const axe = readFileSync(join(root, 'node_modules/axe-core/axe.min.js'), 'utf8');
const command = builtCommand();

describe.skipIf(browserAt === undefined)('the page', () => {
  let built: BuiltPage;
  let browser: Browser;
  let address: string;

  beforeAll(async () => {
    built = builtPage();
    browser = await launch({ solids: false });
    address = pathToFileURL(built.file).href;
  });
  afterAll(async () => {
    await browser?.close();
    built?.remove();
  });

  const standing = (page: Page) => page.locator('.save-state').getAttribute('data-standing');
  const spans = async (page: Page) =>
    (parse(await jobText(page)).joints.corner.layout.spans ?? []) as unknown[];

  test('is under 600 kB without the solid view, in one file that asks for nothing else', () => {
    const text = readFileSync(built.file, 'utf8');
    const solid = /id="packed-solid-view">([^<]*)</.exec(text)?.[1] ?? '';
    expect(solid.length).toBeGreaterThan(50_000);
    expect(statSync(built.file).size - solid.length).toBeLessThan(600_000);
    expect(text.match(/<(?:script|link|img|iframe)[^>]+(?:src|href)=(?!"data:,")/g)).toBeNull();
  });

  test('opens by itself from the disk, with a joint on the bench and nothing to complain of', async () => {
    const { page, complaints, close } = await open(browser, address);
    await page.waitForSelector('.plate .sheet');
    await page.waitForSelector('.section');
    expect(await page.locator('.board').count()).toBe(3);
    expect(await page.locator('.measure').first().textContent()).toContain('3 tails');
    expect(complaints).toEqual([]);
    await close();
  });

  test('an edge that is dragged moves, rests on the rule, and is undone and done again', async () => {
    const { page, close } = await open(browser, address);
    const before = await jobText(page);
    await page.evaluate('scrollTo(0, 0)');
    const box = await edge(page, 1).boundingBox();
    if (!box) throw new Error('the edge has no place');
    const [x, y] = [box.x + box.width / 2, box.y + 40];
    await page.mouse.move(x, y);
    await page.mouse.down();
    for (const by of [5, 12, 20, 26]) await page.mouse.move(x + by, y);
    await page.mouse.up();
    const moved = await spans(page);
    expect(moved).toHaveLength(7);
    expect(moved[0]).not.toBe('5/16');
    expect(String(moved[0])).toMatch(/^\d+\/(2|4|8|16|32)$/); // on a thirty-second of an inch
    expect(moved[6]).toEqual(moved[0]); // both halves alike
    const after = await jobText(page);
    expect(after).toContain('# across the boards, along the joint');
    await page.keyboard.press('Control+z');
    expect(await jobText(page)).toBe(before);
    await page.keyboard.press('Control+Shift+z');
    expect(await jobText(page)).toBe(after);
    await close();
  });

  test('the keyboard alone moves an edge, and stops at what the bit can cut with the reason', async () => {
    const { page, close } = await open(browser, address);
    await edge(page, 2).focus();
    for (let i = 0; i < 3; i++) await page.keyboard.press('ArrowRight');
    // Pins are already as narrow as their bit, so the edge rests there at once.
    expect(await page.locator('.tag i').textContent()).toContain('half-8');
    for (let i = 0; i < 5; i++) await page.keyboard.press('ArrowLeft');
    expect(await page.locator('.tag i').count()).toBe(0);
    for (let i = 0; i < 40; i++) await page.keyboard.press('ArrowLeft');
    const tag = page.locator('.tag i');
    expect(await tag.textContent()).toContain('straight-38');
    expect(await page.locator('.said-refused').count()).toBe(0);
    expect(await edge(page, 2).getAttribute('aria-valuetext')).toMatch(/tail 1 3\/8 in/);
    expect(await spans(page)).toHaveLength(7);
    await close();
  });

  test('a number is typed in any unit, and what cannot be read is said beside it', async () => {
    const { page, close } = await open(browser, address);
    const width = page.getByLabel('width', { exact: true }).first();
    await width.fill('95 mm');
    expect(await page.locator('.measure').first().textContent()).toContain('95 mm');
    await width.fill('3-7-8');
    const row = page.locator('.row', { has: width });
    expect(await row.locator('.said-refused').textContent()).toContain('more than one dash');
    expect(await width.getAttribute('aria-invalid')).toBe('true');
    await row.getByRole('button', { name: 'write 3-7/8 in' }).click();
    expect(await page.locator('.measure').first().textContent()).toContain('3-7/8 in');
    const pin = page.getByLabel('pin 1', { exact: true });
    await pin.fill('14 mm');
    await pin.blur();
    expect(await page.getByLabel('pin 2', { exact: true }).inputValue()).toBe(await pin.inputValue());
    expect(Number(await pin.inputValue()) * 25.4).toBeCloseTo(14, 3);
    await close();
  });

  test('a refusal stands on the bench with its cures as buttons, and a button cures it', async () => {
    const { page, close } = await open(browser, address);
    const tails = page.getByLabel('tails', { exact: true });
    await tails.fill('9');
    const refused = page.locator('.said-refused').first();
    expect(await refused.textContent()).toContain('would do');
    expect(await page.locator('section.joint.stale').count()).toBe(1);
    await refused.getByRole('button', { name: /tails$/ }).click();
    expect(await page.locator('.said-refused').count()).toBe(0);
    expect(await page.locator('section.joint.stale').count()).toBe(0);
    await close();
  });

  test('a bushing pushed along an opening takes wood and never goes through a finger', async () => {
    const { page, close } = await open(browser, address);
    await page.waitForSelector('.router');
    const router = page.locator('.router').first();
    await router.focus();
    for (let i = 0; i < 12; i++) await page.keyboard.press('Shift+ArrowUp');
    const at = async () => (await router.getAttribute('transform')) ?? '';
    expect(await page.locator('.taken').count()).toBe(1);
    const inside = await at();
    for (let i = 0; i < 30; i++) await page.keyboard.press('Shift+ArrowRight');
    const [, x = '', y = ''] = /translate\((\S+) (\S+)\)/.exec(await at()) ?? [];
    expect(inside).not.toBe('');
    // It stays in the first opening: half a pin wide, and what the board's edge leaves free.
    expect(Number(x)).toBeLessThan(12);
    expect(Number(y)).toBeGreaterThan(-30);
    await close();
  });

  test('every file is byte for byte what the command writes', async () => {
    const { page, close } = await open(browser, address);
    // With a machine, so that there are programs for it too.
    const job = (families[0]?.starter ?? '').replace('  printer:', `${cnc}\n  printer:`);
    await page.getByText('The job as text').click();
    await page.getByLabel('The job as text').fill(job);
    await page.getByLabel('The job as text').blur();
    const file = join(built.folder, 'job.yaml');
    writeFileSync(file, job);
    const out = join(built.folder, 'made');
    const ended = await command.run(['make', file, '-o', out, '--as', formats.join(',')]);
    expect(ended.status).toBe(0);
    await page.getByRole('button', { name: 'draw the files' }).click();
    await page.waitForSelector('.file');
    const names = await page.locator('.file').allTextContents();
    const made = readdirSync(out, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile() && entry.name !== 'manifest.json')
      .map((entry) => `corner/${entry.name}`);
    expect([...names].sort()).toEqual(made.sort());
    expect(names.filter((name) => name.includes('set-up')).length).toBeGreaterThan(0);
    const kinds = new Set(names.map((name) => name.split('.').at(-1)));
    for (const kind of ['svg', 'dxf', 'pdf', 'ngc', 'json']) expect(kinds).toContain(kind);
    for (const name of names) {
      await page.waitForTimeout(110); // Chromium drops more than ten downloads in one breath
      const [download] = await Promise.all([
        page.waitForEvent('download'),
        page.getByRole('button', { name, exact: true }).click(),
      ]);
      const got = readFileSync(await download.path());
      expect(got.equals(readFileSync(join(out, name))), name).toBe(true);
    }
    await close();
  });

  test('a job and the shop that it names are opened together', async () => {
    const { page, close } = await open(browser, address);
    const picker = page.locator('input[type=file]');
    await picker.setInputFiles([join(root, 'samples/slide-box.yaml'), join(root, 'samples/shop.yaml')]);
    await page.getByRole('heading', { name: 'Specimen cabinet' }).waitFor();
    expect(await page.locator('.measure').first().textContent()).toContain('fingers');
    await picker.setInputFiles([join(root, 'samples/case-corner.yaml')]);
    expect(await page.locator('.said-refused').first().textContent()).toContain('shop.yaml');
    await picker.setInputFiles([join(root, 'samples/shop.yaml')]);
    await page.waitForSelector('.edge');
    expect(await page.locator('.said-refused').count()).toBe(0);
    await close();
  });

  test('served by the command it has the job and its shop at hand, and saves into the file on request only', async () => {
    const job = join(built.folder, 'slide-box.yaml');
    const before = readFileSync(join(root, 'samples/slide-box.yaml'), 'utf8');
    writeFileSync(job, before);
    writeFileSync(join(built.folder, 'shop.yaml'), readFileSync(join(root, 'samples/shop.yaml')));
    const server = await serveBoard({ job, page: built.file, port: 0 });
    const { page, complaints, close } = await open(browser, server.address);
    await page.waitForSelector('.edge');
    const width = page.getByLabel('width', { exact: true }).first();
    await width.fill('80');
    await page.waitForTimeout(300);
    expect(readFileSync(job, 'utf8')).toBe(before);
    expect(await standing(page)).toBe('unsaved');
    await page.getByRole('button', { name: 'save', exact: true }).click();
    await page.waitForSelector('[data-standing=saved]');
    expect(readFileSync(job, 'utf8')).toBe(before.replace('width: 76', 'width: 80'));
    writeFileSync(job, before);
    await width.fill('81');
    await page.getByRole('button', { name: 'save', exact: true }).click();
    await page.waitForSelector('[data-standing=changed-elsewhere]');
    expect(readFileSync(job, 'utf8')).toBe(before);
    await page.getByRole('button', { name: 'overwrite it' }).click();
    await page.waitForSelector('[data-standing=saved]');
    expect(readFileSync(job, 'utf8')).toBe(before.replace('width: 76', 'width: 81'));
    expect(complaints.filter((one) => !one.includes('404') && !one.includes('409'))).toEqual([]);
    await close();
    server.close();
  });

  test('the solid view is unpacked when it is asked for and drawn apart by a slider', async () => {
    const drawing = await launch();
    const { page, complaints, close } = await open(drawing, address);
    await page.waitForSelector('.section');
    expect(await page.evaluate('typeof halfpinSolidView')).toBe('undefined');
    await page.getByRole('button', { name: 'turn both boards in the hand' }).click();
    await page.waitForSelector('.room canvas');
    await page.waitForTimeout(1500);
    const shot = () => page.locator('.room').screenshot();
    const closed = await shot();
    await page.getByLabel('drawn apart').fill('100');
    expect((await shot()).equals(closed)).toBe(false);
    expect(complaints).toEqual([]);
    await close();
    await drawing.close();
  });

  const sizes = [
    { name: 'a phone', viewport: { width: 390, height: 844 }, colorScheme: 'light' as const },
    { name: 'a phone at night', viewport: { width: 390, height: 844 }, colorScheme: 'dark' as const },
    { name: 'a tablet', viewport: { width: 820, height: 1180 }, colorScheme: 'dark' as const },
    { name: 'a desk', viewport: { width: 1280, height: 900 }, colorScheme: 'light' as const },
  ];

  test.each(sizes)('on $name it fits, and axe finds nothing serious', async ({ viewport, colorScheme }) => {
    const { page, close } = await open(browser, address, { viewport, colorScheme, bypassCSP: true });
    await page.waitForSelector('.section');
    await page.getByLabel('tails', { exact: true }).fill('9'); // with a refusal in sight
    await page.waitForTimeout(700);
    expect(await page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(viewport.width);
    await page.addScriptTag({ content: axe });
    const { violations } = (await page.evaluate('axe.run(document)')) as {
      violations: readonly { id: string; impact: string; nodes: readonly { html: string }[] }[];
    };
    const serious = violations.filter(({ impact }) => impact === 'serious' || impact === 'critical');
    expect(
      serious.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html.slice(0, 160)).join(' ')}`),
    ).toEqual([]);
    await close();
  });

  test('it prints: boards and plates stand on the paper, buttons do not', async () => {
    const { page, close } = await open(browser, address);
    await page.waitForSelector('.section');
    await page.emulateMedia({ media: 'print' });
    expect(await page.locator('.board').first().isVisible()).toBe(true);
    expect(await page.locator('.plate .sheet').first().isVisible()).toBe(true);
    expect(await page.getByRole('button').count()).toBe(0);
    const pdf = await page.pdf({ format: 'Letter' });
    expect(pdf.length).toBeGreaterThan(20_000);
    await close();
  });
});
