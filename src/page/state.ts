import type { Edit } from '../diagnostics/fix.js';
import { editYaml } from '../input/yaml/edit-yaml.js';
import { type Model, modelOf, type Texts } from './model.js';
import {
  answered,
  freshName,
  isAtRisk,
  type Keeping,
  keepingOf,
  overwriting,
  type SaveAnswer,
  sent,
} from './saving.js';
import type { Judged, Worked } from './work.js';

/** One job that the page holds: its files, and where its text stands outside of the page. */
export interface Work extends Texts {
  readonly id: number;
  readonly keeping: Keeping;
}

/** The text of one of the jobs at some time. */
interface UndoStep {
  readonly id: number;
  readonly text: string;
}

/** Everything the page shows hangs on this record; `update` is the only way to the next one. */
export interface State extends Work {
  /** Jobs that lay on the bench before: a step back leads to them, and what is unsaved in them is not lost. */
  readonly aside: readonly Work[];
  /** Name of the joint on the bench; the first where none was chosen. */
  readonly chosen?: string;
  readonly model: Model;
  /** The last joint that could be laid out: what is drawn, paler, while the present one is refused. */
  readonly drawn?: Model;
  /** What the workshop made of some text and joint, not always of the present ones. */
  readonly worked?: Worked;
  /** Which joints of some text are refused. */
  readonly judged?: Judged;
  /** A fault of halfpin's own, and the text that it met with. */
  readonly fault?: { readonly text: string; readonly message: string };
  readonly past: readonly UndoStep[];
  readonly future: readonly UndoStep[];
  /** Edits of one run (a drag, one field being typed in) are undone together. */
  readonly run?: string;
  /** Both halves of the joint are kept alike when an edge is moved. */
  readonly mirrored: boolean;
  /** Said once to screen readers and shown for a while; counted, so that the same words can be said again. */
  readonly notice?: { readonly count: number; readonly words: string };
}

export type Action =
  | { readonly do: 'edit'; readonly edits: readonly Edit[]; readonly run?: string }
  | { readonly do: 'write'; readonly text: string; readonly run?: string }
  | { readonly do: 'settle' }
  | { readonly do: 'undo' }
  | { readonly do: 'redo' }
  /** Another job; `inFile` where its file was just read, so that its text is what the file holds. */
  | { readonly do: 'load'; readonly texts: Texts; readonly inFile?: boolean }
  | { readonly do: 'beside'; readonly path: string; readonly text: string }
  | { readonly do: 'choose'; readonly joint: string }
  | { readonly do: 'worked'; readonly worked: Worked }
  | { readonly do: 'judged'; readonly judged: Judged }
  | { readonly do: 'faulty'; readonly text: string; readonly message: string }
  | { readonly do: 'sent'; readonly id: number; readonly text: string }
  | { readonly do: 'answered'; readonly id: number; readonly text: string; readonly answer: SaveAnswer }
  | { readonly do: 'downloaded' }
  | { readonly do: 'overwrite' }
  | { readonly do: 'rename' }
  | { readonly do: 'mirror'; readonly on: boolean }
  | { readonly do: 'say'; readonly notice: string };

/** The page's first job; `inFile` where it is what a file holds. */
export function begin(texts: Texts, inFile = false): State {
  const model = modelOf(texts, undefined);
  const keeping = keepingOf(texts.text, inFile);
  return drawnFrom({ ...texts, id: 0, keeping, aside: [], model, past: [], future: [], mirrored: true });
}

export function update(state: State, action: Action): State {
  switch (action.do) {
    case 'edit':
      return written(state, editYaml(state.text, action.edits), action.run);
    case 'write':
      return written(state, action.text, action.run);
    case 'settle':
      return without(state, 'run');
    case 'undo': {
      const step = state.past.at(-1);
      if (step === undefined) return saying(state, 'nothing to undo');
      const [past, future] = [state.past.slice(0, -1), [stepOf(state), ...state.future]];
      return saying({ ...at(without(state, 'run'), step), past, future }, 'undone');
    }
    case 'redo': {
      const [step, ...future] = state.future;
      if (step === undefined) return saying(state, 'nothing to do again');
      const past = [...state.past, stepOf(state)];
      return saying({ ...at(without(state, 'run'), step), past, future }, 'done again');
    }
    case 'load':
      return loaded(state, action.texts, action.inFile ?? false);
    case 'beside':
      return read({ ...state, others: { ...state.others, [action.path]: action.text } }, state.text);
    case 'choose':
      if (action.joint === state.model.chosen) return state;
      return read(without({ ...state, chosen: action.joint }, 'drawn'), state.text);
    case 'worked':
      return without({ ...state, worked: action.worked }, 'fault');
    case 'judged':
      return { ...state, judged: action.judged };
    case 'faulty':
      return { ...state, fault: { text: action.text, message: action.message } };
    case 'sent':
      return keptAs(state, action.id, (keeping) => sent(keeping, action.text));
    case 'answered':
      return keptAs(state, action.id, (keeping) => answered(keeping, action.text, action.answer));
    case 'downloaded':
      return keptAs(state, state.id, (keeping) => ({ ...keeping, downloaded: state.text }));
    case 'overwrite':
      return keptAs(state, state.id, overwriting);
    case 'rename': {
      const name = freshName(state.name, [state.name, ...state.aside.map((one) => one.name)]);
      return { ...state, name, keeping: { known: [], start: state.keeping.start } };
    }
    case 'mirror':
      return { ...state, mirrored: action.on };
    case 'say':
      return saying(state, action.notice);
  }
}

