import type { Formatter } from '../formatter.js';

/** Sentences about cutting the plate: kerf, cutters, programs, printing. Lengths in mm. */
export const plateCutWording = {
  'kerf-missing': (_: Readonly<Record<never, never>>) =>
    'plate.cut-for is laser and laser.kerf is not given: cut ten slips side by side from a strip of this sheet, measure what the strip lost, and a tenth of it is the kerf (a strip lost 1.6 mm: kerf: 0.16 mm)',
  'cutter-missing': (_: Readonly<Record<never, never>>) =>
    'plate.cut-for is cnc and cnc.cutter is not given: mill a slot in one pass, measure it, and write its width (cutter: 1/8 in)',
  'kerf-fills-gap': (d: { name: string; x: number; y: number; kerf: number; more: number }, fmt: Formatter) =>
    `${d.name}: a gap near ${placeWords(d, fmt)} is narrower than the kerf of ${fmt.length(d.kerf)}${andMore(d.more)}; a narrower kerf or nominal outlines would do`,
  'corner-under-mill': (
    d: {
      name: string;
      x: number;
      y: number;
      radius: number;
      cutter: number;
      largest: number;
      more: number;
    },
    fmt: Formatter,
  ) =>
    `${d.name}: the inside corner at ${placeWords(d, fmt)} ${d.radius < 0.01 ? 'is sharp' : `has a radius of ${fmt.length(d.radius)}`} and the end mill has one of ${fmt.length(d.cutter / 2)}${andMore(d.more)}; relief: corner or relief: edge under cnc lets it cut past the corner${d.largest >= MIN_MILL ? `, and an end mill of up to ${fmt.length(d.largest)} needs none` : '; no end mill makes it as drawn'}`,
  'gap-under-mill': (
    d: { name: string; x: number; y: number; cutter: number; largest: number; more: number },
    fmt: Formatter,
  ) =>
    `${d.name}: a gap near ${placeWords(d, fmt)} is narrower than the end mill of ${fmt.length(d.cutter)}${andMore(d.more)}; ${d.largest >= MIN_MILL ? `an end mill of up to ${fmt.length(d.largest)} would do` : 'no end mill would do'}`,
  'corners-relieved': (d: { name: string; count: number; relief: string; cutter: number }, fmt: Formatter) =>
    `${d.name}: ${d.count === 1 ? 'one inside corner is' : `${d.count} inside corners are`} relieved ${d.relief === 'corner' ? 'along the bisector' : 'along one edge'}, for an end mill of ${fmt.length(d.cutter)}`,
  'relief-unguides': (d: { cutter: number; bushing: number }, fmt: Formatter) =>
    `an end mill of ${fmt.length(d.cutter)} cuts past inside corners that guide the bushing; one of ${fmt.atMost(d.bushing)} or less, which is no wider than the bushing, needs no relief there`,
  'mill-settings-missing': (d: { missing: readonly string[] }) =>
    `no program is written without ${listed(d.missing.map((key) => `cnc.${key}`))}: they hang on the wood, the cutter and the machine, and are not guessed. Measure the cutter; take spindle speed, number of flutes, chip load and depth of a pass from the cutter's maker for this material, within what the machine's maker allows; then feed = rpm × flutes × chip load. Plunge slower than that, and try it in scrap`,
  'beam-settings-missing': (d: { missing: readonly string[] }) =>
    `no laser program is written without ${listed(d.missing.map((key) => `laser.${key}`))}: they hang on the sheet and the machine, and are not guessed. Cut a row of small squares in this sheet at different speeds, as the machine's manual says, and take the fastest that falls out clean; or write SVG or DXF and set them in the laser's own program`,
  'beam-marks-missing': (d: { name: string }) =>
    `${d.name}: the program leaves out scores and lettering, because laser.score-speed and laser.score-power are not given`,
  'tab-over-sheet': (d: { height: number; thickness: number }, fmt: Formatter) =>
    `a holding tab ${fmt.length(d.height)} high is no lower than the sheet of ${fmt.length(d.thickness)}; a third of the sheet or less would do, or tabs: { count: 0 } where tape or a vacuum holds the plate`,
  'tabs-few': (d: { name: string; wanted: number; placed: number; gap: number }, fmt: Formatter) =>
    `${d.name}: ${d.placed === 0 ? 'no holding tab fits' : `only ${d.placed} of ${d.wanted} holding tabs fit`} on a straight side of one contour (each takes ${fmt.length(d.gap)} of the tool's path, its width and the cutter's); hold that part by tape or screws`,
  'part-small': (d: { name: string; width: number; height: number }, fmt: Formatter) =>
    `${d.name}: a part of ${fmt.length(d.width)} by ${fmt.length(d.height)} comes out of the sheet; small parts tear loose from their tabs: hold it by tape or a screw as well`,
  'tabs-none': (d: { name: string }) =>
    `${d.name}: with no holding tabs the plate and what falls out of it come loose in the last pass; tape or a vacuum must hold them`,
  'letters-under-mill': (d: { name: string; height: number; cutter: number }, fmt: Formatter) =>
    `${d.name}: the program leaves out lettering, for an end mill of ${fmt.length(d.cutter)} would fill letters ${fmt.length(d.height)} high; with an engraving bit under cnc (engraver: { tip: 0.3 mm }) they get a program of their own`,
  'program-over-bed': (
    d: { name: string; width: number; height: number; bedWidth: number; bedHeight: number },
    fmt: Formatter,
  ) =>
    `${d.name}: the program needs ${fmt.length(d.width)} by ${fmt.length(d.height)} and the bed is ${fmt.length(d.bedWidth)} by ${fmt.length(d.bedHeight)}; a smaller template.margin or template.spine makes the plate smaller`,
  'nest-no-sheet': (_: Readonly<Record<never, never>>) =>
    'plates are laid on sheets of a known size only: write the width and height of yours (plate: { sheet: [24 in, 12 in] })',
  'nest-spacing': (d: { spacing: number; tool: number }, fmt: Formatter) =>
    `plate.spacing of ${fmt.length(d.spacing)} leaves nothing between plates cut by a tool ${fmt.length(d.tool)} wide; ${fmt.length(d.tool + 6)} would do`,
  'nest-edge': (d: { edge: number; least: number }, fmt: Formatter) =>
    `plate.edge of ${fmt.length(d.edge)} lets the tool run off the sheet: it needs ${fmt.length(d.least)} or more beside the plates`,
  'nest-sheet-cut-down': (
    d: { width: number; height: number; roomX: number; roomY: number },
    fmt: Formatter,
  ) =>
    `a sheet of ${fmt.length(d.width)} by ${fmt.length(d.height)} is larger than the bed: plates are laid on pieces of ${fmt.length(d.roomX)} by ${fmt.length(d.roomY)}`,
  'nest-plate-over-sheet': (
    d: { name: string; width: number; height: number; roomX: number; roomY: number; edge: number },
    fmt: Formatter,
  ) =>
    `${d.name} is ${fmt.length(d.width)} by ${fmt.length(d.height)} and a sheet has room for ${fmt.length(d.roomX)} by ${fmt.length(d.roomY)} inside its edge of ${fmt.length(d.edge)}; lessen template.margin, template.spine or plate.edge, or take a larger sheet`,
  'nest-used': (
    d: { name: string; plates: number; used: number; width: number; height: number },
    fmt: Formatter,
  ) =>
    `${d.name}: ${d.plates === 1 ? 'one plate' : `${d.plates} plates`} on ${fmt.length(d.width)} by ${fmt.length(d.height)}, ${Math.round(d.used * 100)} % of it in use`,
  'marker-not-printed': (d: { format: string }) =>
    `no ${d.format} of the marker: it is folded, of card or thin sheet; marker: { form: hook } makes one that can be printed`,
  'ease-too-large': (d: { name: string; ease: number }, fmt: Formatter) =>
    `${d.name}: print.ease of ${fmt.length(d.ease)} uses up a part or an edge of the plate; a smaller one would do`,
};

/** Smaller end mills are not sold for wood, mm; common practice, no source. */
const MIN_MILL = 0.5;

function andMore(more: number): string {
  if (more === 0) return '';
  return more === 1 ? ' (one more is alike)' : ` (${more} more are alike)`;
}

function placeWords({ x, y }: { x: number; y: number }, fmt: Formatter): string {
  return `x ${fmt.length(x)}, y ${fmt.length(y)}`;
}

function listed(words: readonly string[]): string {
  const last = words.at(-1) ?? '';
  return words.length > 1 ? `${words.slice(0, -1).join(', ')} and ${last}` : last;
}
