/** Exit status of every command. */
export const exit = {
  done: 0,
  /** The job cannot be made as asked, or its files cannot be written; each reason was named. */
  refused: 1,
  /** Wrong use of the command, or input that cannot be read as a job. */
  misuse: 2,
  /** A fault in halfpin itself (EX_SOFTWARE of sysexits.h). */
  fault: 70,
  /** Whoever read our output has gone: as a shell reports a program ended by SIGPIPE, 128 + 13. */
  readerGone: 141,
} as const;

export type ExitCode = (typeof exit)[keyof typeof exit];

/** Takes a command's exit status; each command calls it once. */
export type Finish = (code: ExitCode) => void;
