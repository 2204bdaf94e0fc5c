import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { formatterFor } from '../../src/diagnostics/formatter.js';
import type { Drawing } from '../../src/drawing/model.js';
import { solveJob } from '../../src/outputs/joint.js';
import { boardFigures } from '../../src/sheet/board-blocks.js';
import type { Figure } from '../../src/sheet/document.js';
import { closedFigure } from '../../src/sheet/joint-figures.js';
import { patterns } from '../../src/template/patterns/pattern.js';
import { pictureWriter } from '../../src/writers/picture.js';
import { readSample, root } from '../support/jobs.js';

/**
 * The README's pictures are what the program draws. When one changes, the new one is written beside it as
 * `-changed`: look at it, and move it over the old one if it is right.
 */
const tray = sample('small-tray.yaml');
const edging = sample('edge-drawer-edging.yaml');

const drawings: readonly (readonly [string, Drawing | undefined])[] = [
  ['template', tray.made.templates.find(({ plate }) => plate.name === 'finger-template-pins')?.drawing],
  ['joint', shown('The closed joint', closedFigure(tray.made.solved))],
  [
    'pattern',
    patterns(tray.made.solved, tray.job.title, formatterFor(tray.job.units)).find(
      ({ name }) => name === 'pattern-pins',
    )?.drawing,
  ],
  ['half-blind', closed('cabinet.yaml', 'drawer-1')],
  ['edge', shown('Two boards along a line', boardFigures(edging.made.solved)[1])],
  ['box', closed('slide-box.yaml', 'slide-box')],
];

function sample(name: string, joint?: string) {
  const job = readSample(name);
  const { made } = solveJob(job, joint)[0] ?? {};
  if (!made) throw new Error(`${joint ?? name} cannot be made`);
  return { job, made };
}

/** A figure of the set-up sheet at full size. */
function shown(title: string, figure: Pick<Figure, 'words' | 'draw'> | undefined): Drawing | undefined {
  return figure && { title, notes: [figure.words], items: figure.draw(1) };
}

function closed(name: string, joint: string): Drawing | undefined {
  return shown(`The closed joint: ${joint}`, closedFigure(sample(name, joint).made.solved));
}

it.each(drawings)('the picture of the %s is what the program draws', (name, drawing) => {
  if (!drawing) throw new Error(`nothing drawn for ${name}`);
  const { colours } = tray.job.shop;
  const drawn = pictureWriter.write(drawing, { colours });
  const path = join(root, 'samples/pictures', `${name}.svg`);
  const kept = existsSync(path) ? readFileSync(path, 'utf8') : '';
  if (drawn !== kept) writeFileSync(path.replace('.svg', '-changed.svg'), String(drawn));
  expect(drawn === kept, `samples/pictures/${name}.svg differs: look at ${name}-changed.svg`).toBe(true);
});
