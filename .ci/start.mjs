// `npm start`: from a fresh clone to the made samples. Installs what is missing, builds, makes every sample
// of samples/ into out/. A sample with `refused` in its name shows what halfpin says to a job that cannot be cut.
import { spawnSync } from 'node:child_process';
import { mkdirSync, readdirSync } from 'node:fs';
import { basename } from 'node:path';
import { installWhatIsMissing, root } from './steps.mjs';

if (!installWhatIsMissing()) process.exit(1);
console.log('Building ...');
const { buildAll } = await import('./build.mjs');
if (!(await buildAll())) process.exit(1);

mkdirSync(`${root}/out`, { recursive: true });
const samples = readdirSync(`${root}/samples`)
  .filter((name) => /\.ya?ml$/.test(name) && !/^shop\b/.test(name))
  .sort((a, b) => Number(isToBeRefused(a)) - Number(isToBeRefused(b)) || (a < b ? -1 : 1));

const wrong = samples.filter((sample) => !makeSample(sample));
console.log(wrong.length === 0 ? closing() : `\nNot as it should be: ${wrong.join(', ')}`);
process.exitCode = wrong.length === 0 ? 0 : 1;

function makeSample(sample) {
  const folder = `out/${basename(sample).replace(/\.ya?ml$/, '')}`;
  console.log(`\n$ halfpin make samples/${sample} -o ${folder} --force`);
  const args = [`${root}/dist/halfpin.js`, 'make', `samples/${sample}`, '-o', folder, '--force'];
  const { status } = spawnSync(process.execPath, args, { cwd: root, stdio: 'inherit' });
  if (!isToBeRefused(sample)) return status === 0;
  console.log(
    '(This one is meant to be refused: it shows what is said when a joint cannot be cut as asked.)',
  );
  return status === 1;
}

function isToBeRefused(name) {
  return name.includes('refused');
}

function closing() {
  return [
    '',
    'Everything is in out/, a folder for each sample, with a folder for each joint in it.',
    'Look first at a finger-template .svg in a browser (templates), then at a pattern .pdf (print it at 100 %).',
    'Your own job: node dist/halfpin.js new through-dovetail -o my-joint.yaml',
  ].join('\n');
}
