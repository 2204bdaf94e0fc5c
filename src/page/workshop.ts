import type { Texts } from './model.js';
import { type Answer, answering, type Judged, type Question, type Worked } from './work.js';

/** The slower work, done in a worker of the page's own; where none can be had, between the page's own steps. */
export interface Workshop {
  /** Works on a text; only the newest question that waits is answered, the others are dropped. */
  readonly work: (texts: Texts, joint: string) => void;
  readonly ask: (question: Omit<Question, 'id'>) => Promise<Answer>;
}

/** Who is told what the workshop has found out. */
export interface Customer {
  readonly worked: (worked: Worked) => void;
  readonly judged: (judged: Judged) => void;
  /** A fault of halfpin's own, met with this text. */
  readonly faulty: (text: string, message: string) => void;
}

/** `source` is the page's own script, which also runs in the worker. */
export function openWorkshop(source: string | undefined, customer: Customer): Workshop {
  const waiting = new Map<number, { readonly question: Question; readonly done: (answer: Answer) => void }>();
  let count = 0;
  let busy = false;
  let next: (() => void) | undefined;
  const receive = (given: Answer) => {
    const { question, done } = waiting.get(given.id) ?? {};
    waiting.delete(given.id);
    if (question && 'fault' in given) customer.faulty(question.texts.text, given.fault);
    done?.(given);
  };
  const answer = answering();
  const here = (question: Question): void => {
    setTimeout(() => answer(question).then(receive));
  };
  const worker = startWorker(source, receive, () => {
    post = here;
    for (const { question } of waiting.values()) here(question);
  });
  let post = worker ?? here;
  const ask = (question: Omit<Question, 'id'>): Promise<Answer> =>
    new Promise((done) => {
      count += 1;
      const asked = { ...question, id: count };
      waiting.set(count, { question: asked, done });
      post(asked);
    });
  const work = (texts: Texts, joint: string): void => {
    if (busy) {
      next = () => work(texts, joint);
      return;
    }
    busy = true;
    void ask({ ask: 'worked', texts, joint })
      .then((given) => {
        if ('worked' in given) customer.worked(given.worked);
        // The other joints come after the one on the bench, and not before a newer text.
        return next ? undefined : ask({ ask: 'judged', texts, joint });
      })
      .then((given) => {
        if (given && 'judged' in given) customer.judged(given.judged);
        busy = false;
        const waitingWork = next;
        next = undefined;
        waitingWork?.();
      });
  };
  return { work, ask };
}

/** A worker that has not said that it runs by then never will, ms. */
const START = 6000;

/**
 * Browsers that have no worker for the page say so in different ways: by throwing, by an error later, or not at all.
 * `lost` is called at most once, and nothing is received after it.
 */
function startWorker(
  source: string | undefined,
  receive: (answer: Answer) => void,
  lost: () => void,
): ((question: Question) => void) | undefined {
  if (source === undefined || source === '') return undefined;
  try {
    const worker = new Worker(URL.createObjectURL(new Blob([source], { type: 'text/javascript' })));
    let runs = true;
    const lose = () => {
      if (!runs) return;
      runs = false;
      clearTimeout(wait);
      worker.terminate();
      lost();
    };
    const wait = setTimeout(lose, START);
    worker.onerror = (event) => {
      event.preventDefault();
      lose();
    };
    worker.onmessageerror = lose;
    worker.onmessage = ({ data }: MessageEvent<Answer | typeof RUNS>) => {
      clearTimeout(wait);
      if (runs && data !== RUNS) receive(data);
    };
    return (question) => worker.postMessage(question);
  } catch {
    return undefined;
  }
}

/** What a worker says first. */
const RUNS = 'runs';

/** The worker's side. */
export function serveWorkshop(): void {
  const answer = answering();
  addEventListener('message', ({ data }: MessageEvent<Question>) => {
    void answer(data)
      .then((given) => postMessage(given))
      .catch((error: unknown) => postMessage({ id: data.id, fault: String(error) }));
  });
  postMessage(RUNS);
}
