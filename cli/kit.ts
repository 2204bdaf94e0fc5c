import { sentence } from '../src/diagnostics/catalogue.js';
import type { Diagnostic } from '../src/diagnostics/diagnostic.js';
import { type Formatter, formatterFor } from '../src/diagnostics/formatter.js';
import { reportedDiagnostics } from '../src/diagnostics/reported.js';
import type { Job } from '../src/input/types.js';
import type { Kit, KitChoice } from '../src/joints/kit/kit.js';
import type { LengthUnit } from '../src/units/length.js';
import { tidied } from '../src/units/tidied.js';
import { bothUnits, columns } from './summary.js';
import { paint } from './terminal.js';

/** What `kit` says, to people and to programs. */

/** Lines of each list, unless all are asked for. */
const SHOWN = 12;

/** What is wrong or wants care with a kit as a whole. */
export function kitText({ diagnostics }: Kit, { units }: Job): readonly string[] {
  return diagnostics.map((one) => `${one.at}: ${sentence(one, formatterFor(units))}`);
}

export function describeKit(kit: Kit, { units }: Job, all: boolean): string {
  const fmt = formatterFor(units);
  const most = all ? Number.POSITIVE_INFINITY : SHOWN;
  const choices = kit.choices.slice(0, most).map((choice, index) => choiceRow(choice, index, units));
  const cautions = kit.choices
    .slice(0, most)
    .flatMap((choice, index) =>
      choice.diagnostics.map((one) => `  ${index + 1}: caution: ${sentence(one, fmt)}`),
    );
  const refused = kit.refusals
    .slice(0, most)
    .map(
      ({ bits, bushing, diagnostics }) => `  ${toolNames(bits, bushing)}: ${firstReason(diagnostics, fmt)}`,
    );
  return [
    paint('bold', kit.joint),
    ...(choices.length > 0 ? columns([headOf(kit), ...choices]) : ['  no tools will do']),
    ...more(kit.choices.length - choices.length),
    ...unlike(cautions),
    ...(refused.length > 0 ? ['', `${kit.joint}: will not do`, ...refused] : []),
    ...more(kit.refusals.length - refused.length),
  ].join('\n');
}

function headOf({ slots }: Kit): readonly string[] {
  const bits = slots.map((slot) => slot.replace('cutters.', ''));
  return ['', ...bits, 'bushing', 'finger', '', 'passes', 'bit below base', ''];
}

function choiceRow(choice: KitChoice, index: number, units: LengthUnit): readonly string[] {
  const { bits, bushing, finger, passes, extensions, own } = choice;
  const measures = finger === undefined ? ['none', ''] : bothUnits(finger, units);
  return [
    String(index + 1),
    ...bits.map(({ name }) => name),
    bushing.name,
    ...measures,
    String(passes),
    [...new Set(extensions)].map((one) => bothUnits(one, units)[0]).join(', '),
    own ? 'as the job has it' : '',
  ];
}

function more(count: number): readonly string[] {
  return count > 0 ? [`  and ${count} more: --all lists them`] : [];
}

/** The same caution on every line is said once. */
function unlike(cautions: readonly string[]): readonly string[] {
  const bare = (text: string) => text.replace(/^ {2}\d+: /, '');
  const counts = new Map<string, number>();
  for (const one of cautions) counts.set(bare(one), (counts.get(bare(one)) ?? 0) + 1);
  const said = new Set<string>();
  return cautions.flatMap((one) => {
    if ((counts.get(bare(one)) ?? 0) < 2) return [one];
    if (said.has(bare(one))) return [];
    said.add(bare(one));
    return [`  ${bare(one)}`];
  });
}

/** What rules tools out; remarks on other tools are this command's own business. */
function reasonsOf(diagnostics: readonly Diagnostic[]): readonly Diagnostic[] {
  return diagnostics.filter(({ level }) => level === 'refused');
}

/** People need one reason; programs get them all. */
function firstReason(diagnostics: readonly Diagnostic[], fmt: Formatter): string {
  const [first] = reasonsOf(diagnostics);
  return first === undefined ? '' : sentence(first, fmt);
}

function toolNames(
  bits: readonly { readonly name: string }[],
  bushing: { readonly name: string } | undefined,
): string {
  return [...bits.map(({ name }) => name), ...(bushing ? [bushing.name] : [])].join(' + ');
}

/** A kit for programs, mm. */
export function kitData(kit: Kit, { units }: Job): object {
  const fmt = formatterFor(units);
  const said = (diagnostics: readonly Diagnostic[]) =>
    reportedDiagnostics(diagnostics, fmt).map(({ at, ...one }) => one);
  return {
    joint: kit.joint,
    solved: kit.solved,
    choices: kit.choices.map(
      ({ bits, bushing, diagnostics, level, finger, passes, extensions, own, lacking }) => ({
        bits: Object.fromEntries(kit.slots.map((slot, index) => [slot, bits[index]?.name])),
        bushing: bushing.name,
        level,
        finger: tidied(finger ?? null),
        passes,
        bitExtensions: tidied(extensions),
        own,
        lacking,
        findings: said(diagnostics),
      }),
    ),
    refused: kit.refusals.map(({ bits, bushing, diagnostics }) => ({
      bits: bits.map(({ name }) => name),
      bushing: bushing?.name ?? null,
      reasons: said(reasonsOf(diagnostics)),
    })),
    findings: said(kit.diagnostics),
  };
}
