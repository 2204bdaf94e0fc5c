import { useRef, useState } from 'preact/hooks';
import type { Bound, Layout } from '../../layout/types.js';
import { fineStep, ruleStep } from '../lengths.js';
import { type Model, textOf } from '../model.js';
import { nameOfSpan } from '../names.js';
import { areSame, type HandBounds, isDrag, listEdits, moveEdge, spanWidths } from '../spans.js';
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
  const hold = useRef<Hold | undefined>(undefined);
  const [resting, setResting] = useState<{ readonly edge: number; readonly bound?: Bound } | undefined>();
  const { solved, joint, job } = drawn;
  if (!solved || !joint || !job) return null;
  const { layout } = solved;
  const { units } = drawn.reading;

  const refuse = () => {
    if (bounds.ok || !bounds.diagnostic) return;
    dispatch({ do: 'say', notice: textOf(bounds.diagnostic, drawn.fmt) });
  };
  /** Widths that are `from` again give back the text that they were read from, which may be no list. */
  const move = ({ widths: from, text }: Held, edge: number, by: number, step: number, reach: number) => {
    if (!bounds.ok) return refuse();
    const run = `edge ${edge}`;
    const moved = moveEdge(from, bounds.least, {
      edge,
      by,
      mirrored: state.mirrored && solved.symmetric,
      step,
      reach,
    });
    setResting({ edge, ...(moved.stopped ? { bound: moved.stopped } : {}) });
    if (areSame(moved.widths, from)) {
      dispatch({ do: 'write', text, run });
      return undefined;
    }
    const has = (path: readonly string[]) => state.model.document.hasIn(path);
    dispatch({ do: 'edit', edits: listEdits(joint, moved.widths, units, has), run });
    return undefined;
  };

  const nudge = (event: KeyboardEvent, edge: number) => {
    const way = ways[event.key];
    if (way === undefined) return;
    event.preventDefault();
    const step = event.shiftKey ? fineStep(units) : ruleStep(units);
    const now = { widths: spanWidths(layout), text: state.text };
    move(now, edge, way * step, event.shiftKey ? 0 : step, 1e-6);
  };
  const letGo = () => {
    hold.current = undefined;
    dispatch({ do: 'settle' });
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
              if (event.button !== 0 || !event.isPrimary) return;
              event.currentTarget.setPointerCapture(event.pointerId);
              event.currentTarget.focus({ preventScroll: true });
              const { clientX: x, clientY: y } = event;
              hold.current = { edge, x, y, widths: spanWidths(layout), text: state.text, moving: false };
              if (!bounds.ok) refuse();
            }}
            onPointerMove={(event) => {
              const held = hold.current;
              if (held?.edge !== edge || !bounds.ok) return;
              const across = event.clientX - held.x;
              if (!held.moving && !isDrag(across, event.clientY - held.y)) return;
              hold.current = { ...held, moving: true };
              const step = event.shiftKey ? fineStep(units) : ruleStep(units);
              move(held, edge, across / scale, step, PULL / scale);
            }}
            onPointerUp={letGo}
            onPointerCancel={() => {
              // The browser has taken the gesture for its own, so nothing was meant by it here.
              const { moving, text } = hold.current ?? {};
              if (moving && text !== undefined) dispatch({ do: 'write', text, run: `edge ${edge}` });
              letGo();
            }}
          >
            {on && (
              <span class="tag">
                <b>{drawn.fmt.length(span.from)}</b>
                {resting?.bound && <i>{resting.bound.because}</i>}
              </span>
            )}
          </div>
        );
      })}
    </fieldset>
  );
}

/** The layout as it was before a move. */
interface Held {
  readonly widths: readonly number[];
  readonly text: string;
}

/** An edge in the hand: where the pointer took it, px, and whether it has moved since. */
interface Hold extends Held {
  readonly edge: number;
  readonly x: number;
  readonly y: number;
  readonly moving: boolean;
}

const ways: Readonly<Record<string, -1 | 1>> = { ArrowLeft: -1, ArrowDown: -1, ArrowRight: 1, ArrowUp: 1 };

/** Within this of what the bit can cut, an edge is drawn onto it, px. */
const PULL = 5;

/** Wide enough for a finger where there is room, never over the neighbour, px. */
function gripOf({ spans }: Layout, edge: number, scale: number): number {
  const near = [spans[edge - 1], spans[edge]].map((span) => (span ? (span.to - span.from) * scale : 0));
  return Math.max(8, Math.min(32, ...near));
}

function spoken(layout: Layout, edge: number, { fmt }: Model): string {
  const width = (index: number) => {
    const span = layout.spans[index];
    return span ? fmt.length(span.to - span.from) : '';
  };
  return `${nameOfSpan(layout, edge - 1)} ${width(edge - 1)}, ${nameOfSpan(layout, edge)} ${width(edge)}`;
}
