import type { Texts } from './model.js';
import { type Answer, answer, type Question, type Worked } from './work.js';

/** The slower work, done in a worker of the page's own; where none can be had, between the page's own steps. */
export interface Workshop {
  /** Works on a text; only the newest question that waits is answered, the others are dropped. */
  readonly work: (texts: Texts, joint: string) => void;
  readonly ask: (question: Omit<Question, 'id'>) => Promise<Answer>;
}

type Post = (question: Question) => void;

/** `source` is the page's own script, which also runs in the worker. */
export function openWorkshop(
  source: string | undefined,
  worked: (worked: Worked) => void,
  faulty: (message: string) => void,
): Workshop {
  const waiting = new Map<number, (answer: Answer) => void>();
  let count = 0;
  let busy = false;
  let next: (() => void) | undefined;
  const receive = (given: Answer) => {
    if ('fault' in given) faulty(given.fault);
    waiting.get(given.id)?.(given);
    waiting.delete(given.id);
  };
  const post =
    startWorker(source, receive) ??
    ((question: Question) => void setTimeout(() => answer(question).then(receive)));
  const ask = (question: Omit<Question, 'id'>): Promise<Answer> =>
    new Promise((resolve) => {
      count += 1;
      waiting.set(count, resolve);
      post({ ...question, id: count });
    });
  const work = (texts: Texts, joint: string): void => {
    if (busy) {
      next = () => work(texts, joint);
      return;
    }
    busy = true;
    void ask({ ask: 'worked', texts, joint }).then((given) => {
      busy = false;
      if ('worked' in given) worked(given.worked);
      const waitingWork = next;
      next = undefined;
      waitingWork?.();
    });
  };
  return { work, ask };
}

function startWorker(source: string | undefined, receive: (answer: Answer) => void): Post | undefined {
  if (source === undefined || source === '') return undefined;
  try {
    const worker = new Worker(URL.createObjectURL(new Blob([source], { type: 'text/javascript' })));
    worker.onmessage = ({ data }: MessageEvent<Answer>) => receive(data);
    return (question) => worker.postMessage(question);
  } catch {
    return undefined;
  }
}

/** The worker's side. */
export function serveWorkshop(): void {
  addEventListener('message', ({ data }: MessageEvent<Question>) => {
    void answer(data).then((given) => postMessage(given));
  });
}
