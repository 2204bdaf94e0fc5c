import ts from 'typescript';
import { expect, test } from 'vitest';
import { families } from '../../src/joints/list.js';
import { filesBelow, textOf } from './imports.js';

/**
 * Nobody outside `src/joints` asks what kind a joint is: what differs between joints is told by the family
 * (src/joints/contract.ts). An ask is a kind's name compared with something, as a case or as a key of a table; and the name of
 * a family's own joint type. Words like `box` and `edge` name other things, too: they are an ask where something that is
 * called a kind is compared with them.
 */
const kinds = families.map(({ kind }) => kind);
const jointTypes = /^(HalfBlindJoint|ThroughDovetailJoint|BoxJoint|EdgeJoint)$/;

function asksOf(file: string, text: string): readonly string[] {
  const jsx = file.endsWith('x') ? ts.ScriptKind.TSX : ts.ScriptKind.TS;
  const source = ts.createSourceFile(file, text, ts.ScriptTarget.ESNext, true, jsx);
  const found: string[] = [];
  const said = (node: ts.Node, what: string): void => {
    found.push(`${file}:${source.getLineAndCharacterOfPosition(node.getStart()).line + 1} ${what}`);
  };
  const kindOf = (node: ts.Node): string | undefined =>
    ts.isStringLiteralLike(node) && kinds.includes(node.text) ? node.text : undefined;
  const isAsk = (kind: string | undefined, of: ts.Node): kind is string =>
    kind !== undefined && (kind.includes('-') || /kind/i.test(of.getText()));
  const equals = [ts.SyntaxKind.EqualsEqualsEqualsToken, ts.SyntaxKind.ExclamationEqualsEqualsToken];
  const visit = (node: ts.Node): void => {
    if (ts.isBinaryExpression(node) && equals.includes(node.operatorToken.kind)) {
      const kind = kindOf(node.left) ?? kindOf(node.right);
      if (isAsk(kind, node)) said(node, kind);
    }
    if (ts.isCaseClause(node)) {
      const kind = kindOf(node.expression);
      if (isAsk(kind, node.parent.parent.expression)) said(node, kind);
    }
    if (ts.isPropertyAssignment(node)) {
      const kind = ts.isIdentifier(node.name)
        ? kinds.find((one) => one === node.name.getText())
        : kindOf(node.name);
      if (kind?.includes('-')) said(node, kind);
    }
    if (ts.isTypeReferenceNode(node) && jointTypes.test(node.typeName.getText())) {
      said(node, node.typeName.getText());
    }
    ts.forEachChild(node, visit);
  };
  visit(source);
  return found;
}

test('nobody outside the families asks what kind a joint is', () => {
  const files = [...filesBelow('src'), ...filesBelow('cli')].filter(
    (file) => !file.startsWith('src/joints/'),
  );
  expect(files.flatMap((file) => asksOf(file, textOf(file)))).toEqual([]);
});

test('the check finds an ask', () => {
  const text = `
    if (joint.kind === 'box') cut();
    switch (kind) { case 'edge': return; }
    const ways = { 'half-blind-dovetail': sunk };
    const lip = (joint as HalfBlindJoint).lip;`;
  const found = asksOf('src/sheet/some.ts', text).map((one) => one.split(' ')[1]);
  expect(found).toEqual(['box', 'edge', 'half-blind-dovetail', 'HalfBlindJoint']);
});
