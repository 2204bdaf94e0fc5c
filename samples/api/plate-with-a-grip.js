/**
 * A template in a drawing of one's own, made with makerjs: the plate of a box joint gets a grip with a hole to hang
 * it by, drawn there as shapes that are joined to the plate's outline; the whole comes back as halfpin's drawing
 * and is written as SVG.
 *
 *   npm install halfpin makerjs
 *   node plate-with-a-grip.js grip.svg
 */
import { writeFile } from 'node:fs/promises';
import {
  defaultColours,
  families,
  formatDiagnostics,
  plan,
  readJob,
  formatterFor,
  svgWriter,
} from 'halfpin';
import { fromMaker, toMaker } from 'halfpin/makerjs';
import makerjs from 'makerjs';

const job = `
title: Specimen cabinet, slide box
units: mm
shop:
  units: mm
  bits: { six: { kind: straight, diameter: 6, height: 22 } }
  bushings: { ten: { outside: 10, bore: 8 } }
  plate: { material: plywood, thickness: 12, least-finger: 4 }
joints:
  box:
    kind: box
    width: 76
    boards: { one: { thickness: 9 }, two: { thickness: 9 } }
    layout: { spacing: even, finger: 11 }
    cutter: six
    bushing: ten
`;

/** The first plate of the job, nominal, with a grip where it is widest. */
export async function plateWithGrip() {
  const { result, locate, units } = readJob({ name: 'box.yaml', text: job }, families, () => undefined);
  if (!result.ok) throw new Error(formatDiagnostics(result.diagnostics, locate, formatterFor(units)).join('\n'));
  const { joints } = await plan(result.value, { only: ['finger'], as: [] });
  const plate = joints[0]?.made?.plates[0]?.nominal;
  if (!plate) throw new Error('the job has no plate');
  return fromMaker(withGrip(toMaker(plate)), { title: `${plate.title}, with a grip` });
}

/** The model with a rounded grip 60 by 40 mm that stands out of its upper edge by 30 mm. */
function withGrip(template) {
  const models = Object.values(template.models ?? {});
  const outlines = models.filter(({ layer }) => layer === 'CUT');
  const sizeOf = (model) => makerjs.measure.modelExtents(model);
  const [outline, ...holes] = [...outlines].sort((a, b) => sizeOf(b).width - sizeOf(a).width);
  if (!outline) throw new Error('the template has no outline');
  const { center, high } = sizeOf(outline);
  const [x = 0, y = 0] = [center[0], high[1]];
  // Lines that are to be joined are on one layer.
  const shape = { ...new makerjs.models.RoundRectangle(60, 40, 8), layer: 'CUT' };
  const grip = makerjs.model.move(shape, [x - 30, y - 10]);
  const body = makerjs.model.combineUnion(outline, grip);
  const hole = { paths: { hole: new makerjs.paths.Circle([x, y + 18], 4) } };
  const others = models.filter(({ layer }) => layer !== 'CUT');
  const parts = [body, hole, ...holes, ...others];
  return { units: 'mm', models: Object.fromEntries(parts.map((one, i) => [`${i + 1}`, one])) };
}

const [, , file] = process.argv;
if (file !== undefined) {
  const drawing = await plateWithGrip();
  if (!drawing.ok) throw new Error('the model can not be read');
  await writeFile(file, await svgWriter.write(drawing.value, { colours: defaultColours }));
}
