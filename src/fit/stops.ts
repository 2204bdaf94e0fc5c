import { type Diagnostic, diagnostic } from '../diagnostics/diagnostic.js';
import type { JointFit } from './joint-fit.js';
import type { Measured } from './measured.js';
import type { Part, Step } from './steps.js';
import { GOOD_ENOUGH } from './told.js';

/**
 * Which stops to shim. A corner shows the difference of its two stops, so of several corners each is an equation; shims
 * only hold a board off its stop, and the least of each set of stops that hang together stays as it is.
 */
export function stopPart(model: JointFit, measured: readonly Measured[]): Part {
  const at = `joints.${model.joint}`;
  const seen = measured.filter(({ key }) => key === 'mismatch');
  if (seen.length === 0) return { steps: [], diagnostics: [] };
  const shims = shimsFor(seen.map((one) => edgeOf(model, one)));
  const steps = shims.map(({ stop, by }): Extract<Step, { do: 'shim' }> => ({ do: 'shim', ...stop, by }));
  const diagnostics = steps.map((step): Diagnostic => {
    const { do: _, ...data } = step;
    const against = model.boards.find((board) => board !== step.board) ?? '';
    return diagnostic('refit-shim', 'ok', at, { ...data, against });
  });
  return { steps, diagnostics: steps.length > 0 ? diagnostics : [diagnostic('refit-in-line', 'ok', at, {})] };
}

/** A stop as a step names it; without a side where the joint makes no corner. */
interface Stop {
  readonly board: string;
  readonly side?: 'left' | 'right';
  readonly mirrored?: true;
  readonly corner?: number;
}

/** The first stop holds its board too near by `past`, against the other one. */
interface Edge {
  readonly first: Stop;
  readonly second: Stop;
  readonly past: number;
}

function edgeOf({ boards, corners }: JointFit, { number, value }: Measured): Edge {
  const stops = number === undefined ? undefined : corners[number];
  const stopOf = (board: string): Stop => {
    const found = stops?.find((one) => one.board === board);
    if (!found || number === undefined) return { board };
    return { board, side: found.stop, ...(found.mirrored && { mirrored: true }), corner: number };
  };
  return { first: stopOf(boards[0]), second: stopOf(boards[1]), past: value };
}

const nameOf = ({ board, side, mirrored }: Stop): string => `${board} ${side} ${mirrored}`;

function shimsFor(edges: readonly Edge[]): readonly { readonly stop: Stop; readonly by: number }[] {
  const stops = new Map(
    edges.flatMap(({ first, second }) => [first, second]).map((stop) => [nameOf(stop), stop]),
  );
  const by = new Map<string, number>();
  return [...stops.keys()].flatMap((start) => {
    if (by.has(start)) return [];
    const group = spread(start, edges, by);
    const least = Math.min(...group.map((name) => by.get(name) ?? 0));
    return group.flatMap((name) => {
      const stop = stops.get(name);
      const shim = (by.get(name) ?? 0) - least;
      return stop && shim > GOOD_ENOUGH ? [{ stop, by: shim }] : [];
    });
  });
}

/** Shims of all the stops that hang together with one of no shim, by way of corners. */
function spread(start: string, edges: readonly Edge[], by: Map<string, number>): readonly string[] {
  by.set(start, 0);
  const group = [start];
  for (const name of group) {
    const own = by.get(name) ?? 0;
    for (const { first, second, past } of edges) {
      const [one, other] = [nameOf(first), nameOf(second)];
      if (one === name && !by.has(other)) {
        by.set(other, own - past);
        group.push(other);
      }
      if (other === name && !by.has(one)) {
        by.set(one, own + past);
        group.push(one);
      }
    }
  }
  return group;
}
