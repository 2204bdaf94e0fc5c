// How TypeScript becomes JavaScript that runs: one place for the command, the page, the benchmark and the soak.
import { rolldown } from 'rolldown';
import { root } from './steps.mjs';

/**
 * Bundles entries (paths from the project's folder) and gives the chunks, written or not.
 * `output` is rolldown's; with a `dir` or a `file` in it the chunks are written there.
 */
export async function bundle({ input, output, ...options }) {
  const bundler = await rolldown({
    cwd: root,
    input,
    // Where a package has a build for ES modules, take it: what isn't used of it can be left out.
    resolve: { mainFields: ['module', 'main'] },
    // pdf-lib's modules only define things when they are read, but its package.json leaves that unsaid: without
    // this, forms, fonts and the colours of CSS that the PDF writer never asks for would be kept.
    treeshake: { moduleSideEffects: [{ test: /[\\/](pdf-lib|culori)[\\/]/, sideEffects: false }] },
    onLog: (level, log, next) => (log.code === 'EVAL' ? undefined : next(level, log)),
    ...options,
  });
  const written = output.dir !== undefined || output.file !== undefined;
  const { output: chunks } = written ? await bundler.write(output) : await bundler.generate(output);
  await bundler.close();
  return chunks;
}
