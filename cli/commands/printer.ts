import { basename, dirname } from 'node:path';
import { type Command, InvalidArgumentError, Option } from 'commander';
import { paperNames } from '../../shared/paper.js';
import { sentence } from '../../src/diagnostics/catalogue.js';
import type { Diagnostic } from '../../src/diagnostics/diagnostic.js';
import { formatDiagnostic } from '../../src/diagnostics/format.js';
import { formatterFor } from '../../src/diagnostics/formatter.js';
import type { Printer } from '../../src/input/types.js';
import type { FactorChange, MeasuredBars, ShopPrinter } from '../../src/outputs/printer.js';
import { formatMm, readLength } from '../../src/units/length.js';
import { oneOf } from '../choices.js';
import { type ExitCode, exit, type Finish } from '../exit.js';
import { readTextFile } from '../input.js';
import { type WrittenFiles, writeAll } from '../output.js';
import { print, printJson, shown, tell } from '../terminal.js';

/** `halfpin printer`: how true a printer prints, and the factors that cure it. */
export function addPrinter(program: Command, finish: Finish): void {
  const printer = program
    .command('printer')
    .summary('check the scale of your printer and correct it')
    .description(
      'Two steps: print a page with scale bars and measure them; then have the factors that\n' +
        'make them true written into the shop file. Every printed pattern has such bars, too.',
    )
    .helpCommand(false)
    .addHelpText(
      'after',
      `\nExample:\n${example}\n\nBoth commands take --json; halfpin printer set --help says more.`,
    )
    .action(() => {
      tell('halfpin: printer page, or printer set? (halfpin printer --help says what each does)');
      finish(exit.misuse);
    });
  addPage(printer, finish);
  addSet(printer, finish);
}

const example =
  '  $ halfpin printer page --paper a4 -o check.pdf\n' +
  '  $ halfpin printer set shop.yaml --x 149.6 --y 250.3';

interface PageOptions {
  readonly paper?: string;
  readonly output: string;
  readonly force?: boolean;
  readonly json?: boolean;
}

function addPage(printer: Command, finish: Finish): void {
  printer
    .command('page')
    .summary('write a page with scale bars to print and measure')
    .description(
      'Write one page as PDF with a scale bar along each edge of the paper and words on how to measure them.\n' +
        'Without a shop the page is plain: made without factors. With one it has its paper, margin and factors,\n' +
        'as the pages of make have, and shows whether they are right.',
    )
    .argument('[shop]', 'shop file, or a job that holds its shop')
    .option(
      '--paper <name>',
      `one of ${paperNames.join(', ')}; the shop's, or a4, when left out`,
      oneOf(paperNames),
    )
    .requiredOption('-o, --output <file>', 'file to write; - is standard output')
    .option('--force', 'replace the file if it exists')
    .option('--json', 'data on standard output: {"file", "bars", "factors"}')
    .addHelpText('after', '\nExample:\n  $ halfpin printer page --paper a4 -o check.pdf')
    .action(async (shop: string | undefined, options: PageOptions) => finish(await page(shop, options)));
}

async function page(shop: string | undefined, options: PageOptions): Promise<ExitCode> {
  const { output, paper, force = false, json = false } = options;
  const toStdout = output === '-';
  if (toStdout && (json || process.stdout.isTTY)) {
    tell(
      `halfpin: -o - writes a PDF; ${json ? '--json and it both want standard output: give a file' : 'send it to a file or a program'}`,
    );
    return exit.misuse;
  }
  const { defaultPrinter } = await import('../../src/input/defaults.js');
  const { printerPage } = await import('../../src/outputs/printer.js');
  const read = shop === undefined ? undefined : await shopPrinter(shop);
  if (read && !read.ok) return read.code;
  const usual: Printer = read?.value.printer ?? defaultPrinter('mm');
  const printer = { ...usual, ...(paper !== undefined && { paper: { name: paper } }) };
  const made = await printerPage(printer);
  if (!made.ok) return refuse(made.diagnostics);
  const { content, bars } = made.value;
  if (toStdout) {
    print(content);
    return exit.done;
  }
  const written = await writeAll(dirname(output), [{ path: basename(output), content }], { force });
  if (!written.ok) return cannotWrite(written);
  const factors = { x: printer.scaleX, y: printer.scaleY };
  if (json) printJson({ file: output, bars, factors });
  else
    print(
      shown(
        `Wrote ${output}. ${barWords(bars)} Print it at 100 %, measure the bars, then:\n  halfpin printer set ${shop ?? 'SHOP'} --x ... --y ...${pageWords(printer)}\n`,
      ),
    );
  return exit.done;
}

/** What `set` has to be told of a page made with factors. */
function pageWords({ scaleX, scaleY }: Printer): string {
  return scaleX === 1 && scaleY === 1 ? ' --page plain' : ' --page corrected';
}

function barWords({ x, y }: { readonly x?: number; readonly y?: number }): string {
  const words = [...(x ? [`x ${x} mm`] : []), ...(y ? [`y ${y} mm`] : [])];
  return words.length === 0 ? 'The paper is too small for scale bars.' : `Its bars are ${words.join(', ')}.`;
}

