/** A product that is in none of the formats beside it, or a format that none of the products beside it is in. */
export interface Unmade {
  readonly what: 'product' | 'format';
  readonly asked: string;
  readonly beside: readonly string[];
  /** Formats that there are of the product, or products that are in the format. */
  readonly works: readonly string[];
}

/** What is asked for in vain, and what works. */
export function unmadeWords({ what, asked, beside, works }: Unmade): string {
  const [lacking, instead] =
    what === 'product'
      ? [`there is no ${asked} as ${either(beside)}`, `as ${either(works)}`]
      : [`there is no ${asked} of ${either(beside)}`, `of ${either(works)}`];
  return works.length === 0 ? lacking : `${lacking}; it is made ${instead}`;
}

const reasons = {
  'by-hand': 'the joint is cut by hand: a cutter and a bushing give it finger templates',
  'no-holes': 'a plate without screw holes has nothing to hold a carrier by: leave out template.hole',
  'no-marker':
    'its line is as long as the board: mark from the full-size pattern, or draw along the finger template',
  folded: 'the marker is folded, of card or thin sheet: marker: { form: hook } makes one that can be printed',
} as const;

/** Sentences about what `make` is asked for and a joint has none of. */
export const askedWording = {
  'ask-unknown': (d: { key: 'only' | 'as' | 'joint'; read: string; works: readonly string[] }) =>
    `${d.key}: there is no ${JSON.stringify(d.read)}; ${d.works.length === 0 ? 'the job has no joints' : `it can be ${either(d.works)}`}`,
  'asked-unmade': ({ why, ...one }: Unmade & { why?: keyof typeof reasons | undefined }) =>
    `${unmadeWords(one)}${why === undefined ? '' : `; ${reasons[why]}`}`,
};

function either(words: readonly string[]): string {
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} or ${words.at(-1)}`;
}
