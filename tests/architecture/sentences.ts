// Finds what reads like a sentence in a source file. Not counted: comments, imports, types, what an error says (a developer
// reads it), and what goes to the log. Next: sentences.test.ts.

import ts from 'typescript';

export interface Sentence {
  readonly path: string;
  readonly line: number;
  readonly text: string;
}

const wordsOfASentence = 4;
const logLevels = ['trace', 'debug', 'info', 'warn', 'error', 'fatal'];

export function sentencesIn(path: string, source: string): Sentence[] {
  const file = ts.createSourceFile(path, source, ts.ScriptTarget.Latest, true);
  const found: Sentence[] = [];

  const visit = (node: ts.Node): void => {
    if (isForDevelopers(node)) return;
    const text = literalText(node);
    if (text !== undefined && isSentence(text)) {
      found.push({ path, line: file.getLineAndCharacterOfPosition(node.getStart()).line + 1, text });
    }
    node.forEachChild(visit);
  };
  visit(file);
  return found;
}

/** A literal's words; a template's, with `{}` where a value goes. */
function literalText(node: ts.Node): string | undefined {
  if (ts.isStringLiteralLike(node) || ts.isJsxText(node)) return node.text;
  if (ts.isTemplateExpression(node)) return [node.head.text, ...node.templateSpans.map((span) => span.literal.text)].join('{}');
  return undefined;
}

function isSentence(text: string): boolean {
  const words = text.split(/\s+/).filter((word) => /\p{L}{2,}/u.test(word));
  return words.length >= wordsOfASentence;
}

function isForDevelopers(node: ts.Node): boolean {
  if (ts.isImportDeclaration(node) || ts.isTypeNode(node)) return true;
  if (ts.isNewExpression(node)) return /Error$/.test(node.expression.getText());
  if (!ts.isCallExpression(node) || !ts.isPropertyAccessExpression(node.expression)) return false;
  return logLevels.includes(node.expression.name.text) && /\blog(ger)?$/.test(node.expression.expression.getText());
}
