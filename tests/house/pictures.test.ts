import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import type { Drawing, Layer } from '../../src/drawing/model.js';
import { sayIn } from '../../src/findings/say.js';
import { patterns } from '../../src/pattern/pattern.js';
import { jointViews } from '../../src/sheet/joint-views.js';
import { svgWriter } from '../../src/writers/svg.js';
import { readSample, root, solveOnly } from '../support/jobs.js';

/**
 * The README's pictures are what the program draws. When one changes, the new one is written beside it as
 * `-changed`: look at it, and move it over the old one if it is right.
 */
const job = readSample('small-tray.yaml');
const { made } = solveOnly(job);
if (!made) throw new Error('the small tray cannot be made');

const edging = solveOnly(readSample('edge-drawer-edging.yaml')).made;
if (!edging) throw new Error('the drawer edging cannot be made');

const drawings: readonly (readonly [string, Drawing | undefined])[] = [
  ['template', made.templates.find(({ plate }) => plate.name === 'finger-template-pins')?.drawing],
  ['joint', jointViews(made.solved, 'The closed joint')],
  ['edge', jointViews(edging.solved, 'Two boards along a line')],
  [
    'pattern',
    patterns(made.solved, job.title, sayIn(job.units)).find(({ name }) => name === 'pattern-pins')?.drawing,
  ],
];

it.each(drawings)('the picture of the %s is what the program draws', (name, drawing) => {
  if (!drawing) throw new Error(`nothing drawn for ${name}`);
  const colours = job.shop.colours as Readonly<Record<Layer, string>>;
  const drawn = svgWriter.write(drawing, { colours, picture: true, strokeWidth: 0.4 });
  const path = join(root, 'samples/pictures', `${name}.svg`);
  const kept = existsSync(path) ? readFileSync(path, 'utf8') : '';
  if (drawn !== kept) writeFileSync(path.replace('.svg', '-changed.svg'), String(drawn));
  expect(drawn === kept, `samples/pictures/${name}.svg differs: look at ${name}-changed.svg`).toBe(true);
});
