import { describe, expect, it } from 'vitest';
import { besideFile, isSameFile } from '../../src/input/yaml/file-path.js';

describe('a path in a job file', () => {
  it.each([
    ['samples/tray.yaml', './shop.yaml', 'samples/shop.yaml'],
    ['samples/tray.yaml', '../shop.yaml', 'samples/../shop.yaml'],
    ['tray.yaml', 'shop.yaml', 'shop.yaml'],
    ['-', './shop.yaml', 'shop.yaml'],
    ['/home/a/tray.yaml', 'shop.yaml', '/home/a/shop.yaml'],
    ['samples\\tray.yaml', 'shop.yaml', 'samples\\shop.yaml'],
    ['samples/tray.yaml', '/etc/shop.yaml', '/etc/shop.yaml'],
    ['samples/tray.yaml', 'C:\\shop.yaml', 'C:\\shop.yaml'],
  ])('of %s, %s, is %s', (from, path, expected) => expect(besideFile(from, path)).toBe(expected));

  it('is the job itself however it is written', () => {
    expect(isSameFile('a/tray.yaml', './a/tray.yaml')).toBe(true);
    expect(isSameFile('a/tray.yaml', 'a\\tray.yaml')).toBe(true);
    expect(isSameFile('a/tray.yaml', 'tray.yaml')).toBe(false);
    expect(isSameFile('../tray.yaml', 'tray.yaml')).toBe(false);
  });
});
