/**
 * What is done to the sheet along a line, in the order in which a machine takes it: ENGRAVE is lettering in single
 * strokes, SCORE a shallow line, CUT goes through; REF is for reading only, STOCK is the end of the board under the
 * template. Layers of files have these names.
 */
export const operations = ['ENGRAVE', 'SCORE', 'CUT', 'REF', 'STOCK'] as const;

export type Operation = (typeof operations)[number];

/** Colour of each operation in files, `#RRGGBB`. */
export type Colours = Readonly<Record<Operation, string>>;

/**
 * The set of Okabe and Ito (Color Universal Design, 2008), which readers with any kind of colour vision tell apart.
 */
export const palette = {
  black: '#000000',
  orange: '#E69F00',
  sky: '#56B4E9',
  green: '#009E73',
  yellow: '#F0E442',
  blue: '#0072B2',
  vermilion: '#D55E00',
  purple: '#CC79A7',
} as const;

/** Colours where the shop gives none. Yellow is left out: it shows poorly on white. */
export const defaultColours: Colours = {
  ENGRAVE: palette.green,
  SCORE: palette.blue,
  CUT: palette.vermilion,
  REF: palette.purple,
  STOCK: palette.sky,
};
