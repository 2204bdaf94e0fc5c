/**
 * The same value with every number in it rounded to so many parts of one, at any depth: a millionth of a millimetre
 * or a degree, unless said, is far under any wood and keeps 0.1 + 0.2 out of files.
 */
export function tidied<T>(value: T, parts = 1e6): T {
  if (typeof value === 'number') return (Math.round(value * parts) / parts + 0) as T; // + 0: never -0
  if (Array.isArray(value)) return value.map((one) => tidied(one, parts)) as T;
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, one]) => [key, tidied(one, parts)])) as T;
}
