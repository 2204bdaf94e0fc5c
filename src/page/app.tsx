import { useEffect, useErrorBoundary, useMemo, useReducer, useRef } from 'preact/hooks';
import { keysOf } from '../input/yaml/edit-yaml.js';
import { families } from '../joints/list.js';
import { download, textsOf } from './browser.js';
import { cards } from './card.js';
import { refusedAtOnce } from './model.js';
import { saveServed, servedBeside } from './served.js';
import { type Action, type State, update, wouldLose } from './state.js';
import { type Bench, BenchContext, faultWords, isPressing, notesOf, useBench } from './store.js';
import { Files } from './views/files.js';
import { JobCard } from './views/job-card.js';
import { JointView } from './views/joint.js';
import { NoteList } from './views/notes.js';
import { Plates } from './views/plate.js';
import { SaveState } from './views/save-state.js';
import { SolidView } from './views/solid.js';
import { TestCutView } from './views/test-cut.js';
import { openWorkshop, type Workshop } from './workshop.js';

/** The whole page: the bench on one side, the job card on the other. */
export function App({
  first,
  source,
  served,
}: {
  readonly first: State;
  readonly source: string | undefined;
  readonly served: boolean;
}) {
  const [state, dispatch] = useReducer(update, first);
  const [error] = useErrorBoundary();
  const workshop = useRef<Workshop | undefined>(undefined);
  workshop.current ??= openWorkshop(source, {
    worked: (worked) => dispatch({ do: 'worked', worked }),
    judged: (judged) => dispatch({ do: 'judged', judged }),
    faulty: (text, message) => dispatch({ do: 'faulty', text, message }),
  });
  const save = useSaving(state, dispatch);
  const joint = state.model.joint?.name;
  const { name, text, others } = state;
  const texts = { name, text, others };
  const atRisk = wouldLose(state);

  useEffect(() => {
    if (joint === undefined) return undefined;
    const wait = setTimeout(() => workshop.current?.work(texts, joint), PAUSE);
    return () => clearTimeout(wait);
  }, [text, joint, others]);

  useEffect(() => {
    const { wanted } = state.model;
    if (!served || wanted === undefined) return;
    void servedBeside(wanted).then((found) => {
      if (found !== undefined) dispatch({ do: 'beside', path: wanted, text: found });
    });
  }, [served, state.id, state.model.wanted]);

  useEffect(() => {
    document.title = `${atRisk ? '• ' : ''}${name} — halfpin`;
    const ask = (event: BeforeUnloadEvent) => {
      if (atRisk) event.preventDefault();
    };
    addEventListener('beforeunload', ask);
    return () => removeEventListener('beforeunload', ask);
  }, [atRisk, name]);

  useEffect(() => {
    const keys = (event: KeyboardEvent) => {
      if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
      const key = event.key.toLowerCase();
      if (key !== 'z' && key !== 'y') return;
      event.preventDefault();
      dispatch({ do: key === 'y' || event.shiftKey ? 'redo' : 'undo' });
    };
    addEventListener('keydown', keys);
    return () => removeEventListener('keydown', keys);
  }, []);

  if (error) return <Fault message={String(error)} text={text} />;
  const bench: Bench = {
    state,
    dispatch,
    files: async () => {
      const given = await workshop.current?.ask({ ask: 'files', texts, joint: joint ?? '' });
      return given && 'made' in given ? given.made : { files: [], diagnostics: [] };
    },
    solids: async () => {
      const given = await workshop.current?.ask({ ask: 'solids', texts, joint: joint ?? '' });
      return given && 'solids' in given ? given.solids : [];
    },
    served,
    save,
    download: () => {
      download(name, text);
      dispatch({ do: 'downloaded' });
    },
  };
  return (
    <BenchContext.Provider value={bench}>
      <Head />
      {state.fault?.text === text && <p role="alert">{faultWords(state.fault.message)}</p>}
      <p class="on-paper">
        For reading beside the bench: nothing on these pages is to scale. Patterns and templates at true scale
        are in the PDF files.
      </p>
      <Body />
      <div role="status" aria-live="polite">
        {state.notice !== undefined && (
          <p class="notice" key={state.notice.count}>
            {state.notice.words}
          </p>
        )}
      </div>
    </BenchContext.Provider>
  );
}

/** Templates and the test cut wait for a pause in typing or dragging, so that the hand is never held up, ms. */
const PAUSE = 150;

/** Saves one after the other, each of the job as it is when its turn comes, so that none is sent upon an old text. */
function useSaving(state: State, dispatch: (action: Action) => void): () => void {
  const newest = useRef(state);
  newest.current = state;
  const last = useRef<Promise<void>>(Promise.resolve());
  return () => {
    last.current = last.current.then(async () => {
      // What was done just before, or what the last answer has made of the state, is drawn first.
      await new Promise((drawn) => setTimeout(drawn));
      const { id, name, text, keeping } = newest.current;
      dispatch({ do: 'sent', id, text });
      const answer = await saveServed({ name, text, before: keeping.known });
      dispatch({ do: 'answered', id, text, answer });
    });
  };
}

/** When the page cannot be drawn at all the job is still there to be taken away. */
function Fault({ message, text }: { readonly message: string; readonly text: string }) {
  return (
    <main>
      <p role="alert">{faultWords(message)}</p>
      <textarea aria-label="The job as text" readOnly rows={30} value={text} />
    </main>
  );
}

