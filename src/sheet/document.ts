import type { Item } from '../drawing/model.js';

/**
 * What a set-up sheet says and shows, in the order in which it is read. Paper and screen are made from the
 * same blocks: `pages.ts` sets them on sheets of paper, `html.ts` writes them for a browser.
 */
export interface SheetDocument {
  readonly title: string;
  /** One line under the title. */
  readonly subtitle: string;
  readonly blocks: readonly Block[];
}

export type Block = Heading | Words | Steps | Table | Figures | Form | Bench;

/** What is needed at the router, on a page of its own: what is set, and a card for each cut in the order of work. */
export interface Bench {
  readonly kind: 'bench';
  readonly settings: readonly Setting[];
  /** Numbers of the cards that are cut first, on scrap; none on a page for many joints. */
  readonly trial: readonly number[];
}

/** One setting of the router and what is cut with it. */
export interface Setting {
  readonly numbers: readonly SetNumber[];
  readonly cards: readonly Card[];
  /** In place of cards where one page is for many joints: what is cut, each with a box to tick. */
  readonly cuts?: readonly string[];
}

export interface SetNumber {
  readonly label: string;
  readonly value: string;
  readonly detail?: string;
}

/** One end of one board under its plate. */
export interface Card {
  readonly number: number;
  /** `B left end`. */
  readonly title: string;
  /** `corner 2`; empty where there is none. */
  readonly place: string;
  /** Boxes to tick: as many ends are cut so. */
  readonly ticks: number;
  readonly lines: readonly string[];
  readonly picture: Picture;
}

/** A drawing that fills the room that it gets. */
export interface Picture {
  /** What is to be seen, for readers who do not see it. */
  readonly words: string;
  /** Items in a room this wide and no higher than `height`, mm; their lower left corner anywhere. */
  readonly draw: (width: number, height: number) => readonly Item[];
}

export interface Heading {
  readonly kind: 'heading';
  readonly text: string;
}

/** Paragraphs in the letters of tables. */
export interface Words {
  readonly kind: 'words';
  readonly paragraphs: readonly string[];
}

/** Numbered, in the order of work, one line each. */
export interface Steps {
  readonly kind: 'steps';
  /** The first step's number; 1 when left out. */
  readonly from?: number;
  readonly steps: readonly SheetStep[];
}

export interface SheetStep {
  readonly text: string;
  /** What can hurt, said where the step needs it. */
  readonly caution?: string;
}

export interface Table {
  readonly kind: 'table';
  /** `share` of the width; shares sum to 1. */
  readonly columns: readonly { readonly title: string; readonly share: number }[];
  readonly rows: readonly (readonly string[])[];
}

/** Figures side by side. */
export interface Figures {
  readonly kind: 'figures';
  readonly figures: readonly Figure[];
}

export interface Figure {
  readonly title: string;
  /** What is to be seen, for readers who do not see it. */
  readonly words: string;
  /** Share of the width; shares of a row sum to 1. */
  readonly share: number;
  /** Height that the drawing may take on paper, mm. */
  readonly room: number;
  /** Height that it keeps on a sheet that is too long, mm. */
  readonly least?: number;
  /** false for a diagram that has no scale. */
  readonly scaled: boolean;
  /** The drawing at a scale, in mm on paper: 0.5 is half size. Letters keep their size at any scale. */
  readonly draw: (scale: number) => readonly Item[];
}

/** Boxes to write in by hand. */
export interface Form {
  readonly kind: 'form';
  readonly fields: readonly FormField[];
}

export interface FormField {
  readonly label: string;
}

/** The trial joint, by the cards that it is cut by. */
export function trialWords(trial: readonly number[]): string {
  const [cards, setUps] = trial.length > 1 ? ['cards', 'both set-ups'] : ['card', 'the set-up'];
  return `First a trial joint on scrap, by ${cards} ${trial.join(' and ')}; leave ${setUps} until it fits.`;
}

/** Scales that a figure may have, largest first: each can be said in whole numbers. */
export const scaleChoices: readonly number[] = [
  2,
  1,
  1 / 2,
  1 / 3,
  1 / 4,
  1 / 5,
  1 / 6,
  1 / 8,
  1 / 10,
  1 / 15,
  1 / 20,
  1 / 30,
  1 / 50,
  1 / 100,
];

/** `full size`, `half size, 1:2`, `1:5`, `2:1`. */
export function scaleWords(scale: number): string {
  if (scale === 1) return 'full size, 1:1';
  return scale > 1 ? `${Math.round(scale)}:1` : `1:${Math.round(1 / scale)}`;
}
