/** Fewer joints than this are made before anyone wonders. */
const WORTH_SAYING = 4;

/** A line on the terminal that counts joints as they are made, and is gone at the end; nothing for a pipe or a file. */
export function progressOf(stream: NodeJS.WriteStream = process.stderr) {
  const shown = stream.isTTY && process.env.TERM !== 'dumb';
  return {
    onJoint: (done: number, of: number, name: string) => {
      if (shown && of >= WORTH_SAYING) stream.write(`\r\u001b[K${done} of ${of} joints: ${name}`);
    },
    end: () => {
      if (shown) stream.write('\r\u001b[K');
    },
  };
}
