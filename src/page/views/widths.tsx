import { useRef, useState } from 'preact/hooks';
import { sentence } from '../../diagnostics/catalogue.js';
import { diagnostic } from '../../diagnostics/diagnostic.js';
import type { LengthProblem, LengthUnit } from '../../units/length.js';
import { readLength } from '../../units/length.js';
import { writeLength } from '../../units/write-length.js';
import { type Model, textOf } from '../model.js';
import { nameOfSpan } from '../names.js';
import { areSame, type HandBounds, listEdits, resizeSpan, spanWidths } from '../spans.js';
import { useBench } from '../store.js';

/** The width of every part at the baseline, to be read off and typed in, in any unit. */
export function Widths({ drawn, bounds }: { readonly drawn: Model; readonly bounds: HandBounds }) {
  const { state, dispatch } = useBench();
  const start = useRef<readonly number[] | undefined>(undefined);
  const [draft, setDraft] = useState<Draft | undefined>();
  const { solved, joint, job } = drawn;
  const count = solved?.layout.spans.length ?? 0;
  if (!solved || !joint || !job) return null;
  const { layout } = solved;
  const { units } = drawn.reading;

  const type = (index: number, text: string) => {
    const from = start.current ?? spanWidths(layout);
    const trouble = (words: string) => setDraft({ index, text, trouble: words });
    const read = readLength(text, units);
    if (!read.ok) return trouble(unclear(text, read, drawn));
    if (!bounds.ok)
      return trouble(bounds.diagnostic ? textOf(bounds.diagnostic, drawn.fmt) : 'not to be set by hand');
    const sized = resizeSpan(from, bounds.least, index, read.mm, state.mirrored && solved.symmetric);
    if (!sized.ok) {
      const { least, most } = sized;
      return trouble(
        read.mm < least.width
          ? `at least ${drawn.fmt.length(least.width)}: ${least.because}`
          : `at most ${drawn.fmt.length(most)}, for its neighbours have no more to give`,
      );
    }
    setDraft({ index, text });
    // What the field shows is rounded: typed again, it means the width that stands there.
    const isAsShown = read.mm === shownWidth(from[index] ?? 0, units);
    const widths = isAsShown ? from : sized.widths;
    if (areSame(widths, spanWidths(layout))) return undefined;
    const has = (path: readonly string[]) => state.model.document.hasIn(path);
    dispatch({ do: 'edit', edits: listEdits(joint, widths, units, has), run: `width ${index}` });
    return undefined;
  };

  return (
    <details class="widths" open={count <= OPEN_UP_TO}>
      <summary>Widths at the baseline, from the reference edge</summary>
      <ol>
        {layout.spans.map((span, index) => {
          const own = draft?.index === index ? draft : undefined;
          const id = `width-${index}`;
          return (
            <li key={id} class={`part-${span.part}`}>
              <label for={id}>{nameOfSpan(layout, index)}</label>
              <input
                id={id}
                inputMode="text"
                autocomplete="off"
                spellcheck={false}
                value={own?.text ?? writeLength(span.to - span.from, units)}
                aria-invalid={own?.trouble !== undefined}
                {...(own?.trouble ? { 'aria-describedby': `${id}-said` } : {})}
                onFocus={() => {
                  start.current = spanWidths(layout);
                }}
                onInput={(event) => type(index, event.currentTarget.value)}
                onBlur={() => {
                  setDraft(undefined);
                  start.current = undefined;
                  dispatch({ do: 'settle' });
                }}
              />
              {own?.trouble && (
                <p id={`${id}-said`} class="trouble" role="status">
                  {own.trouble}
                </p>
              )}
            </li>
          );
        })}
      </ol>
    </details>
  );
}

/** A width as its field shows it, read back, mm. */
function shownWidth(mm: number, units: LengthUnit): number | undefined {
  const read = readLength(writeLength(mm, units), units);
  return read.ok ? read.mm : undefined;
}

/** Rows longer than this are folded away at first. */
const OPEN_UP_TO = 13;

interface Draft {
  readonly index: number;
  readonly text: string;
  readonly trouble?: string;
}

function unclear(
  read: string,
  { trouble, wouldDo }: { readonly trouble: LengthProblem; readonly wouldDo: readonly string[] },
  { fmt }: Model,
): string {
  return sentence(
    diagnostic('length-unclear', 'refused', '', { read: JSON.stringify(read), trouble, wouldDo }),
    fmt,
  );
}
