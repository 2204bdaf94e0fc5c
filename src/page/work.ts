import type { Diagnostic } from '../diagnostics/diagnostic.js';
import { readJob } from '../input/read-job.js';
import type { Job } from '../input/types.js';
import { families } from '../joints/list.js';
import type { MadeFile } from '../outputs/artifact.js';
import { formats } from '../outputs/ask.js';
import { betterBushings } from '../outputs/better-bushings.js';
import type { JointOutcome } from '../outputs/joint.js';
import { type Plan, plan, planOf, renderAll, testCuts, withCuts } from '../outputs/plan.js';
import type { TestCutOutcome } from '../outputs/testcut.js';
import type { TestCut } from '../verify/assemble.js';
import { otherText, type Texts } from './model.js';
import { type BoardSolid, solidsOf } from './solids.js';

/**
 * The slower half of the page's work, done beside it so that typing never waits: the plan of `check` and `make`, its
 * test cut and its files.
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

/** Answers questions; a fault of halfpin's own is an answer too, so that nobody waits for ever. */
export function answering(): (question: Question) => Promise<Answer> {
  // What was planned and proved last serves the questions about the same text that follow.
  let last: { readonly key: string; readonly proved: Promise<Proved | undefined> } | undefined;
  const provedOf = (texts: Texts, joint: string): Promise<Proved | undefined> => {
    const key = JSON.stringify([texts, joint]);
    if (last?.key !== key) last = { key, proved: provedIn(texts, joint) };
    return last.proved;
  };
  return async (question) => {
    try {
      return await answered(question, provedOf);
    } catch (error) {
      return { id: question.id, fault: error instanceof Error ? error.message : String(error) };
    }
  };
}

async function answered({ id, texts, joint, ask }: Question, provedOf: typeof provedIn): Promise<Answer> {
  if (ask === 'judged') return { id, judged: await judgeTexts(texts) };
  const proved = await provedOf(texts, joint);
  switch (ask) {
    case 'worked':
      return { id, worked: workedOf(proved, texts, joint) };
    case 'files':
      return { id, made: await filesOf(proved) };
    case 'solids':
      return { id, solids: proved?.cut?.request ? solidsOf(proved.cut.request) : [] };
  }
}

/** One joint as `make --joint` plans it, and its test cut. */
interface Proved {
  readonly planned: Plan;
  readonly cut: TestCutOutcome | undefined;
  /** The plan with what the test cut found. */
  readonly proved: Plan;
}

/** Plans the files of one joint and makes its test cut; undefined where the job or the joint can't be read. */
async function provedIn(texts: Texts, joint: string): Promise<Proved | undefined> {
  const job = jobIn(texts);
  const planned = job && (await plan(job, { joint }));
  if (!planned || planned.joints.length === 0) return undefined;
  const cuts = await testCuts(planned);
  return { planned, cut: cuts[0], proved: await withCuts(planned, cuts) };
}

/** Plans one joint and makes its test cut. */
export const workOn = async (texts: Texts, joint: string): Promise<Worked> =>
  workedOf(await provedIn(texts, joint), texts, joint);

function workedOf(all: Proved | undefined, { text }: Texts, joint: string): Worked {
  const [outcome] = all?.planned.joints ?? [];
  if (!all || !outcome) return { text, joint, diagnostics: [] };
  const { cut, proved } = all;
  return {
    text,
    joint,
    outcome,
    ...(cut?.cut && { cut: cut.cut }),
    diagnostics: [...proved.diagnostics, ...betterBushings(proved.job, outcome)],
  };
}

/** Files, and what speaks against those of some machine. */
export interface Made {
  readonly files: readonly MadeFile[];
  readonly diagnostics: readonly Diagnostic[];
}

/** The files of a joint in every format, as `make --joint --as ...` writes them. */
async function filesOf(all: Proved | undefined): Promise<Made> {
  if (!all) return { files: [], diagnostics: [] };
  const { job, joints, ask } = all.proved;
  const whole = await planOf(job, joints, { ...ask, as: formats });
  return { files: await renderAll(whole), diagnostics: whole.fileDiagnostics };
}

/** Solves every joint that can be read, with its templates but without a test cut: a few hundredths of a second each. */
export async function judgeTexts(texts: Texts): Promise<Judged> {
  const job = jobIn(texts);
  const joints = job ? (await plan(job, { only: [], as: [] })).joints : [];
  return { text: texts.text, refused: joints.filter(({ made }) => !made).map(({ joint }) => joint.name) };
}

/** The job without what can't be read of it. */
const jobIn = (texts: Texts): Job | undefined =>
  readJob({ name: texts.name, text: texts.text }, families, (path) => otherText(texts, path)).readable;
