import { createContext } from 'preact';
import { useContext } from 'preact/hooks';
import type { Diagnostic } from '../diagnostics/diagnostic.js';
import type { Fix } from '../diagnostics/fix.js';
import type { BoardSolid } from './solids.js';
import { type Action, type madeOf, type State, workedOn } from './state.js';
import type { Made } from './work.js';

/** What every part of the page is given: the state, the way to change it, and the workshop behind it. */
export interface Bench {
  readonly state: State;
  readonly dispatch: (action: Action) => void;
  readonly files: () => Promise<Made>;
  readonly solids: () => Promise<readonly BoardSolid[]>;
  /** true where the command serves the page and writes its jobs into files. */
  readonly served: boolean;
  /** Saves the job as it is when its turn comes, one save after the other. */
  readonly save: () => void;
  readonly download: () => void;
}

export const BenchContext = createContext<Bench | undefined>(undefined);

export function useBench(): Bench {
  const bench = useContext(BenchContext);
  if (!bench) throw new Error('a part of the page stands outside the bench');
  return bench;
}

/** A diagnostic with what would answer it. */
export interface Notes {
  readonly diagnostic: Diagnostic;
  readonly fixes: readonly Fix[];
}

/** Everything to be said about the present text, without repeats; what needs no heed and offers nothing is left out. */
export function notesOf(state: State): readonly Notes[] {
  const { model, text } = state;
  const worked = workedOn(state);
  const current = worked?.text === text;
  const all = current ? [...model.read, ...worked.diagnostics] : model.diagnostics;
  const seen = new Set<string>();
  return all.flatMap((diagnostic) => {
    const mark = `${diagnostic.code} ${diagnostic.at} ${JSON.stringify(diagnostic.data)}`;
    if (seen.has(mark)) return [];
    seen.add(mark);
    return [{ diagnostic, fixes: model.fixes(diagnostic) }];
  });
}

/** What must be seen: refusals, cautions, and ways out. */
export function isPressing({ diagnostic, fixes }: Notes): boolean {
  return diagnostic.level !== 'ok' || fixes.length > 0;
}

/** What stands where plates and test cut are not. */
export const awaited: Readonly<Record<Exclude<ReturnType<typeof madeOf>, 'made'>, string>> = {
  refused: 'There is none while the joint is refused.',
  working: 'Being worked out …',
  faulty: 'A fault in halfpin itself stands in the way; it is told at the top of the page.',
};

export function faultWords(message: string): string {
  return `a fault in halfpin itself, not in your job: ${message}; please report it with the job file`;
}
