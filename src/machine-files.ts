import type { Drawing, Layer } from './drawing/model.js';
import type { ToolProgram } from './drawing/tool-moves.js';
import { type Finding, finding, given, type Result } from './findings/finding.js';
import type { Say } from './findings/say.js';
import type { Joint, Shop } from './job/types.js';
import { backplot } from './plate-cut/backplot.js';
import { beamProgram } from './plate-cut/beam-program.js';
import { MACHINE_FIRST } from './plate-cut/cautions.js';
import type { Cutting } from './plate-cut/compensated.js';
import { holdingOf, printHolding } from './plate-cut/holding.js';
import { replay } from './plate-cut/interpreter.js';
import { millPrograms, type NamedProgram } from './plate-cut/mill-program.js';
import { beamFaultsOf, faultsOf } from './plate-cut/replay.js';
import { beamSettings, millSettings } from './plate-cut/settings.js';
import { gcodeWriter } from './writers/gcode.js';
import type { MachineFormat } from './writers/list.js';
import { solidOf } from './writers/solid.js';
import { stlWriter } from './writers/stl.js';
import { svgWriter } from './writers/svg.js';
import { threeMfWriter } from './writers/threemf.js';

/** Files of a plate for machines that need more than a drawing: programs, and solids to be printed. */

export interface MachineFiles {
  readonly files: readonly { readonly path: string; readonly content: string | Uint8Array }[];
  readonly findings: readonly Finding[];
}

interface Plate {
  readonly name: string;
  readonly drawing: Drawing;
}

export interface PlatesAsked {
  readonly fingers: readonly Plate[];
  readonly markers: readonly Plate[];
  readonly joint: Joint;
  readonly shop: Shop;
  readonly say: Say;
  /** The finger templates once more, with what cuts them on their labels. */
  readonly labelled: (cutting: Cutting) => Result<readonly Plate[]>;
}

/** Finger templates as programs or solids; a marker is printed when it is made to hook, for a folded one is of card. */
export function machineFiles(format: MachineFormat, asked: PlatesAsked): MachineFiles {
  const { fingers, markers, joint, shop, say } = asked;
  if (format === 'gcode') {
    if (fingers.length === 0) return { files: [], findings: [] };
    const cutting = programCutting(shop);
    if (!cutting.ok) return { files: [], findings: cutting.findings };
    const plates = asked.labelled(cutting.value);
    if (!plates.ok) return { files: [], findings: plates.findings };
    return gathered(
      plates.value.map(({ name, drawing }) => ({ name, made: programFiles(name, drawing, shop) })),
    );
  }
  const hooked = joint.marker?.form === 'hook';
  const solids = [
    ...fingers.map((one) => ({ ...one, thickness: shop.plate.thickness })),
    ...(hooked ? markers.map((one) => ({ ...one, thickness: shop.print?.marker ?? PRINTED_MARKER })) : []),
  ];
  const { files, findings } = gathered(
    solids.map(({ name, drawing, thickness }) => ({
      name,
      made: solidFile(format, name, drawing, thickness, shop, say),
    })),
  );
  const at = `joints.${joint.name}.marker.form`;
  const folded = markers.length > 0 && !hooked ? [finding('marker-not-printed', 'ok', at, { format })] : [];
  return { files, findings: [...folded, ...findings] };
}

/** Thickness of a printed marker, mm, unless the shop says another: stiff enough, thin enough to mark along. */
const PRINTED_MARKER = 1.2;

/** A file by what is added to its plate's name. */
interface MachineFile {
  readonly ending: string;
  readonly content: string | Uint8Array;
}

function gathered(
  plates: readonly { readonly name: string; readonly made: Result<readonly MachineFile[]> }[],
): MachineFiles {
  return {
    files: plates.flatMap(({ name, made }) =>
      made.ok ? made.value.map(({ ending, content }) => ({ path: `${name}${ending}`, content })) : [],
    ),
    findings: plates.flatMap(({ made }) => made.findings),
  };
}

/** What cuts plates by a program: a laser if the shop cuts its plates for one, else a router table. */
const programCutting = (shop: Shop): Result<Cutting> => {
  if (shop.plate.cutFor === 'laser') {
    const settings = beamSettings(shop.laser);
    return settings.ok ? given({ for: 'laser', kerf: settings.value.kerf }) : settings;
  }
  const settings = millSettings(shop.cnc, shop.plate);
  return settings.ok ? given({ for: 'cnc', ...settings.value }) : settings;
};

/** Programs of a plate, each with a picture of what it does, which is drawn from its text. */
function programFiles(name: string, drawing: Drawing, shop: Shop): Result<readonly MachineFile[]> {
  const colours = shop.colours as Readonly<Record<Layer, string>>;
  const programs = programsOf(name, drawing, shop);
  if (!programs.ok) return programs;
  const files = programs.value.flatMap(({ suffix, program }): readonly MachineFile[] => {
    const text = String(gcodeWriter.write(drawing, { colours, program }));
    prove(name, text, program, shop);
    const picture = backplot(text, drawing.title, program.blank);
    return [
      { ending: `${suffix}.ngc`, content: text },
      {
        ending: `${suffix}-backplot.svg`,
        content: String(svgWriter.write(picture, { colours, picture: true })),
      },
    ];
  });
  return given(files, programs.findings);
}

function programsOf(name: string, drawing: Drawing, shop: Shop): Result<readonly NamedProgram[]> {
  if (shop.plate.cutFor === 'laser') {
    const settings = beamSettings(shop.laser);
    if (!settings.ok) return settings;
    const made = beamProgram(drawing, settings.value, { name, at: 'shop.laser' });
    return made.ok ? given([{ suffix: '', program: made.value }], made.findings) : made;
  }
  const settings = millSettings(shop.cnc, shop.plate);
  return settings.ok ? millPrograms(drawing, settings.value, { name, at: 'shop.cnc.cutter' }) : settings;
}

/** No program leaves that its own replay finds fault with; a fault is one of halfpin itself. */
function prove(name: string, text: string, { tool, blank }: ToolProgram, { plate, cnc }: Shop): void {
  const played = replay(text);
  const settings = millSettings(cnc, plate);
  const faults =
    tool.kind === 'spindle' && settings.ok
      ? faultsOf(played, { ...settings.value, blank })
      : beamFaultsOf(played);
  const [first] = faults;
  if (first) throw new Error(`the program of ${name}, line ${first.line}: ${first.what}`);
}

/** A plate as a solid to be printed. */
function solidFile(
  format: '3mf' | 'stl',
  name: string,
  drawing: Drawing,
  thickness: number,
  shop: Shop,
  say: Say,
): Result<readonly MachineFile[]> {
  const { print = {} } = shop;
  const options = { colours: shop.colours as Readonly<Record<Layer, string>>, thickness, ...print };
  if (!solidOf(drawing, options)) return { ok: false, findings: [easeFinding(name, print.ease ?? 0)] };
  const writer = format === 'stl' ? stlWriter : threeMfWriter;
  const nominal = holdingOf({ for: 'nominal' }, say).note;
  const others = drawing.notes.filter((note) => note !== nominal);
  const notes = [printHolding(print, say), ...others, MACHINE_FIRST];
  // STL has room for no more than a title.
  const title = format === 'stl' ? `Nominal. ${drawing.title}` : drawing.title;
  const content = writer.write({ ...drawing, title, notes }, options);
  return given([{ ending: `.${writer.extension}`, content: content as Uint8Array }]);
}

const easeFinding = (name: string, ease: number): Finding =>
  finding('ease-too-large', 'refused', 'shop.print.ease', { name, ease });