/** What the workshop made of the joint on the bench; of its text as it is, or as it was a moment ago. */
export function workedOn({ worked, model }: State): Worked | undefined {
  return worked?.joint === model.chosen ? worked : undefined;
}

/** How far the workshop is with the joint as it stands now. */
export type Made = 'made' | 'refused' | 'working' | 'faulty';

export function madeOf(state: State): Made {
  const worked = workedOn(state);
  if (!state.model.solved) return 'refused';
  if (state.fault?.text === state.text) return 'faulty';
  if (worked?.text !== state.text) return 'working';
  return worked.outcome?.made ? 'made' : 'refused';
}

/** true while closing the page would lose work, on the bench or aside. */
export function wouldLose(state: State): boolean {
  return [state, ...state.aside].some(({ keeping, text }) => isAtRisk(keeping, text));
}

/** Steps back that are kept; a text of a few kB each. */
const MAX_STEPS = 500;

function written(state: State, text: string, run: string | undefined): State {
  if (text === state.text) return state;
  const sameRun = run !== undefined && run === state.run;
  const begun = sameRun ? state.past : [...state.past, stepOf(state)].slice(-MAX_STEPS);
  const first = begun.at(-1);
  // A run that ends where it began was no step.
  const past = first?.id === state.id && first.text === text ? begun.slice(0, -1) : begun;
  const changed = { ...without(state, 'run'), past, future: [] };
  return read(past === begun && run !== undefined ? { ...changed, run } : changed, text);
}

/** Another job on the bench is a step like any other: the one that lay there is taken aside, and a step back brings it. */
function loaded(state: State, texts: Texts, inFile: boolean): State {
  const id = Math.max(state.id, ...state.aside.map((one) => one.id)) + 1;
  const held = [state, ...state.aside].map(({ name }) => name);
  const name = inFile ? texts.name : freshName(texts.name, held);
  const work: Work = { ...texts, name, id, keeping: keepingOf(texts.text, inFile) };
  const past = [...state.past, stepOf(state)].slice(-MAX_STEPS);
  const next = { ...onBench(without(state, 'run'), work), past, future: [] };
  return saying(read(next, texts.text), `${name} is on the bench; undo brings ${state.name} back`);
}

/** The state at a step, of the job on the bench or of one aside. */
function at(state: State, { id, text }: UndoStep): State {
  const work = state.aside.find((one) => one.id === id);
  return read(work ? onBench(state, work) : state, text);
}

function onBench(state: State, work: Work): State {
  const { chosen: _, drawn: __, ...rest } = state;
  const aside = [workOf(state), ...state.aside].filter((one) => one.id !== work.id);
  return { ...rest, ...work, aside };
}

function workOf({ id, name, text, others, keeping }: State): Work {
  return { id, name, text, others, keeping };
}

function stepOf({ id, text }: State): UndoStep {
  return { id, text };
}

function keptAs(state: State, id: number, change: (keeping: Keeping) => Keeping): State {
  if (state.id === id) return { ...state, keeping: change(state.keeping) };
  const aside = state.aside.map((one) => (one.id === id ? { ...one, keeping: change(one.keeping) } : one));
  return { ...state, aside };
}

function saying(state: State, words: string): State {
  return { ...state, notice: { count: (state.notice?.count ?? 0) + 1, words } };
}

function read(state: State, text: string): State {
  return drawnFrom({ ...state, text, model: modelOf({ ...state, text }, state.chosen) });
}

function drawnFrom(state: State): State {
  return state.model.solved ? { ...state, drawn: state.model } : state;
}

function without<K extends keyof State>(state: State, key: K): Omit<State, K> & Partial<State> & State {
  const { [key]: _, ...rest } = state;
  return rest as State;
}
