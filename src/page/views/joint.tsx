import { useEffect, useMemo, useRef, useState } from 'preact/hooks';
import { lipOf } from '../../joints/boards.js';
import type { Layout } from '../../layout/types.js';
import { textOf } from '../model.js';
import { nameOfSpan, spanOf } from '../names.js';
import { type HandBounds, handBounds } from '../spans.js';
import { isPressing, type Notes, useBench } from '../store.js';
import { ClosedJoint, LowerBoard, UpperBoard } from './boards.js';
import { Edges } from './edges.js';
import { NoteList } from './notes.js';
import { Rule } from './rule.js';
import { Widths } from './widths.js';

/** The joint at full width on the bench: rule, both boards, and the joint closed. */
export function JointView({ said }: { readonly said: readonly Notes[] }) {
  const { state, dispatch } = useBench();
  const [zoom, setZoom] = useState(1);
  const [frame, scale] = useScale(state.drawn?.solved?.width ?? 1);
  const { drawn, model } = state;
  const solved = drawn?.solved;
  const count = solved?.layout.spans.length ?? 0;
  const bounds = useMemo((): HandBounds => {
    const { joint, job } = drawn ?? {};
    return joint && job ? handBounds(joint, job.shop, count, job.units) : { ok: false };
  }, [drawn?.joint, drawn?.job, count]);
  if (!drawn || !solved) {
    return (
      <section class="joint" aria-labelledby="joint-title">
        <h2 id="joint-title">The joint</h2>
        <p class="empty">
          Nothing can be laid out yet; the reasons stand beside the fields that they concern.
        </p>
        <NoteList said={said.filter(isPressing)} />
      </section>
    );
  }
  const { layout, width, markings } = solved;
  const lip = lipOf(solved);
  const [first, second] = markings;
  const stale = model.solved === undefined;
  // A lip reaches past both ends of the rule.
  const whole = (lip?.lower ?? 0) + width + (lip?.upper ?? 0);
  const past = (mm: number | undefined) => `${((mm ?? 0) / whole) * 100}%`;
  const pressing = said.filter(isPressing);
  const marked = pressing.flatMap((one) => {
    const index = spanOf(one.diagnostic, layout);
    const span = index === undefined ? undefined : layout.spans[index];
    return span && index !== undefined ? [{ one, index, middle: (span.from + span.to) / 2 }] : [];
  });
  return (
    <section class={stale ? 'joint stale' : 'joint'} aria-labelledby="joint-title">
      <header>
        <h2 id="joint-title">The joint</h2>
        <p class="measure">
          {countWords(layout)} {model.fmt.length(width)}
        </p>
        {count > 0 && (
          <label class="toggle">
            <input
              type="checkbox"
              checked={state.mirrored && solved.symmetric}
              disabled={!solved.symmetric}
              onChange={(event) => dispatch({ do: 'mirror', on: event.currentTarget.checked })}
            />
            keep both halves alike
          </label>
        )}
        <label class="zoom">
          nearer
          <input
            type="range"
            min="1"
            max="6"
            step="0.25"
            value={zoom}
            onInput={(event) => setZoom(Number(event.currentTarget.value))}
          />
        </label>
      </header>
      <div class="bench-scroll">
        <div
          class="bench"
          style={{
            width: `${zoom * 100}%`,
            minWidth: `${whole * SMALLEST}px`,
            maxWidth: zoom > 1 ? 'none' : `${whole * LARGEST}px`,
          }}
        >
          <div
            class="on-joint"
            ref={frame}
            style={{ marginLeft: past(lip?.lower), marginRight: past(lip?.upper) }}
          >
            <Rule width={width} units={model.reading.units} scale={scale} />
            {first && (
              <div class="lying">
                <UpperBoard marking={first} />
                <span>{first.board}</span>
              </div>
            )}
            {second && (
              <div class="lying">
                <LowerBoard marking={second} lip={lip} />
                <span>{second.board}</span>
              </div>
            )}
            <div class="lying">
              <ClosedJoint solved={solved} />
              <span>closed</span>
            </div>
            <Edges drawn={drawn} bounds={bounds} scale={scale} />
            {marked.map(({ one, index, middle }) => (
              <span
                key={`${one.diagnostic.code} ${index}`}
                class={`flag said-${one.diagnostic.level}`}
                style={{ left: `${(middle / width) * 100}%` }}
                title={nameOfSpan(layout, index)}
              >
                !
              </span>
            ))}
          </div>
        </div>
      </div>
      {count > 0 ? (
        <Hint bounds={bounds} />
      ) : (
        <p class="hint">The line is changed in its drawing, or by the numbers beside it.</p>
      )}
      <NoteList said={pressing} id="joint-said" />
      {count > 0 && <Widths drawn={drawn} bounds={bounds} />}
    </section>
  );
}

/** `5 tails in`; boards that meet along a line have nothing to count. */
function countWords({ spans }: Layout): string {
  if (spans.length === 0) return 'along a line,';
  const kind = spans.some(({ part }) => part === 'tail') ? 'tail' : 'finger';
  return `${spans.filter(({ part }) => part === kind).length} ${kind}s in`;
}

/** How edges are moved, or why they cannot be, with the change that would free them. */
function Hint({ bounds }: { readonly bounds: HandBounds }) {
  const { state, dispatch } = useBench();
  const { model } = state;
  if (bounds.ok || !bounds.diagnostic) {
    return (
      <p class="hint">
        Take an edge by its ring and drag it, or press Tab to reach it and the arrow keys to move it; with
        Shift in fine steps.
      </p>
    );
  }
  const fixes = model.fixes(bounds.diagnostic);
  return (
    <p class="hint">
      Edges stay where they are: {textOf(bounds.diagnostic, model.fmt)}{' '}
      {fixes.map(({ label, edits }) => (
        <button type="button" key={label} onClick={() => dispatch({ do: 'edit', edits })}>
          {label}
        </button>
      ))}
    </p>
  );
}

/** Screen px to a mm at most: a small tray is drawn large, but still sits in the window. */
const LARGEST = 7.5;

/** And at least: the joint of a wide chest is pushed along under a small screen. */
export const SMALLEST = 1.4;

/** The element to measure and how many px it gives a mm of `width`. */
function useScale(width: number) {
  const frame = useRef<HTMLDivElement>(null);
  const [pixels, setPixels] = useState(800);
  useEffect(() => {
    const { current } = frame;
    if (!current) return undefined;
    const observer = new ResizeObserver(() => setPixels(current.clientWidth));
    observer.observe(current);
    return () => observer.disconnect();
  }, [frame.current]);
  return [frame, pixels / width] as const;
}
