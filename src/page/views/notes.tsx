import { textOf } from '../model.js';
import { type Notes, useBench } from '../store.js';

const levelWords = { refused: 'Refused', caution: 'Caution', ok: 'Fix' } as const;

/** Diagnostics beside what they concern, each with the changes that would answer it as buttons. */
export function NoteList({ said, id }: { readonly said: readonly Notes[]; readonly id?: string }) {
  if (said.length === 0) return null;
  return (
    <ul class="said" id={id}>
      {said.map((one) => (
        <NoteItem key={`${one.diagnostic.code} ${one.diagnostic.at}`} said={one} />
      ))}
    </ul>
  );
}

function NoteItem({ said: { diagnostic, fixes } }: { readonly said: Notes }) {
  const { state, dispatch } = useBench();
  return (
    <li class={`said-${diagnostic.level}`} data-code={diagnostic.code}>
      <p>
        <strong>{levelWords[diagnostic.level]}</strong> {textOf(diagnostic, state.model.fmt)}
      </p>
      {fixes.length > 0 && (
        <p class="cures">
          {fixes.map(({ label, edits }) => (
            <button type="button" key={label} onClick={() => dispatch({ do: 'edit', edits })}>
              {label}
            </button>
          ))}
        </p>
      )}
    </li>
  );
}
