/** Characters that move a cursor, start a line or turn the direction of reading: no text that is shown holds one. */
const UNSHOWN = /[\p{Cc}\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069]/u;
const EVERY_UNSHOWN = new RegExp(UNSHOWN, 'gu');

/** Text that was read, for one line of a message or a page: it can do nothing there but be read. */
export function plainText(text: string): string {
  return text.replace(EVERY_UNSHOWN, '\u{fffd}');
}

/** Whether a text can be shown as it is. */
export function isPlainText(text: string): boolean {
  return !UNSHOWN.test(text);
}
