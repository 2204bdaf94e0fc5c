import { render } from 'preact';
import { families } from '../joints/list.js';
import { App } from './app.js';
import type { Texts } from './model.js';
import { servedTexts } from './served.js';
import { begin } from './state.js';
import { serveWorkshop } from './workshop.js';

/** The page and, without a document to draw in, the page's worker. */
if (typeof document === 'undefined') serveWorkshop();
else void start(document.currentScript?.textContent ?? undefined);

async function start(source: string | undefined): Promise<void> {
  const served = await servedTexts();
  const texts: Texts = served ?? { name: 'job.yaml', text: families[0]?.starter ?? '', others: {} };
  const room = document.getElementById('board');
  if (!room) throw new Error('the page has no room for the board');
  room.replaceChildren();
  render(<App first={begin(texts)} source={source} served={served !== undefined} />, room);
}
