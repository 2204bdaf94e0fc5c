import { textOf } from '../model.js';
import { type Said, useBench } from '../store.js';

const words = { refused: 'Refused', caution: 'Caution', ok: 'Fix' } as const;

/** Findings beside what they concern, each with the changes that would answer it as buttons. */
export function SaidList({ said, id }: { readonly said: readonly Said[]; readonly id?: string }) {
  if (said.length === 0) return null;
  return (
    <ul class="said" id={id}>
      {said.map((one) => (
        <SaidItem key={`${one.finding.code} ${one.finding.at}`} said={one} />
      ))}
    </ul>
  );
}

function SaidItem({ said: { finding, fixes } }: { readonly said: Said }) {
  const { state, dispatch } = useBench();
  return (
    <li class={`said-${finding.level}`} data-code={finding.code}>
      <p>
        <strong>{words[finding.level]}</strong> {textOf(finding, state.model.say)}
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
