import type { Diagnostic } from '../diagnostics/diagnostic.js';
import { readJob } from '../input/read-job.js';
import type { Job } from '../input/types.js';
import { families } from '../joints/list.js';
import type { MadeFile } from '../outputs/artifact.js';
import { formats } from '../outputs/ask.js';
import { betterBushings } from '../outputs/better-bushings.js';
import { type JointOutcome, solveJob } from '../outputs/joint.js';
import { planOf, prove, renderAll } from '../outputs/plan.js';
import { testCutJob } from '../outputs/testcut.js';
import type { TestCut } from '../verify/assemble.js';
import { otherText, type Texts } from './model.js';
import { type BoardSolid, solidsOf } from './solids.js';

/**
 * The slower half of the page's work, done beside it so that typing never waits: templates, the test cut of their
 * written files, the files themselves. All of it through the door that the command uses.
 */

/** What was made of one text. */
export interface Worked {
  readonly text: string;
  readonly joint: string;
  readonly outcome?: JointOutcome;
  readonly cut?: TestCut;
  /** Of the whole joint: solver, tools, templates, test cut. */
  readonly diagnostics: readonly Diagnostic[];
}

/** Which joints of a text are refused, each solved by itself. */
export interface Judged {
  readonly text: string;
  readonly refused: readonly string[];
}

export type Question = { readonly id: number; readonly texts: Texts; readonly joint: string } & {
  readonly ask: 'worked' | 'judged' | 'files' | 'solids';
};

export type Answer =
  | { readonly id: number; readonly worked: Worked }
  | { readonly id: number; readonly judged: Judged }
  | { readonly id: number; readonly made: Made }
  | { readonly id: number; readonly solids: readonly BoardSolid[] }
  /** A fault in halfpin itself, with its message. */
  | { readonly id: number; readonly fault: string };

/** Answers a question; a fault of halfpin's own is an answer too, so that nobody waits for ever. */
export async function answer(question: Question): Promise<Answer> {
  try {
    return await answered(question);
  } catch (error) {
    return { id: question.id, fault: error instanceof Error ? error.message : String(error) };
  }
}

async function answered(question: Question): Promise<Answer> {
  const { id, texts, joint } = question;
  switch (question.ask) {
    case 'worked':
      return { id, worked: await workOn(texts, joint) };
    case 'judged':
      return { id, judged: judgeTexts(texts) };
    case 'files':
      return { id, made: await filesOf(texts, joint) };
    case 'solids':
      return { id, solids: await solidsIn(texts, joint) };
  }
}

/** Solves one joint, makes its templates and cuts them on paper. */
export async function workOn(texts: Texts, joint: string): Promise<Worked> {
  const solved = solveTexts(texts, joint);
  if (!solved?.outcome) return { text: texts.text, joint, diagnostics: [] };
  const { outcome } = solved;
  const cut = await cutOnPaper(solved.job, outcome);
  return {
    text: texts.text,
    joint,
    outcome,
    ...(cut.cut ? { cut: cut.cut } : {}),
    diagnostics: [...outcome.diagnostics, ...betterBushings(solved.job, outcome), ...cut.diagnostics],
  };
}

/** Files, and what speaks against those of some machine. */
export interface Made {
  readonly files: readonly MadeFile[];
  readonly diagnostics: readonly Diagnostic[];
}

/** The files of one joint, in every format, as `halfpin make --joint` writes them. */
export async function filesOf(texts: Texts, joint: string): Promise<Made> {
  const solved = solveTexts(texts, joint);
  if (!solved) return { files: [], diagnostics: [] };
  const plan = await prove(await planOf(solved.job, solved.outcomes, { as: formats }));
  return { files: await renderAll(plan), diagnostics: plan.fileDiagnostics };
}

/** Solves every joint that can be read, with its templates but without a test cut: a few hundredths of a second each. */
export function judgeTexts(texts: Texts): Judged {
  const outcomes = solveTexts(texts)?.outcomes ?? [];
  const refused = outcomes.filter(({ made }) => !made).map(({ joint }) => joint.name);
  return { text: texts.text, refused };
}

/** The joints of a job, or the one named; those that cannot be read are left out. */
function solveTexts(texts: Texts, joint?: string) {
  const reading = readJob({ name: texts.name, text: texts.text }, families, (path) => otherText(texts, path));
  const job = reading.readable;
  if (!job) return undefined;
  const outcomes = solveJob(job, joint);
  return { job, outcomes, outcome: outcomes[0] };
}

/** The test cut of `make`, of a joint that can have one. */
async function cutOnPaper(
  job: Job,
  outcome: JointOutcome,
): Promise<{ readonly cut?: TestCut; readonly diagnostics: readonly Diagnostic[] }> {
  if (!outcome.made || outcome.made.solved.cuts.length === 0 || !outcome.made.solved.assembly) {
    return { diagnostics: [] };
  }
  const [cut] = await testCutJob(job, [outcome]);
  return cut ?? { diagnostics: [] };
}

async function solidsIn(texts: Texts, joint: string): Promise<readonly BoardSolid[]> {
  const { job, outcome } = solveTexts(texts, joint) ?? {};
  if (!job || !outcome) return [];
  const [cut] = await testCutJob(job, [outcome]);
  return cut?.request ? solidsOf(cut.request) : [];
}