function Head() {
  const { state, dispatch, served, save, download } = useBench();
  const picker = useRef<HTMLInputElement>(null);
  const open = async (files: FileList | null) => {
    const picked = await textsOf([...(files ?? [])]);
    if (!picked) return;
    const isShop = !/joints/.test(picked.text) && state.model.wanted !== undefined;
    dispatch(isShop ? { do: 'beside', path: picked.name, text: picked.text } : { do: 'load', texts: picked });
  };
  return (
    <header class="head">
      <p class="brand">halfpin</p>
      <h1>{state.model.job?.title ?? state.name}</h1>
      <nav aria-label="Job">
        <button type="button" onClick={() => dispatch({ do: 'undo' })} disabled={state.past.length === 0}>
          undo
        </button>
        <button type="button" onClick={() => dispatch({ do: 'redo' })} disabled={state.future.length === 0}>
          redo
        </button>
        <select
          aria-label="Start a new job"
          value=""
          onChange={(event) => {
            const family = families.find(({ kind }) => kind === event.currentTarget.value);
            event.currentTarget.value = '';
            if (family)
              dispatch({
                do: 'load',
                texts: { name: `${family.kind}.yaml`, text: family.starter, others: {} },
              });
          }}
        >
          <option value="">new …</option>
          {families.map(({ kind }) => (
            <option key={kind} value={kind}>
              {kind.replaceAll('-', ' ')}
            </option>
          ))}
        </select>
        <input
          ref={picker}
          type="file"
          multiple
          accept=".yaml,.yml,.json"
          hidden
          aria-label="Job file, and the shop file that it names"
          onChange={(event) => {
            void open(event.currentTarget.files);
            event.currentTarget.value = '';
          }}
        />
        <button type="button" onClick={() => picker.current?.click()}>
          open …
        </button>
        {served && (
          <button type="button" class="main" onClick={save}>
            save
          </button>
        )}
        <button type="button" class={served ? undefined : 'main'} onClick={download}>
          download
        </button>
        <button type="button" onClick={() => print()}>
          print
        </button>
      </nav>
      <SaveState />
    </header>
  );
}

/** Joints that are refused: the ones known at once, and of the others those that the workshop last found so. */
function refusedIn({ model, judged }: State): ReadonlySet<string> {
  const others = (judged?.refused ?? []).filter((name) => name !== model.chosen);
  return new Set([...refusedAtOnce(model), ...others]);
}

/** Keys of a joint whose diagnostics are shown by the layout itself, and by the plate. */
const atLayout = ['layout'];
const atPlate = ['template'];

function Body() {
  const { state, dispatch } = useBench();
  const { model } = state;
  const said = useMemo(() => notesOf(state), [state.model, state.worked]);
  const name = model.chosen;
  const refused = useMemo(() => refusedIn(state), [model, state.judged]);
  const onCard = useMemo(() => {
    const groups = cards.get(model.joint?.kind ?? '') ?? cards.values().next().value ?? [];
    return new Set(groups.flatMap(({ fields }) => fields.map(({ path }) => path.join('.'))));
  }, [model.joint?.kind]);
  const placed = said.map((one) => {
    const path = keysOf(one.diagnostic.at, model.document);
    const mine = path[0] === 'joints' && path[1] === name;
    const inside = path.slice(2);
    const field = mine && onCard.has(inside.join('.'));
    const place = one.diagnostic.code.startsWith('joint-')
      ? 'cut'
      : mine && atLayout.includes(inside[0] ?? '') && !(field && model.document.hasIn(path))
        ? 'layout'
        : field
          ? 'field'
          : mine && (atPlate.includes(inside[0] ?? '') || inside.length === 0)
            ? 'plate'
            : 'elsewhere';
    return { one, path: path.join('.'), place };
  });
  const at = (place: string) => placed.filter((each) => each.place === place).map(({ one }) => one);
  const elsewhere = at('elsewhere').filter(isPressing);
  const remarks = said.filter((one) => !isPressing(one));
  return (
    <main>
      <div class="side-bench">
        {model.names.length > 1 && (
          <nav class="joints" aria-label="Joints of the job">
            {model.names.map((each) => (
              <button
                type="button"
                key={each}
                class={refused.has(each) ? 'refused' : undefined}
                aria-pressed={each === name}
                onClick={() => dispatch({ do: 'choose', joint: each })}
              >
                {each}
                {refused.has(each) && <span class="mark"> refused</span>}
              </button>
            ))}
          </nav>
        )}
        <NoteList said={elsewhere} id="said-elsewhere" />
        <JointView said={at('layout')} />
        <Plates said={at('plate')} />
        <TestCutView said={at('cut')} />
        <SolidView />
      </div>
      <div class="side-card">
        <JobCard
          saidAt={(path) =>
            placed
              .filter((each) => each.path === path.join('.') && each.place === 'field')
              .map(({ one }) => one)
          }
        />
        {remarks.length > 0 && (
          <details class="remarks">
            <summary>{remarks.length === 1 ? '1 remark' : `${remarks.length} remarks`}</summary>
            <NoteList said={remarks} />
          </details>
        )}
        <Files />
      </div>
    </main>
  );
}
