import { describe, expect, test } from 'vitest';
import { plainWords } from '../../cli/plain-words.js';

describe('what is wrong with a command line', () => {
  test.each([
    [
      "error: required option '-o, --output <folder>' not specified",
      ['make', 'tray.yaml'],
      '--output is missing; add the folder to write into, such as -o tray',
    ],
    [
      "error: required option '-o, --output <folder>' not specified",
      ['make', 'tray.yaml', '--ouput', 'x'],
      "unknown option '--ouput'; did you mean --output?",
    ],
    [
      "error: missing required argument 'job'",
      ['check'],
      'the job is missing; write the name of a job file behind the command',
    ],
    [
      "error: too many arguments for 'make'. Expected 1 argument but got 2.",
      ['make', 'a.yaml', '--as', 'svg', 'dxf'],
      'several formats stand with commas',
    ],
    [
      "error: too many arguments for 'printer'. Expected 0 arguments but got 1.",
      ['printer', 'pge'],
      'printer page, or printer set?',
    ],
    [
      "error: option '--as <formats>' argument 'dwg' is invalid. \"dwg\" is none of svg, dxf.",
      [],
      '--as dwg: "dwg" is none of svg, dxf',
    ],
    [
      "error: option '-o, --output <folder>' argument missing",
      [],
      'nothing stands behind -o, --output; write -o, --output <folder>',
    ],
    ["error: unknown command 'tray.yaml'", ['tray.yaml'], 'halfpin make tray.yaml -o FOLDER makes its files'],
  ])('%s', (said, args, words) => {
    const answer = plainWords(`${said}\n`, args);
    expect(answer).toContain(words);
    expect(answer).toMatch(/^halfpin: .*\n$/);
    expect(answer).not.toMatch(/argument|specified|invalid/);
  });
});
