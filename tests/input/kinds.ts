import type { JobReading } from '../../src/input/read-job.js';
import { readJob } from '../../src/input/read-job.js';
import { boxFields } from '../../src/joints/box/fields.js';
import { throughDovetailFields } from '../../src/joints/through-dovetail/fields.js';

/** The kinds of joint that these tests read, without the rooms that solve them. */
export const kinds = [
  { kind: 'through-dovetail', fields: throughDovetailFields },
  { kind: 'box', fields: boxFields },
];

/** Reads a job that stands in the folder `cabinet`, with the other files there are, by path. */
export function readIn(files: Readonly<Record<string, string>>, text: string): JobReading {
  return readJob({ name: 'cabinet/tray.yaml', text }, kinds, (path) => files[path]);
}
