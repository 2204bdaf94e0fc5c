// Steps that `npm start`, `npm test` and `npm run bench` share. Only Node itself is needed to run them.
import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

export const root = fileURLToPath(new URL('..', import.meta.url));

/** Runs a program in the project's folder with its output on this terminal; true when it exits with 0. */
export function run(program, args, options = {}) {
  const done = spawnSync(program, args, { cwd: root, stdio: 'inherit', ...options });
  if (done.error) console.error(`cannot run ${program}: ${done.error.message}`);
  return done.status === 0;
}

export function runNode(args, options) {
  return run(process.execPath, args, options);
}

/** Runs the program of an installed package by the file that its package.json names. */
export function runPackage(name, args, options) {
  const folder = `${root}/node_modules/${name}`;
  const { bin } = JSON.parse(readFileSync(`${folder}/package.json`, 'utf8'));
  const file = typeof bin === 'string' ? bin : Object.values(bin)[0];
  return runNode([`${folder}/${file}`, ...args], options);
}

/** Installs the packages of the lock file, unless they all stand there already. */
export function installWhatIsMissing() {
  if (isInstalled()) return true;
  console.log('Installing packages (npm ci) ...');
  const npm = process.env.npm_execpath;
  const args = ['ci', '--no-audit', '--no-fund'];
  return npm ? runNode([npm, ...args]) : run('npm', args, { shell: process.platform === 'win32' });
}

/** npm keeps a copy of the lock file of what it installed; packages for other machines are not in it. */
function isInstalled() {
  const kept = `${root}/node_modules/.package-lock.json`;
  if (!existsSync(kept)) return false;
  const wanted = JSON.parse(readFileSync(`${root}/package-lock.json`, 'utf8')).packages;
  const there = JSON.parse(readFileSync(kept, 'utf8')).packages;
  return Object.entries(wanted).every(
    ([place, { version, optional }]) => place === '' || optional || there[place]?.version === version,
  );
}

/** When the newest file that goes into dist/ was changed, ms. */
export function newestSource() {
  const folders = ['src', 'cli', 'shared', '.ci'].flatMap((folder) =>
    readdirSync(`${root}/${folder}`, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile() && !entry.name.endsWith('.md'))
      .map(({ parentPath, name }) => `${parentPath}/${name}`),
  );
  const files = [...folders, `${root}/package.json`, `${root}/package-lock.json`, `${root}/tsconfig.json`];
  return Math.max(...files.map((file) => statSync(file).mtimeMs));
}
