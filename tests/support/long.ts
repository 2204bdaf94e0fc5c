/**
 * `HALFPIN_LONG=1` asks for the long runs, as .ci/run does: all the random jobs and whole grids. Without it `npm test`
 * takes the first few of the same. `HALFPIN_LONG=all` is for hours at night: what would take .ci/run over its time, too.
 */
const asked = process.env.HALFPIN_LONG;
export const long = asked !== undefined;
export const wholeNight = asked === 'all';

/** How many of something: all in a long run, else a few. */
export const howMany = (all: number, few: number): number => (long ? all : few);
