import { defineConfig } from 'vitest/config';

export default defineConfig({
  // The samples of the API are tried with the sources, and as they are shipped in house/package.test.ts.
  resolve: {
    alias: [{ find: /^halfpin$/, replacement: new URL('../src/index.ts', import.meta.url).pathname }],
  },
  test: {
    root: new URL('..', import.meta.url).pathname,
    include: ['tests/**/*.test.ts'],
    globalSetup: ['tests/global-setup.ts'],
    testTimeout: 120_000,
    pool: 'forks',
    maxWorkers: 2,
  },
});
