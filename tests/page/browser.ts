import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { type Browser, type BrowserContextOptions, chromium, type Page } from 'playwright-core';
import { root } from '../support/jobs.js';

/** A browser for the page's tests: Debian's Chromium, or the one that CHROME names. */
const places = [
  process.env.CHROME,
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
];

export const browserAt: string | undefined = places.find((place) => place !== undefined && existsSync(place));

/** Headless and quiet. */
const quiet = [
  '--no-sandbox',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

/** Solids drawn where there is no graphics card: slow, and slowing the rest of the page. */
const softGraphics = ['--use-angle=swiftshader', '--enable-unsafe-swiftshader'];

export function launch({ solids = true } = {}): Promise<Browser> {
  if (browserAt === undefined) throw new Error('there is no browser');
  return chromium.launch({
    executablePath: browserAt,
    args: [...quiet, ...(solids ? softGraphics : ['--disable-gpu'])],
  });
}

export interface Opened {
  readonly page: Page;
  /** What the page complained of: errors, and what its own policy kept it from. */
  readonly complaints: readonly string[];
  readonly close: () => Promise<void>;
}

/** Opens an address and waits until the joint lies on the bench. */
export async function open(
  browser: Browser,
  address: string,
  options: BrowserContextOptions = {},
): Promise<Opened> {
  const context = await browser.newContext({
    viewport: { width: 1280, height: 900 },
    acceptDownloads: true,
    ...options,
  });
  const page = await context.newPage();
  const complaints: string[] = [];
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
  await page.goto(address);
  await page.waitForSelector('.edge, .said');
  return { page, complaints, close: () => context.close() };
}

/** The job's text as the page has it. */
export async function jobText(page: Page): Promise<string> {
  const box = page.getByLabel('The job as text');
  if (!(await box.isVisible())) await page.getByText('The job as text').click();
  return box.inputValue();
}

/** The grip of the edge that ends span `number`, counted from 1. */
export function edge(page: Page, number: number) {
  return page.getByRole('slider', { name: /^Edge between/ }).nth(number - 1);
}

/** Opens a sample with the shop file that lies beside it. */
export async function pick(page: Page, sample: string): Promise<void> {
  const at = (name: string) => join(root, 'samples', name);
  const files = [at(sample), at('shop.yaml'), at('edge-shell-edging.svg')];
  await page.locator('input[type=file]').setInputFiles(files);
  await page
    .locator('.save-state')
    .getByText(sample)
    .or(page.getByText(`${sample} is on the bench`))
    .first()
    .waitFor();
}
