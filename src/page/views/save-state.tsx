import { type Keeping, type Standing, standingOf } from '../saving.js';
import { useBench } from '../store.js';

/** Where the job's text stands: always to be seen, and worked out from what the server has confirmed. */
export function SaveState() {
  const { state, dispatch, served, save, download } = useBench();
  const { keeping, text, name, others } = state;
  const { trouble } = keeping;
  const standing = standingOf(keeping, text);
  const theirs = trouble?.why === 'changed' ? trouble.theirs : undefined;
  const inTrouble = standing in problemd;
  return (
    <div class={inTrouble ? 'save-state troubled' : 'save-state'} data-standing={standing}>
      <p role="status">{wordsFor(standing, served, name, keeping)}</p>
      {standing === 'not-written' && trouble?.why === 'not-written' && <p>{trouble.problem}</p>}
      {standing === 'changed-elsewhere' && (
        <p class="cures">
          <button
            type="button"
            onClick={() => {
              dispatch({ do: 'rename' });
              save();
            }}
          >
            save under another name
          </button>
          <button
            type="button"
            onClick={() => {
              dispatch({ do: 'overwrite' });
              save();
            }}
          >
            {theirs === undefined ? 'write it again' : 'overwrite it'}
          </button>
          {theirs !== undefined && (
            <button
              type="button"
              onClick={() => dispatch({ do: 'load', texts: { name, text: theirs, others }, inFile: true })}
            >
              open it
            </button>
          )}
        </p>
      )}
      {(standing === 'no-answer' || standing === 'not-written') && (
        <p class="cures">
          <button type="button" onClick={save}>
            try again
          </button>
          <button type="button" onClick={download}>
            download {name}
          </button>
        </p>
      )}
    </div>
  );
}

const problemd: Readonly<Partial<Record<Standing, true>>> = {
  'changed-elsewhere': true,
  'no-answer': true,
  'not-written': true,
};

function wordsFor(standing: Standing, served: boolean, name: string, keeping: Keeping): string {
  switch (standing) {
    case 'saved':
      return `saved in ${name}`;
    case 'saving':
      return 'saving …';
    case 'unsaved':
      return served ? 'not saved' : 'not downloaded';
    case 'downloaded':
      return `downloaded as ${name}`;
    case 'new':
      return 'new, nothing changed yet';
    case 'changed-elsewhere':
      return conflictWords(name, keeping);
    case 'no-answer':
      return 'Not saved: halfpin board doesn’t answer. Was it stopped?';
    case 'not-written':
      return `Not saved: ${name} can’t be written.`;
  }
}

function conflictWords(name: string, { known, trouble }: Keeping): string {
  if (trouble?.why === 'changed' && trouble.theirs === undefined)
    return `Not saved: ${name} is gone from its folder.`;
  return known.length === 0
    ? `Not saved: there is a ${name} in the folder already, and it isn’t this job.`
    : `Not saved: ${name} has changed since this page last read or wrote it.`;
}
