import { render } from 'preact';
import { families } from '../joints/list.js';
import { App } from './app.js';
import { servedJob } from './served.js';
import { begin, update } from './state.js';
import { serveWorkshop } from './workshop.js';

/** The page and, without a document to draw in, the page's worker. */
if (typeof document === 'undefined') serveWorkshop();
else void start(document.currentScript?.textContent ?? undefined);

async function start(source: string | undefined): Promise<void> {
  const served = await servedJob();
  const room = document.getElementById('board');
  if (!room) throw new Error('the page has no room for the board');
  room.replaceChildren();
  const inFile = 'texts' in served;
  const texts = inFile ? served.texts : { name: 'job.yaml', text: families[0]?.starter ?? '', others: {} };
  const problem = 'problem' in served ? served.problem : undefined;
  const first = begin(texts, inFile);
  render(
    <App
      first={problem === undefined ? first : update(first, { do: 'say', notice: problem })}
      source={source}
      served={served.by === 'command'}
    />,
    room,
  );
}
