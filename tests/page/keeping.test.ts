import { copyFileSync, existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type BoardServer, serveBoard } from '../../cli/serve.js';
import { families } from '../../src/joints/list.js';
import { root } from '../support/jobs.js';
import { browserAt, edge, jobText, launch, open, pick } from './browser.js';
import { type BuiltPage, builtPage } from './built-page.js';

/** What the page must not lose, and must not claim; and that one part that fails leaves the others alive. */

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

  const standing = (page: Page, name: string) => page.waitForSelector(`.save-state[data-standing=${name}]`);
  const save = (page: Page) => page.getByRole('button', { name: 'save', exact: true }).click();
  const startNew = (page: Page, kind: string) => page.getByLabel('Start a new job').selectOption(kind);
  const tray = () => join(built.folder, 'small-tray.yaml');
  const serveTray = async (): Promise<BoardServer> => {
    copyFileSync(join(root, 'samples/small-tray.yaml'), tray());
    copyFileSync(join(root, 'samples/shop.yaml'), join(built.folder, 'shop.yaml'));
    rmSync(join(built.folder, 'box.yaml'), { force: true });
    return serveBoard({ job: tray(), page: built.file, port: 0 });
  };

  describe('served by the command', () => {
    test('says that nothing is saved once the server is gone, and nowhere that it is', async () => {
      const server = await serveTray();
      const { page, close } = await open(browser, server.address);
      const width = page.getByLabel('width', { exact: true }).first();
      await standing(page, 'saved');
      await width.fill('5-1/4');
      await standing(page, 'unsaved');
      await save(page);
      await standing(page, 'saved');
      const onDisk = readFileSync(tray(), 'utf8');
      server.close();
      await width.fill('5-3/8');
      await standing(page, 'unsaved');
      expect(await page.getByText(/\bsaved in\b|is saved/).count()).toBe(0);
      await save(page);
      await standing(page, 'no-answer');
      expect(await page.getByText(/\bsaved in\b|is saved/).count()).toBe(0);
      expect(readFileSync(tray(), 'utf8')).toBe(onDisk);
      const [download] = await Promise.all([
        page.waitForEvent('download'),
        page.getByRole('button', { name: 'download small-tray.yaml' }).click(),
      ]);
      expect(readFileSync(await download.path(), 'utf8')).toContain('width: 5-3/8');
      await standing(page, 'downloaded');
      await close();
    });

    test('saves another job into a file of its own, and never over one that it has not read', async () => {
      const server = await serveTray();
      const first = readFileSync(tray(), 'utf8');
      const { page, close } = await open(browser, server.address);
      const starter = families.find(({ kind }) => kind === 'box')?.starter ?? '';
      await startNew(page, 'box');
      await standing(page, 'new');
      await save(page);
      await standing(page, 'saved');
      const box = join(built.folder, 'box.yaml');
      expect(readFileSync(box, 'utf8')).toBe(starter);
      expect(readFileSync(tray(), 'utf8')).toBe(first);
      writeFileSync(join(built.folder, 'edge.yaml'), 'title: another’s\n');
      await startNew(page, 'edge');
      await save(page);
      await standing(page, 'changed-elsewhere');
      expect(readFileSync(join(built.folder, 'edge.yaml'), 'utf8')).toBe('title: another’s\n');
      await page.getByRole('button', { name: 'save under another name' }).click();
      await standing(page, 'saved');
      expect(existsSync(join(built.folder, 'edge-2.yaml'))).toBe(true);
      expect(readFileSync(join(built.folder, 'edge.yaml'), 'utf8')).toBe('title: another’s\n');
      await close();
      server.close();
    });

    test('sends saves one after the other: pressed twice in one breath, none stands against the other', async () => {
      const server = await serveTray();
      const { page, close } = await open(browser, server.address);
      const width = page.getByLabel('width', { exact: true }).first();
      for (const to of ['5-1/4', '5-3/8', '5-1/8']) {
        await width.fill(to);
        await page.evaluate(`(() => {
          const button = [...document.querySelectorAll('button')].find((one) => one.textContent.trim() === 'save');
          button.click();
          button.click();
          button.click();
        })()`);
      }
      await standing(page, 'saved');
      await page.waitForTimeout(200);
      await standing(page, 'saved');
      expect(readFileSync(tray(), 'utf8')).toContain('width: 5-1/8');
      await close();
      server.close();
    });

    test('opens what another program wrote, and undo brings one’s own back', async () => {
      const server = await serveTray();
      const { page, close } = await open(browser, server.address);
      await page.getByLabel('width', { exact: true }).first().fill('5-1/4');
      const own = await jobText(page);
      const theirs = own.replace('width: 5-1/4', 'width: 6');
      writeFileSync(tray(), theirs);
      await save(page);
      await standing(page, 'changed-elsewhere');
      await page.getByRole('button', { name: 'open it' }).click();
      await standing(page, 'saved');
      expect(await jobText(page)).toBe(theirs);
      await page.getByRole('button', { name: 'undo' }).click();
      expect(await jobText(page)).toBe(own);
      await close();
      server.close();
    });
  });

  test('keeps unsaved work when a new job is begun or a file is opened: undo brings it back', async () => {
    const { page, close } = await open(browser, address);
    await page.getByLabel('width', { exact: true }).first().fill('4-1/8');
    const own = await jobText(page);
    await startNew(page, 'box');
    expect(await jobText(page)).toContain('kind: box');
    await page.getByRole('button', { name: 'undo' }).click();
    expect(await jobText(page)).toBe(own);
    await pick(page, 'slide-box.yaml');
    expect(await page.title()).toContain('•'); // what lies aside is still at risk
    await page.getByRole('button', { name: 'undo' }).click();
    expect(await jobText(page)).toBe(own);
    await standing(page, 'unsaved');
    await close();
  });

  test('keeps the plates of the joint on the bench when its tab is clicked again', async () => {
    const { page, close } = await open(browser, address);
    await pick(page, 'cabinet.yaml');
    const tab = page.getByRole('button', { name: 'case-corner', exact: true });
    await page.waitForSelector('.plate .sheet');
    await page.waitForSelector('.section');
    await tab.click();
    await page.waitForTimeout(400);
    expect(await page.locator('.plate .sheet').count()).toBeGreaterThan(0);
    expect(await page.locator('.section').count()).toBe(1);
    await page.getByRole('button', { name: 'seed-tray', exact: true }).click();
    await tab.click();
    await page.waitForSelector('.plate .sheet');
    await close();
  });

  test('goes on with the other joints when one is bad, and the bad one’s tab says so', async () => {
    const { page, close } = await open(browser, address);
    await pick(page, 'cabinet.yaml');
    const good = await jobText(page);
    const box = page.getByLabel('The job as text');
    // One that cannot be read, and one that can and has no layout.
    await box.fill(
      good.replace('width: 2-1/2', 'width: nine').replace('pitch: 1-1/4, pin: 9/16', 'pitch: 1/8'),
    );
    await page.waitForSelector('.plate .sheet');
    await page.waitForSelector('.section');
    expect(await page.locator('.said-refused').count()).toBe(0);
    await page.locator('.joints .refused', { hasText: 'drawer-1' }).waitFor();
    const refused = await page.locator('.joints .refused').allTextContents();
    expect(refused.map((one) => one.split(' ')[0])).toContain('seed-tray');
    expect(refused.map((one) => one.split(' ')[0])).not.toContain('case-corner');
    await page.locator('.joints .refused', { hasText: 'seed-tray' }).click();
    expect(await page.locator('[data-code=length-unclear]').count()).toBe(1);
    await page.getByRole('button', { name: 'drawer-back', exact: true }).click();
    await page.waitForSelector('.plate .sheet');
    await box.fill(good);
    await page.locator('.joints .refused').first().waitFor({ state: 'detached' });
    await close();
  });

  const workers = [
    { name: 'has none', script: 'delete globalThis.Worker' },
    { name: 'refuses one', script: 'globalThis.Worker = class { constructor() { throw new Error("no") } }' },
    {
      name: 'loses one',
      script: `globalThis.Worker = class {
        constructor() { setTimeout(() => this.onerror(new Event('error', { cancelable: true })), 300) }
        postMessage() {}
        terminate() {}
      }`,
    },
    {
      name: 'has one that never answers',
      script: 'globalThis.Worker = class { postMessage() {} terminate() {} }',
    },
  ];

  test.each(workers)('makes plates and test cut itself where the browser $name', async ({ script }) => {
    const context = await browser.newContext();
    await context.addInitScript(script);
    const page = await context.newPage();
    await page.goto(address);
    await page.waitForSelector('.edge');
    await page.waitForSelector('.plate .sheet');
    await page.waitForSelector('.section');
    await page.getByRole('button', { name: 'draw the files' }).click();
    await page.waitForSelector('.file');
    await context.close();
  });

  describe('a grip', () => {
    const middleOf = async (page: Page, number: number) => {
      await page.evaluate('scrollTo(0, 0)');
      const box = await edge(page, number).boundingBox();
      if (!box) throw new Error('the edge has no place');
      return [box.x + box.width / 2, box.y + 40] as const;
    };

    test('that is touched, or taken along and back, leaves an even layout as it is', async () => {
      const { page, close } = await open(browser, address);
      const before = await jobText(page);
      const [x, y] = await middleOf(page, 1);
      for (const way of [[1], [-2, 1], [12, 26, 9, 0]]) {
        await page.mouse.move(x, y);
        await page.mouse.down();
        for (const by of way) await page.mouse.move(x + by, y);
        await page.mouse.up();
        expect(await jobText(page)).toBe(before);
      }
      expect(await page.getByRole('button', { name: 'undo' }).isDisabled()).toBe(true);
      const pin = page.getByLabel('pin 1', { exact: true });
      await pin.fill(await pin.inputValue());
      expect(await jobText(page)).toBe(before);
      await close();
    });

    test('lets the page scroll by a swipe up or down, and is dragged by one along the joint', async () => {
      const { page, close } = await open(browser, address, {
        viewport: { width: 390, height: 844 },
        hasTouch: true,
        isMobile: true,
      });
      const before = await jobText(page);
      const cdp = await page.context().newCDPSession(page);
      const swipe = async (dx: number, dy: number) => {
        const [x, y] = await middleOf(page, 1);
        const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', share: number) =>
          cdp.send('Input.dispatchTouchEvent', {
            type,
            touchPoints: type === 'touchEnd' ? [] : [{ x: x + dx * share, y: y + dy * share }],
          });
        await touch('touchStart', 0);
        for (let i = 1; i <= 10; i++) {
          await touch('touchMove', i / 10);
          await page.waitForTimeout(20);
        }
        await touch('touchEnd', 1);
        await page.waitForTimeout(300);
      };
      await swipe(9, -180);
      expect(await page.evaluate('scrollY')).toBeGreaterThan(60);
      expect(await jobText(page)).toBe(before);
      await swipe(25, -4);
      expect(await jobText(page)).toContain('spacing: list');
      await close();
    });
  });

  const wide = ['drying-bench', 'herbarium-press', 'shelf-case', 'edge-drawer-edging', 'cabinet'];
  test.each(wide)('shows %s no wider than a phone’s screen', async (sample) => {
    const { page, close } = await open(browser, address, { viewport: { width: 390, height: 844 } });
    await pick(page, `${sample}.yaml`);
    await page.getByText('Being worked out').first().waitFor({ state: 'detached' });
    for (const width of [390, 320]) {
      await page.setViewportSize({ width, height: 800 });
      expect(await page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(width);
    }
    await close();
  });
});
