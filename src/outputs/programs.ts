import { backplot } from '../cam/program/backplot.js';
import { beamProgram } from '../cam/program/beam-program.js';
import { replay } from '../cam/program/interpreter.js';
import { millPrograms, type NamedProgram } from '../cam/program/mill-program.js';
import { beamFaultsOf, faultsOf } from '../cam/program/replay.js';
import { beamSettings, millSettings } from '../cam/settings.js';
import { ok, type Result } from '../diagnostics/diagnostic.js';
import type { ToolProgram } from '../drawing/tool-moves.js';
import type { Shop } from '../input/types.js';
import { gcodeWriter } from '../writers/gcode.js';
import { pictureWriter } from '../writers/picture.js';
import { artifact, type Outputs, type Owner, once, outputs, together } from './artifact.js';
import type { PreparedPlate } from './plates.js';

/** Programs that cut plates, each with a picture of what it does, which is drawn from its text. */

export function programOutputs(plates: readonly PreparedPlate[], shop: Shop, owner: Owner): Outputs {
  return together(plates.map((plate) => outputsOf(plate, shop, owner)));
}

function outputsOf(plate: PreparedPlate, shop: Shop, owner: Owner): Outputs {
  const programs = programsOf(plate, shop);
  if (!programs.ok) return outputs([], programs.diagnostics);
  const { name, nominal } = plate;
  const { colours } = shop;
  const files = programs.value.flatMap(({ suffix, program }) => {
    const text = once(() => programText(plate, program, shop));
    return [
      artifact(owner, `${name}${suffix}.ngc`, text, programs.diagnostics),
      artifact(owner, `${name}${suffix}-backplot.svg`, () => {
        const picture = backplot(text(), nominal.title, program.blank);
        return pictureWriter.write(picture, { colours });
      }),
    ];
  });
  return outputs(files, programs.diagnostics);
}

function programsOf({ name, nominal, path }: PreparedPlate, shop: Shop): Result<readonly NamedProgram[]> {
  if (shop.plate.cutFor === 'laser') {
    const settings = beamSettings(shop.laser);
    if (!settings.ok) return settings;
    const made = beamProgram(nominal, path, settings.value, { name, at: 'shop.laser' });
    return made.ok ? ok([{ suffix: '', program: made.value }], made.diagnostics) : made;
  }
  const settings = millSettings(shop.cnc, shop.plate);
  return settings.ok
    ? millPrograms(nominal, path, settings.value, { name, at: 'shop.cnc.cutter' })
    : settings;
}

/** No program leaves that its own replay finds fault with; a fault is one of halfpin itself. */
function programText({ name }: PreparedPlate, program: ToolProgram, shop: Shop): string {
  const { plate, cnc } = shop;
  const text = gcodeWriter.write(program);
  const played = replay(text);
  const { tool, blank } = program;
  const settings = millSettings(cnc, plate);
  const faults =
    tool.kind === 'spindle' && settings.ok
      ? faultsOf(played, { ...settings.value, blank })
      : beamFaultsOf(played);
  const [first] = faults;
  if (first) throw new Error(`the program of ${name}, line ${first.line}: ${first.what}`);
  return text;
}
