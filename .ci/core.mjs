// What every command needs that reads a job, in one file of the command instead of forty.
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { root } from './steps.mjs';

/** What is loaded only when a job is being read or has been. A part that is missing here is only slower to load. */
const loadedWithJob =
  /[\\/](cli[\\/](serve|kit|refit|tolerance)|src[\\/](kit[\\/]kit|pipeline|machine-files|nest-files|sheet-files|test-cut-job|solid-job|printer|writers[\\/](dxf|gcode|pdf|stl|svg|threemf)))\.ts$/;

const core = ['cli/job.ts', 'src/pipeline.ts'];

/**
 * The bundler puts modules into one file that are reached from the same entries, and each part that loads when it
 * is used is an entry. Parts that never load without the core are made to reach all of it, so that it stays whole:
 * `check` reads 20 files in place of 47, each of which costs Node half a millisecond.
 */
export const wholeCore = {
  name: 'whole core',
  setup(build) {
    build.onLoad({ filter: loadedWithJob }, ({ path }) => ({
      loader: 'ts',
      contents: [
        readFileSync(path, 'utf8'),
        ...core.map((one) => `import ${JSON.stringify(resolve(root, one))};`),
      ].join('\n'),
    }));
  },
};
