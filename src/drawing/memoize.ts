/**
 * A pure function of a text that works each text out once. Lettering asks for the same few letters thousands
 * of times; what is remembered is only ever what would be worked out again.
 */
export function memoize<V>(work: (text: string) => V): (text: string) => V {
  const known = new Map<string, V>();
  return (text) => {
    const found = known.get(text);
    if (found !== undefined || known.has(text)) return found as V;
    const value = work(text);
    known.set(text, value);
    return value;
  };
}
