import { type Edit, editYaml } from '../job/edit-yaml.js';
import { type Model, modelOf, type Texts } from './model.js';
import type { Worked } from './work.js';

/** Everything the page shows hangs on this record; `update` is the only way to the next one. */
export interface State extends Texts {
  /** Name of the joint on the bench; the first where none was chosen. */
  readonly chosen?: string;
  readonly model: Model;
  /** The last joint that could be laid out: what is drawn, paler, while the present one is refused. */
  readonly drawn?: Model;
  /** What the workshop made of some text, not always of the present one. */
  readonly worked?: Worked;
  readonly past: readonly string[];
  readonly future: readonly string[];
  /** Edits of one run (a drag, one field being typed in) are undone together. */
  readonly run?: string;
  /** The text as it stands on the disk, as far as the page knows. */
  readonly saved: string;
  /** Both halves of the joint are kept alike when an edge is moved. */
  readonly mirrored: boolean;
  /** Said once to screen readers and shown for a while. */
  readonly notice?: string;
}

export type Action =
  | { readonly do: 'edit'; readonly edits: readonly Edit[]; readonly run?: string }
  | { readonly do: 'write'; readonly text: string; readonly run?: string }
  | { readonly do: 'settle' }
  | { readonly do: 'undo' }
  | { readonly do: 'redo' }
  | { readonly do: 'load'; readonly texts: Texts }
  | { readonly do: 'beside'; readonly path: string; readonly text: string }
  | { readonly do: 'choose'; readonly joint: string }
  | { readonly do: 'worked'; readonly worked: Worked }
  | { readonly do: 'saved'; readonly text: string }
  | { readonly do: 'mirror'; readonly on: boolean }
  | { readonly do: 'say'; readonly notice: string };

export function begin(texts: Texts): State {
  const model = modelOf(texts, undefined);
  return drawnFrom({ ...texts, model, past: [], future: [], saved: texts.text, mirrored: true });
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
      const text = state.past.at(-1);
      if (text === undefined) return { ...state, notice: 'nothing to undo' };
      const future = [state.text, ...state.future];
      return read(
        { ...without(state, 'run'), past: state.past.slice(0, -1), future, notice: 'undone' },
        text,
      );
    }
    case 'redo': {
      const [text, ...future] = state.future;
      if (text === undefined) return { ...state, notice: 'nothing to do again' };
      return read(
        { ...without(state, 'run'), past: [...state.past, state.text], future, notice: 'done again' },
        text,
      );
    }
    case 'load':
      return { ...begin(action.texts), notice: `${action.texts.name} is on the bench` };
    case 'beside':
      return read({ ...state, others: { ...state.others, [action.path]: action.text } }, state.text);
    case 'choose':
      return read(without({ ...without(state, 'worked'), chosen: action.joint }, 'drawn'), state.text);
    case 'worked':
      return { ...state, worked: action.worked };
    case 'saved':
      return { ...state, saved: action.text, notice: `${state.name} is saved` };
    case 'mirror':
      return { ...state, mirrored: action.on };
    case 'say':
      return { ...state, notice: action.notice };
  }
}

/** Steps back that are kept; a text of a few kB each. */
const MOST_STEPS = 500;

function written(state: State, text: string, run: string | undefined): State {
  if (text === state.text) return state;
  const sameRun = run !== undefined && run === state.run;
  const past = sameRun ? state.past : [...state.past, state.text].slice(-MOST_STEPS);
  const next = { ...without(state, 'run'), past, future: [], ...(run === undefined ? {} : { run }) };
  return read(next, text);
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
