import { pathToFileURL } from 'node:url';
import { browserAt, launch, open } from '../page/browser.js';
import { median, row } from './measure.js';

/** Fifteen tails across 24 in: the joint that the page has to keep up with. */
const chest = `title: Wide chest
units: in
shop:
  bits:
    half-8: { kind: dovetail, diameter: 1/2, angle: 8, height: 13/16, shank: 1/4 }
    straight-38: { kind: straight, diameter: 3/8, height: 1-1/4, shank: 1/4 }
  bushings:
    seven-sixteenths: { outside: 7/16, bore: 13/32, barrel: 5/32 }
  plate: { material: plywood, thickness: 1/2, least-finger: 3/16 }
joints:
  corner:
    kind: through-dovetail
    width: 24
    boards: { tails: { thickness: 1/2 }, pins: { thickness: 1/2 } }
    layout: { spacing: even, tails: 15 }
    cutters: { tails: half-8, pins: straight-38 }
    bushing: seven-sixteenths
    fit: { slack: 0.004 }
`;

const PRESSES = 60;

/** From an arrow key to the joint redrawn, in the browser, while templates and test cut are worked on beside it. */
export async function boardKeys(root: string): Promise<void> {
  console.log('Page: key press to redrawn joint, 24 in, 15 tails');
  if (browserAt === undefined) {
    console.log('  no browser here: left out');
    return;
  }
  const browser = await launch({ solids: false });
  const { page, close } = await open(browser, pathToFileURL(`${root}/dist/board.html`).href, {
    viewport: { width: 1360, height: 900 },
  });
  await page.setInputFiles('input[type=file]', {
    name: 'chest.yaml',
    mimeType: 'text/yaml',
    buffer: Buffer.from(chest),
  });
  await page.locator('.edge').nth(29).waitFor();
  await page.waitForTimeout(1500);
  const times = (await page.evaluate(inPage)) as readonly {
    readonly drawn: number;
    readonly shown: number;
  }[];
  const counted = times.slice(PRESSES / 6);
  row('until the drawing is changed', median(counted.map(({ drawn }) => drawn)), 'ms', 'aim: under 16');
  row(
    'until the next picture is on the screen',
    median(counted.map(({ shown }) => shown)),
    'ms',
    'aim: under 16',
  );
  row('slowest picture', Math.max(...counted.map(({ shown }) => shown)), 'ms');
  console.log();
  await close();
  await browser.close();
}

/** Runs in the page. The picture after a change is on the screen when the frame after it begins. */
const inPage = `(async () => {
  const edge = document.querySelectorAll('.edge')[9];
  edge.focus();
  const times = [];
  for (let i = 0; i < ${PRESSES}; i++) {
    await new Promise((done) => setTimeout(done, 60));
    const board = document.querySelector('.board .scribed');
    const start = performance.now();
    let drawn = 0;
    const observer = new MutationObserver(() => { drawn ||= performance.now() - start; });
    observer.observe(board, { attributes: true });
    edge.dispatchEvent(new KeyboardEvent('keydown', { key: i % 8 < 4 ? 'ArrowLeft' : 'ArrowRight', bubbles: true, cancelable: true }));
    await new Promise((done) => requestAnimationFrame(() => { const c = new MessageChannel(); c.port1.onmessage = done; c.port2.postMessage(0); }));
    times.push({ drawn, shown: performance.now() - start });
    observer.disconnect();
  }
  return times;
})()`;