interface SetOptions {
  readonly x?: number;
  readonly y?: number;
  readonly page?: 'plain' | 'corrected';
  readonly dryRun?: boolean;
  readonly json?: boolean;
}

function addSet(printer: Command, finish: Finish): void {
  printer
    .command('set')
    .summary('write the factors that measured scale bars ask for into the shop file')
    .description(
      'Give the measured lengths of the scale bars of any printed page: x along the short edge of the paper, y\n' +
        'along the long one, in mm or with a unit. halfpin knows its bars (20, 50, 100, 150, 200, 250 mm) apart by\n' +
        'their length. A factor is nominal ÷ measured; where the page was made with the factors of the shop, it is\n' +
        'that times the factor it was made with. Only the two numbers in the file change; the rest of it stays.',
    )
    .argument('<shop>', 'shop file, or a job that holds its shop')
    .option('--x <length>', 'measured bar along the short edge of the paper', lengthOption)
    .option('--y <length>', 'measured bar along the long edge of the paper', lengthOption)
    .addOption(
      new Option(
        '--page <kind>',
        'what was measured: a page made without factors, or with those of the shop; needed where it has some',
      ).choices(['plain', 'corrected']),
    )
    .option('--dry-run', 'say what would be written, and write nothing')
    .option('--json', 'data on standard output, messages on standard error')
    .addHelpText('after', '\nExample:\n  $ halfpin printer set shop.yaml --x 149.6 --y 250.3')
    .action(async (shop: string, options: SetOptions) => finish(await setScale(shop, options)));
}

function lengthOption(text: string): number {
  const reading = readLength(text, 'mm');
  if (reading.ok && reading.mm > 0) return reading.mm;
  throw new InvalidArgumentError(
    `${JSON.stringify(text)} is no length over zero; give mm or a unit, such as 149.6 or 5.89 in.`,
  );
}

async function setScale(
  shop: string,
  { x, y, page: kind, dryRun = false, json = false }: SetOptions,
): Promise<ExitCode> {
  if (x === undefined && y === undefined) {
    tell(
      'halfpin: give --x, --y or both: what the scale bars measure (halfpin printer page writes a page with some)',
    );
    return exit.misuse;
  }
  const read = await shopPrinter(shop);
  if (!read.ok) return read.code;
  const { setFactors } = await import('../../src/outputs/printer.js');
  const bars: MeasuredBars = {
    ...(x !== undefined && { x }),
    ...(y !== undefined && { y }),
    ...(kind && { page: kind }),
  };
  const made = setFactors(read.text, read.value, bars);
  if (!made.ok) return refuse(made.diagnostics);
  for (const one of made.diagnostics) tell(lineOf(one), 'yellow');
  const { text, changes } = made.value;
  const changed = text !== read.text;
  if (changed && !dryRun) {
    const written = await writeAll(dirname(shop), [{ path: basename(shop), content: text }], { force: true });
    if (!written.ok) return cannotWrite(written);
  }
  if (json) printJson({ file: shop, written: changed && !dryRun, changes });
  else print(`${[...changes.map(changeLine), outcomeLine(shop, changed, dryRun)].join('\n')}\n`);
  return exit.done;
}

function changeLine({ axis, nominal, measured, before, after }: FactorChange): string {
  return `scale-${axis}: ${before} -> ${after}   (bar of ${formatMm(nominal)} measured ${formatMm(measured)})`;
}

function outcomeLine(shop: string, changed: boolean, dryRun: boolean): string {
  if (!changed) return `${shop} has these factors already; nothing was written.`;
  if (dryRun) return `Nothing was written; without --dry-run they go into ${shop}.`;
  return `Wrote ${shop}. Check them on a page made with it: halfpin printer page ${shop} -o check.pdf`;
}

type PrinterOfFile =
  | { readonly ok: true; readonly value: ShopPrinter; readonly text: string }
  | { readonly ok: false; readonly code: ExitCode };

async function shopPrinter(path: string): Promise<PrinterOfFile> {
  const input = readTextFile(path);
  if (!input.ok) {
    tell(`${path}: cannot read it: ${input.problem}`);
    return { ok: false, code: exit.misuse };
  }
  const { readPrinter } = await import('../../src/outputs/printer.js');
  const { result, locate } = readPrinter({ name: path, text: input.text });
  if (result.ok) return { ok: true, value: result.value, text: input.text };
  for (const one of result.diagnostics) tell(formatDiagnostic(one, locate, formatterFor('mm')), 'red');
  return { ok: false, code: exit.misuse };
}

function refuse(diagnostics: readonly Diagnostic[]): ExitCode {
  for (const one of diagnostics) tell(lineOf(one), 'red');
  tell('Nothing was written.');
  return exit.refused;
}

function lineOf(one: Diagnostic): string {
  const caution = one.level === 'caution' ? 'caution: ' : '';
  return `halfpin: ${one.at === '' ? '' : `${one.at}: `}${caution}${sentence(one, formatterFor('mm'))}`;
}

function cannotWrite({ problems, code }: Extract<WrittenFiles, { ok: false }>): ExitCode {
  for (const problem of problems) tell(`halfpin: ${problem}`);
  return code;
}
