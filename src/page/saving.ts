/**
 * Where a job's text stands outside of the page. Nothing here is a claim: what is shown as saved follows from what the
 * server has confirmed last.
 */
export interface Keeping {
  /**
   * The texts that the job's file may hold, as far as the page knows: one once the server has confirmed it, more while
   * a save has had no answer, none for a job that has no file yet.
   */
  readonly known: readonly string[];
  /** The text as it came to the page; there is nothing to lose while a job without a file still reads so. */
  readonly start: string;
  /** The text last handed to the browser to be downloaded. */
  readonly downloaded?: string;
  /** true while a save waits for its answer. */
  readonly sending?: boolean;
  readonly trouble?: SaveProblem;
}

/** Why a save did not come about. */
export type SaveProblem =
  /** The file holds `theirs` (nothing where it is gone), which this page has neither read nor written. */
  | { readonly why: 'changed'; readonly theirs?: string }
  /** The server could not be reached or did not answer: the file may hold either text. */
  | { readonly why: 'no-answer' }
  /** The server answered that it could not be written. */
  | { readonly why: 'not-written'; readonly problem: string };

export type SaveAnswer = { readonly ok: true } | ({ readonly ok: false } & SaveProblem);

/** What is said of a job's text at any time. */
export type Standing =
  | 'saved'
  | 'saving'
  | 'unsaved'
  | 'changed-elsewhere'
  | 'no-answer'
  | 'not-written'
  | 'downloaded'
  | 'new';

export function keepingOf(text: string, inFile: boolean): Keeping {
  return { known: inFile ? [text] : [], start: text };
}

export function standingOf({ known, start, downloaded, sending, trouble }: Keeping, text: string): Standing {
  if (sending) return 'saving';
  if (trouble?.why === 'changed') return 'changed-elsewhere';
  if (known.length === 1 && known[0] === text) return 'saved';
  if (downloaded === text) return 'downloaded';
  if (known.length === 0 && start === text) return 'new';
  return trouble?.why ?? 'unsaved';
}

/** true where closing the page would lose work. */
export function isAtRisk(keeping: Keeping, text: string): boolean {
  return !['saved', 'downloaded', 'new'].includes(standingOf(keeping, text));
}

export function sent(keeping: Keeping, text: string): Keeping {
  const { trouble: _, ...rest } = keeping;
  return { ...rest, sending: true, known: [...keeping.known, text] };
}

/** The answer to the save of `text`. */
export function answered({ sending: _, ...keeping }: Keeping, text: string, answer: SaveAnswer): Keeping {
  if (answer.ok) return { ...keeping, known: [text] };
  const { ok: __, ...trouble } = answer;
  // Where nothing was heard the file may hold the text that was sent; a refusal says that it does not.
  const known = answer.why === 'no-answer' ? keeping.known : keeping.known.slice(0, -1);
  return { ...keeping, known, trouble };
}

/** The text that another program wrote may be replaced now. */
export function overwriting({ trouble, ...keeping }: Keeping): Keeping {
  if (trouble?.why !== 'changed') return keeping;
  return { ...keeping, known: trouble.theirs === undefined ? [] : [trouble.theirs] };
}

/** `box.yaml` is `box-2.yaml` where the name is taken. */
export function freshName(name: string, taken: readonly string[]): string {
  if (!taken.includes(name)) return name;
  const [, stem = name, , ending = ''] = /^(.*?)(-\d+)?(\.[^.]*)?$/.exec(name) ?? [];
  for (let count = 2; ; count++) {
    const next = `${stem}-${count}${ending}`;
    if (!taken.includes(next)) return next;
  }
}
