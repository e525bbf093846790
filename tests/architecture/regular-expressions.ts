// Every regular expression of src, as TypeScript's own reader finds it: literals, and places where one is made of parts.
// Next: regular-expressions.test.ts.

import ts from 'typescript';
import { textOf } from './tree.ts';

export interface Literal {
  /** Where it stands first. */
  readonly place: string;
  readonly source: string;
  readonly flags: string;
}

export interface Found {
  readonly literals: readonly Literal[];
  /** Files in which one is made by `RegExp(...)`, each as often as it makes one. */
  readonly made: readonly string[];
}

export function regularExpressionsIn(files: readonly string[]): Found {
  const literals = new Map<string, Literal>();
  const made: string[] = [];
  for (const file of files) {
    const source = ts.createSourceFile(file, textOf(file), ts.ScriptTarget.Latest, true);
    const look = (node: ts.Node): void => {
      if (ts.isRegularExpressionLiteral(node) && !literals.has(node.text)) literals.set(node.text, literalOf(node, source));
      if ((ts.isNewExpression(node) || ts.isCallExpression(node)) && node.expression.getText(source) === 'RegExp') made.push(file);
      ts.forEachChild(node, look);
    };
    look(source);
  }
  return { literals: [...literals.values()], made };
}

function literalOf(node: ts.RegularExpressionLiteral, source: ts.SourceFile): Literal {
  const end = node.text.lastIndexOf('/');
  const { line } = source.getLineAndCharacterOfPosition(node.getStart(source));
  return { place: `${source.fileName}:${line + 1}`, source: node.text.slice(1, end), flags: node.text.slice(end + 1) };
}
