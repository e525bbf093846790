// One YAML file composed into nodes, in one pass over its marks: where it is nested too deep it is given up before anything goes down
// into it. The composer goes down one call for every level, and a file of nothing but brackets would end the process, and with it
// every phone's conversation. Next: yaml-source.ts.

import { Composer, type CST, type Document, Lexer, type LineCounter, Parser } from 'yaml';

/** Several times what any file of ours needs. */
const mostBrackets = 64;
const mostIndentation = 256;

export type Composed =
  /** `others`: offset of a second document, of which nothing is read. */
  | { readonly kind: 'document'; readonly document: Document; readonly others: number | null }
  /** Offset from which on it is too deep. */
  | { readonly kind: 'too-deep'; readonly at: number };

/** Takes  lines: told where lines begin. */
export function composeYaml(text: string, lines: LineCounter): Composed {
  for (const { 0: beginning, index } of text.matchAll(beginnings))
    if (beginning.length > mostIndentation) return { kind: 'too-deep', at: index };
  const read = tokensOf(text, lines);
  if (read.deepAt !== null) return { kind: 'too-deep', at: read.deepAt };
  // The `failsafe` schema keeps `012`, `NO` and `38.0` as they were written.
  const documents = new Composer({ schema: 'failsafe' }).compose(read.tokens, true, text.length);
  const { value: document } = documents.next();
  if (document === undefined) throw new Error('A composer that is told to end with a document gave none.');
  const { value: second } = documents.next();
  return { kind: 'document', document, others: second?.range[0] ?? null };
}

/** What a line begins with: how far in it is, also by "- " and "? ", each of which is a level. */
const beginnings = /^(?:[ \t]|[-?:](?=[ \t]))+/gm;

interface Tokens {
  readonly tokens: readonly CST.Token[];
  readonly deepAt: number | null;
}

function tokensOf(text: string, lines: LineCounter): Tokens {
  const parser = new Parser(lines.addNewLine);
  const tokens: CST.Token[] = [];
  lines.addNewLine(0);
  let [depth, at] = [0, 0];
  for (const mark of new Lexer().lex(text)) {
    if (mark === '[' || mark === '{') depth += 1;
    if (mark === ']' || mark === '}') depth -= 1;
    if (depth > mostBrackets) return { tokens, deepAt: at };
    // Marks of the lexer's own stand for nothing in the file.
    if (!lexerMarks.has(mark)) at += mark.length;
    for (const token of parser.next(mark)) tokens.push(token);
  }
  for (const token of parser.end()) tokens.push(token);
  return { tokens, deepAt: null };
}

const lexerMarks: ReadonlySet<string> = new Set(['\u0002', '\u0018', '\u001f']);
