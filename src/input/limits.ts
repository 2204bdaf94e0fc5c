/** How much a job may hold. Beyond these is a slip of the pen or an attack, and the message names the limit. */

/** No board, sheet or bed in a small shop is longer: 10 m, in mm. */
export const MAX_LENGTH = 10_000;

/** No size but zero is smaller, in mm: nobody measures wood, bits or plates finer, and nothing is cut finer. */
export const MIN_LENGTH = 0.01;

/** Thicker boards are not joined under a router template; 12 for 12 mm in an inch file looks like this, mm. */
export const MAX_BOARD = 150;

/** Wider boards, and longer edges, are not joined under a router template: sheets are 8 ft long. 100 in, in mm. */
export const MAX_WIDTH = 2540;

/** Templates are cut from sheet, mm. */
export const MAX_SHEET = 50;

/** No bit for a hand-held router is wider across or cuts higher, nor has a thicker shank, mm; common practice, no source. */
export const MAX_BIT = { diameter: 100, height: 150, shank: 40 } as const;

/** No guide bushing is wider outside or reaches further down, mm; common practice, no source. */
export const MAX_BUSHING = { outside: 100, barrel: 50 } as const;

/** A screw hole larger than this breaks out of the edge of the plate, mm. */
export const MAX_HOLE = 20;

/** No printer for a desk or a drawing office takes a longer side, mm. */
export const MAX_PAPER = 2000;

/** A mating pair with more play than this, in mm, is not a joint; an inch file with mm in it looks like this. */
export const MAX_SLACK = 2;

/** Wider than the kerf of any laser that cuts sheet for templates, in mm. */
export const MAX_KERF = 2;

/** More tails than this are a slip of the pen: a 6 m board at a 6 mm pitch. */
export const MAX_TAILS = 1000;

/** Spans of the longest row: as many tails, the pins between, and both half-pins. */
export const MAX_SPANS = 2 * MAX_TAILS + 1;

/** How many tails, and how many fingers and slots together, a row may have. */
export const TAILS = { least: 1, most: MAX_TAILS } as const;
export const FINGERS = { least: 2, most: MAX_SPANS } as const;

/** Spans of a list, or of half a list; a whole row of tails begins and ends with a half-pin and has one more. */
export const SPANS = { least: 2, leastTails: 3, most: MAX_SPANS } as const;

/** Ratios beyond these leave slivers after two or three tails. */
export const RATIOS = { least: 0.2, most: 5 } as const;

/** A spread of 1 would allow a tail of no width. */
export const SPREADS = { least: 0, most: 0.9 } as const;

/** Every unsigned number of 32 bits starts another row. */
export const SEEDS = { least: 0, most: 2 ** 32 - 1 } as const;

/**
 * Of a bit or of hand-cut tails from square, degrees: flatter holds nothing, and at 45° wood breaks off in chips
 * (common practice, no source).
 */
export const ANGLES = { least: 0.5, under: 45 } as const;

/** A line wider than this is no line to saw to, mm. */
export const WIDEST_LINE = 2;

/** Reach of a lip past its joint, mm; 10 for 10 mm in an inch file is more. */
export const MAX_LIP = 100;

/** Tabs in one contour; more would hold no better. */
export const MAX_TABS = 40;

/** Speeds and feeds, mm a minute: 100 m. */
export const MAX_FEED = 100_000;

/** As machines take it in their S word. */
export const MAX_POWER = 100_000;

export const SPINDLE_SPEEDS = { least: 1, most: 200_000 } as const;

/** Pieces of one size in a job. */
export const MAX_PIECES = 200;

/** Characters of a title or a material, and of a name. */
export const LONGEST_TEXT = 200;
export const LONGEST_NAME = 60;

export const MAX_JOINTS = 200;

/** A row of bits or bushings longer than this is no workshop's. */
export const MAX_TOOLS = 1000;

/** Characters in one file; a job of 200 joints takes less than half of it. */
export const LONGEST_FILE = 200_000;

/** Words, colons, commas and line ends in one file; a job of 200 joints takes half of it. */
export const MAX_TOKENS = 60_000;

/** Maps and lists within one another; a job needs six. */
export const DEEPEST_NESTING = 40;

/** Values in one file with every alias written out. */
export const MAX_VALUES = 50_000;

/** Diagnostics reported for one job; the rest are counted. */
export const MAX_FINDINGS = 100;

/** A printer's bars never measure this far off unless they were mistaken for one another. */
export const PRINTER_SCALES = { least: 0.8, most: 1.25 } as const;

/** A wider line of a file hides what stands beside it, mm. */
export const MAX_STROKE = 1;

/** What pages of a print share, mm; more wastes paper. */
export const MAX_OVERLAP = 40;

/** Of one plate on the sheets; a class of joiners takes no more. */
export const MAX_COPIES = 50;

/** With more, a key no longer says where its part goes, mm. */
export const MAX_KEY_CLEARANCE = 1;

/** Tolerances of a size, ±, and limits of the play of a pair, mm; wider is none of a joint that is to close. */
export const MAX_TOLERANCE = 2;

/** Tolerance of a bit's angle, ±, degrees. */
export const MAX_ANGLE_TOLERANCE = 5;

/** A size of a trial piece or a tool that is measured further off is a slip in reading the caliper, mm. */
export const MAX_MEASURED_ERROR = 3;
