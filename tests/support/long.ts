/**
 * `HALFPIN_LONG=1` asks for the long runs, as .ci/run does: all the random jobs and whole grids. Without it `npm test`
 * takes the first few of the same.
 */
export const long = process.env.HALFPIN_LONG !== undefined;

/** How many of something: all in a long run, else a few. */
export const howMany = (all: number, few: number): number => (long ? all : few);
