#!/usr/bin/env node
import module from 'node:module';

// Node 22.1 and later keep compiled code between runs, in the folder for temporary files; older ones don't.
(module as { enableCompileCache?: () => unknown }).enableCompileCache?.();

const { main } = await import('./program.js');
process.exitCode = await main(process.argv.slice(2));
