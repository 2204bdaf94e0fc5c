/** Text for XML 1.0 and HTML, in elements and attributes: markup escaped, characters that XML can't hold shown as U+FFFD. */
export function escaped(words: string): string {
  return words
    .replace(/[^\t\n\r\u{20}-\u{D7FF}\u{E000}-\u{FFFD}\u{10000}-\u{10FFFF}]/gu, '\u{FFFD}')
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;');
}
