/** Paths as the job file writes them, on any system; nothing here touches a disk. */

/** `path` as seen from the folder of the file `from`; absolute paths stay as they are. */
export function besideFile(from: string, path: string): string {
  if (/^([/\\]|[a-z]:)/i.test(path)) return path;
  const folder = /^(.*[/\\])/.exec(from)?.[1] ?? '';
  return `${folder}${path.replace(/^(\.[/\\])+/, '')}`;
}

/** Whether two paths name one file as far as their text tells. */
export function isSameFile(one: string, other: string): boolean {
  return steps(one) === steps(other);
}

function steps(path: string): string {
  const kept: string[] = [];
  for (const step of path.split(/[/\\]+/)) {
    if (step === '.') continue;
    const above = kept.at(-1);
    if (step === '..' && above !== undefined && above !== '..' && above !== '') kept.pop();
    else kept.push(step);
  }
  return kept.join('/');
}
