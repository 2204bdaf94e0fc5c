import { useRef, useState } from 'preact/hooks';
import type { Bound, Layout } from '../../layout/types.js';
import { fineStep, ruleStep } from '../lengths.js';
import { type Model, textOf } from '../model.js';
import { nameOfSpan } from '../names.js';
import { type HandBounds, listEdits, moveEdge, widthsOf } from '../spans.js';
import { useBench } from '../store.js';

/**
 * Every edge between two parts can be taken hold of: with a finger or the mouse, or with the arrow keys once it
 * has the focus. It comes to rest on the steps of the rule and on what the bit can cut.
 */
export function Edges({
  drawn,
  bounds,
  scale,
}: {
  readonly drawn: Model;
  readonly bounds: HandBounds;
  readonly scale: number;
}) {
  const { state, dispatch } = useBench();
  const held = useRef<Hold | undefined>(undefined);
  const [resting, setResting] = useState<{ readonly edge: number; readonly bound?: Bound } | undefined>();
  const { solved, joint, job } = drawn;
  if (!solved || !joint || !job) return null;
  const { layout } = solved;
  const { units } = drawn.reading;

  const refuse = () => {
    if (bounds.ok || !bounds.finding) return;
    dispatch({ do: 'say', notice: textOf(bounds.finding, drawn.say) });
  };
  const move = (
    from: readonly number[],
    edge: number,
    by: number,
    step: number,
    reach: number,
    run: string,
  ) => {
    if (!bounds.ok) return refuse();
    const moved = moveEdge(from, bounds.least, {
      edge,
      by,
      mirrored: state.mirrored && solved.symmetric,
      step,
      reach,
    });
    setResting({ edge, ...(moved.stopped ? { bound: moved.stopped } : {}) });
    const has = (path: readonly string[]) => state.model.document.hasIn(path);
    dispatch({ do: 'edit', edits: listEdits(joint, moved.widths, units, has), run });
    return undefined;
  };

  const nudge = (event: KeyboardEvent, edge: number) => {
    const way = ways[event.key];
    if (way === undefined) return;
    event.preventDefault();
    const step = event.shiftKey ? fineStep(units) : ruleStep(units);
    move(widthsOf(layout), edge, way * step, event.shiftKey ? 0 : step, 1e-6, `edge ${edge}`);
  };

  return (
    <fieldset class="edges" aria-label="Edges of pins and tails; arrow keys move the one in focus">
      {layout.spans.slice(1).map((span, at) => {
        const edge = at + 1;
        const on = resting?.edge === edge;
        return (
          <div
            key={edge}
            role="slider"
            tabIndex={0}
            class={on && resting?.bound ? 'edge stopped' : on ? 'edge held' : 'edge'}
            aria-label={`Edge between ${nameOfSpan(layout, at)} and ${nameOfSpan(layout, edge)}`}
            aria-valuemin={0}
            aria-valuemax={Math.round(layout.width)}
            aria-valuenow={Math.round(span.from * 100) / 100}
            aria-valuetext={spoken(layout, edge, drawn)}
            aria-orientation="horizontal"
            style={{
              left: `${(span.from / layout.width) * 100}%`,
              width: `${gripOf(layout, edge, scale)}px`,
            }}
            onKeyDown={(event) => nudge(event, edge)}
            onBlur={() => {
              setResting(undefined);
              dispatch({ do: 'settle' });
            }}
            onPointerDown={(event) => {
              if (event.button !== 0) return;
              event.currentTarget.setPointerCapture(event.pointerId);
              event.currentTarget.focus();
              held.current = { edge, start: event.clientX, widths: widthsOf(layout) };
              if (!bounds.ok) refuse();
            }}
            onPointerMove={(event) => {
              const hold = held.current;
              if (!hold || hold.edge !== edge || !bounds.ok) return;
              const by = (event.clientX - hold.start) / scale;
              move(
                hold.widths,
                edge,
                by,
                event.shiftKey ? fineStep(units) : ruleStep(units),
                PULL / scale,
                `drag ${edge}`,
              );
            }}
            onPointerUp={() => {
              held.current = undefined;
              dispatch({ do: 'settle' });
            }}
            onPointerCancel={() => {
              held.current = undefined;
              dispatch({ do: 'settle' });
            }}
          >
            {on && (
              <span class="tag">
                <b>{drawn.say.length(span.from)}</b>
                {resting?.bound && <i>{resting.bound.because}</i>}
              </span>
            )}
          </div>
        );
      })}
    </fieldset>
  );
}

/** An edge in the hand: where the pointer took it and the widths as they were. */
interface Hold {
  readonly edge: number;
  readonly start: number;
  readonly widths: readonly number[];
}

const ways: Readonly<Record<string, -1 | 1>> = { ArrowLeft: -1, ArrowDown: -1, ArrowRight: 1, ArrowUp: 1 };

/** Within this of what the bit can cut, an edge is drawn onto it, px. */
const PULL = 5;

/** Wide enough for a finger where there is room, never over the neighbour, px. */
function gripOf({ spans }: Layout, edge: number, scale: number): number {
  const near = [spans[edge - 1], spans[edge]].map((span) => (span ? (span.to - span.from) * scale : 0));
  return Math.max(8, Math.min(32, ...near));
}

function spoken(layout: Layout, edge: number, { say }: Model): string {
  const width = (index: number) => {
    const span = layout.spans[index];
    return span ? say.length(span.to - span.from) : '';
  };
  return `${nameOfSpan(layout, edge - 1)} ${width(edge - 1)}, ${nameOfSpan(layout, edge)} ${width(edge)}`;
}
