import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join, posix, relative, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';

/** The project's folder. */
export const root = fileURLToPath(new URL('../..', import.meta.url));

export interface Import {
  /** The importing file, from the project's folder, with forward slashes. */
  readonly from: string;
  /** What it names: a file of the project (`src/units/length.ts`), a package, or a builtin of Node. */
  readonly to: string;
  readonly isFile: boolean;
  /** Nothing of it is left at run time. */
  readonly typeOnly: boolean;
}

/** All TypeScript files below a folder of the project. */
export function filesBelow(folder: string): readonly string[] {
  return readdirSync(join(root, folder), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && /\.tsx?$/.test(entry.name))
    .map((entry) => relative(root, join(entry.parentPath, entry.name)).split(sep).join('/'))
    .sort();
}

/** Every import, re-export and late import of a file. */
export function importsOf(file: string): readonly Import[] {
  const kind = file.endsWith('x') ? ts.ScriptKind.TSX : ts.ScriptKind.TS;
  const source = ts.createSourceFile(file, textOf(file), ts.ScriptTarget.ESNext, true, kind);
  const found: Import[] = [];
  const visit = (node: ts.Node): void => {
    const named = moduleNamed(node);
    if (named !== undefined) found.push(importOf(file, named.text, named.typeOnly));
    ts.forEachChild(node, visit);
  };
  visit(source);
  return found;
}

export function textOf(file: string): string {
  return readFileSync(join(root, file), 'utf8');
}

function moduleNamed(node: ts.Node): { readonly text: string; readonly typeOnly: boolean } | undefined {
  if (ts.isImportDeclaration(node) && ts.isStringLiteral(node.moduleSpecifier)) {
    return { text: node.moduleSpecifier.text, typeOnly: bringsTypesOnly(node.importClause) };
  }
  if (ts.isExportDeclaration(node) && node.moduleSpecifier && ts.isStringLiteral(node.moduleSpecifier)) {
    return { text: node.moduleSpecifier.text, typeOnly: node.isTypeOnly };
  }
  if (ts.isCallExpression(node) && node.expression.kind === ts.SyntaxKind.ImportKeyword) {
    const [what] = node.arguments;
    return {
      text: what && ts.isStringLiteral(what) ? what.text : 'a module named at run time',
      typeOnly: false,
    };
  }
  if (ts.isImportTypeNode(node) && ts.isLiteralTypeNode(node.argument)) {
    const { literal } = node.argument;
    return ts.isStringLiteral(literal) ? { text: literal.text, typeOnly: true } : undefined;
  }
  return undefined;
}

function bringsTypesOnly(clause: ts.ImportClause | undefined): boolean {
  if (!clause) return false;
  if (clause.phaseModifier === ts.SyntaxKind.TypeKeyword) return true;
  const { name, namedBindings } = clause;
  return (
    name === undefined &&
    namedBindings !== undefined &&
    ts.isNamedImports(namedBindings) &&
    namedBindings.elements.every((element) => element.isTypeOnly)
  );
}

function importOf(from: string, text: string, typeOnly: boolean): Import {
  if (!text.startsWith('.')) return { from, to: text, isFile: false, typeOnly };
  const named = posix.join(dirname(from), text).replace(/\.js$/, '.ts');
  const to = existsSync(join(root, `${named}x`)) ? `${named}x` : named;
  return { from, to, isFile: true, typeOnly };
}
