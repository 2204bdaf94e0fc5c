/**
 * `npm run bench`: medians and ratios, all from one run on one machine. It prints and judges nothing by time:
 * an aim is written beside what was measured.
 */
import { parseArgs } from 'node:util';
import { boardKeys } from './board.js';
import { sixtyJoints } from './cabinet.js';
import { againstClipper } from './clipper.js';
import { coldStart } from './cold-start.js';
import { growth } from './growth.js';
import { kits } from './kit.js';
import { againstMakerjs } from './makerjs.js';

const { values } = parseArgs({ options: { root: { type: 'string', default: '.' } } });
const { root } = values;
console.log(`Node ${process.version}, ${process.platform} ${process.arch}\n`);
coldStart(root);
await growth();
kits();
againstMakerjs();
await againstClipper();
await sixtyJoints();
await boardKeys(root);
