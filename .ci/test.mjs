// `npm test`: installs what is missing, then build, format and lint, types, tests. Every step runs, whatever the
// ones before it gave; the last line is the count.
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { installWhatIsMissing, runPackage } from './steps.mjs';

const counts = { passed: 0, failed: 0 };

if (!installWhatIsMissing()) finish(1);
const { buildAll } = await import('./build.mjs');
step('build', await buildAll());
step('format and lint', runPackage('@biomejs/biome', ['check', '--error-on-warnings', '.']));
// What was checked is kept beside the packages: the next run looks at what has changed.
const cache = (part) => `node_modules/.cache/halfpin/${part.replace(/\W/g, '-')}.tsbuildinfo`;
for (const part of ['.', 'src/page', 'cli', 'tests'])
  step(
    `types of ${part}`,
    runPackage('typescript', ['-p', part, '--incremental', '--tsBuildInfoFile', cache(part)]),
  );
runTests();
finish(counts.failed);

function step(name, went) {
  counts[went ? 'passed' : 'failed'] += 1;
  console.log(`${went ? 'ok' : 'FAILED'}: ${name}`);
}

function runTests() {
  const folder = mkdtempSync(join(tmpdir(), 'halfpin-tests-'));
  const report = join(folder, 'report.json');
  const reporters = ['--reporter=default', '--reporter=json', `--outputFile.json=${report}`];
  const went = runPackage('vitest', ['run', '--config', 'tests/vitest.config.ts', ...reporters]);
  const { passed, failed, skipped } = countTests(report);
  rmSync(folder, { recursive: true, force: true });
  counts.passed += passed;
  // Something outside every test, such as an error that nobody caught, fails the run too.
  counts.failed += went ? failed : Math.max(failed, 1);
  if (skipped > 0) console.log(`${skipped} tests were left out`);
}

function countTests(report) {
  try {
    const { numPassedTests, numFailedTests, numPendingTests, testResults } = JSON.parse(
      readFileSync(report, 'utf8'),
    );
    const unloaded = testResults.filter(
      ({ status, assertionResults }) =>
        status === 'failed' && assertionResults.every((one) => one.status !== 'failed'),
    );
    return {
      passed: numPassedTests,
      failed: numFailedTests + unloaded.length,
      skipped: numPendingTests,
    };
  } catch {
    return { passed: 0, failed: 1, skipped: 0 };
  }
}

function finish(code) {
  if (counts.passed + counts.failed === 0) counts.failed = 1; // the packages could not be installed
  console.log(`${counts.passed} passed, ${counts.failed} failed`);
  process.exit(code === 0 ? 0 : 1);
}
