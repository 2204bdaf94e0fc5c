import type { PaperChoice } from '../../shared/paper.js';
import { formatterFor } from '../../src/diagnostics/formatter.js';
import { closed, open, text } from '../../src/drawing/drawing.js';
import type { Drawing, WriterOptions } from '../../src/drawing/model.js';
import { pagesOn } from '../../src/drawing/tiling/tiling.js';
import type { PaperOptions } from '../../src/drawing/tiling/types.js';
import { circle, roundedRectangle } from '../../src/geometry/outline.js';
import { line } from '../../src/geometry/segment.js';
import { patterns } from '../../src/template/patterns/pattern.js';
import { pdfWriter } from '../../src/writers/pdf/pdf.js';
import { readSample, solveOnly } from '../support/jobs.js';

/** Drawings to be printed: most are invented for these tests, plates with slots along one edge, not alike either way. */

export const colours = {
  CUT: '#d55e00',
  SCORE: '#0072b2',
  ENGRAVE: '#cc79a7',
  REF: '#009e73',
  STOCK: '#56b4e9',
} as const;

export type PdfOptions = WriterOptions & PaperOptions;

export const options = (paper: PaperChoice, more: Partial<PdfOptions> = {}): PdfOptions => ({
  colours,
  paper,
  margin: 10,
  scaleX: 1,
  scaleY: 1,
  ...more,
});

/** The PDF of a drawing on the paper that is asked for. */
export const printed = (drawing: Drawing, wanted: PdfOptions): Promise<Uint8Array> =>
  pdfWriter.write(pagesOn(drawing, wanted), wanted);

/** A plate with a slot every 40 mm, a dashed centre line, a scored line and a label. */
export function plate(width: number, height: number): Drawing {
  const slots = Array.from({ length: Math.floor((width - 20) / 40) }, (_, i) =>
    closed('CUT', roundedRectangle(i * 40 + 14, height * 0.55, i * 40 + 33, height - 12, 9)),
  );
  return {
    title: 'Specimen cabinet: tray-corner, finger template, tails',
    notes: ['Nominal: no kerf is compensated.'],
    items: [
      closed('CUT', roundedRectangle(0, 0, width, height, 8)),
      ...slots,
      closed('CUT', circle({ x: 12, y: 12 }, 2.5)),
      open(
        'REF',
        { closed: false, segments: [line({ x: 0, y: height / 2 }, { x: width, y: height / 2 })] },
        true,
      ),
      open('SCORE', {
        closed: false,
        segments: [line({ x: 0, y: height / 3 }, { x: width, y: height / 3 })],
      }),
      text('ENGRAVE', 'tails', { x: 24, y: 14 }, 5),
    ],
  };
}

/** Lines across everywhere, so that every page has something. */
export function hatched(width: number, height: number): Drawing {
  const base = plate(width, height);
  const count = Math.ceil(height / 25);
  const lines = Array.from({ length: count }, (_, i) => {
    const y = ((i + 0.5) * height) / count;
    return open('REF', { closed: false, segments: [line({ x: 0, y }, { x: width, y })] });
  });
  return { ...base, items: [...base.items, ...lines] };
}

/** The first pattern of a sample, with its own printer. */
export function samplePattern(name: string): readonly [Drawing, PdfOptions] {
  const job = readSample(name);
  const { made } = solveOnly(job);
  const [pattern] = made ? patterns(made.solved, job.title, formatterFor(job.units)) : [];
  if (!pattern) throw new Error(`${name} has no pattern`);
  return [pattern.drawing, { ...job.shop.printer, colours }];
}
