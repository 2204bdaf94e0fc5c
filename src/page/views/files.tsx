import { useState } from 'preact/hooks';
import { download } from '../browser.js';
import { isPressing, useBench } from '../store.js';
import type { Made } from '../work.js';
import { NoteList } from './notes.js';

/** The files that `halfpin make` writes for this joint, one by one, and the job's own text. */
export function Files() {
  const { state, dispatch, files } = useBench();
  const [made, setMade] = useState<(Made & { readonly text: string }) | undefined>();
  const [busy, setBusy] = useState(false);
  const { text, model } = state;
  const current = made?.text === text ? made : undefined;
  const make = async () => {
    setBusy(true);
    setMade({ text, ...(await files()) });
    setBusy(false);
  };
  return (
    <section class="files" aria-labelledby="files-title">
      <h2 id="files-title">Files</h2>
      <p>
        <button type="button" disabled={busy || !model.solved} onClick={() => void make()}>
          {busy ? 'drawing them …' : 'draw the files'}
        </button>
      </p>
      {current && (
        <ul>
          {current.files.map(({ path, content }) => (
            <li key={path}>
              <button
                type="button"
                class="file"
                onClick={() => download(path.split('/').at(-1) ?? path, content)}
              >
                {path}
              </button>
            </li>
          ))}
        </ul>
      )}
      {current && (
        <NoteList
          said={current.diagnostics.map((diagnostic) => ({ diagnostic, fixes: [] })).filter(isPressing)}
        />
      )}
      <p class="caution">
        Measure a plate before its first use, and make a test cut in scrap of the same thickness. Set bit and
        bushing with the router unplugged; the makers’ manuals and local rules come first.
      </p>
      <details>
        <summary>The job as text</summary>
        <textarea
          aria-label="The job as text"
          spellcheck={false}
          value={text}
          rows={Math.min(40, text.split('\n').length + 1)}
          onInput={(event) => dispatch({ do: 'write', text: event.currentTarget.value, run: 'text' })}
          onBlur={() => dispatch({ do: 'settle' })}
        />
      </details>
    </section>
  );
}
