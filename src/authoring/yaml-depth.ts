// How deep a YAML file is nested, told from its marks alone. The parser goes down one call for every level, and a file of nothing but
// brackets would end the process, and with it every phone's conversation. Next: yaml-source.ts.

import { Lexer } from 'yaml';

/** Several times what any file of ours needs. */
const mostBrackets = 64;
const mostIndentation = 256;

/** Where a file is nested deeper than it may be; null: nowhere. */
export function tooDeepAt(text: string): number | null {
  for (const { 0: beginning, index } of text.matchAll(beginnings)) if (beginning.length > mostIndentation) return index;
  // Few files have so many brackets at all, and only those are looked through.
  return text.split(/[[{]/, mostBrackets + 2).length > mostBrackets + 1 ? bracketsTooDeepAt(text) : null;
}

/** What a line begins with: how far in it is, also by "- " and "? ", each of which is a level. */
const beginnings = /^(?:[ \t]|[-?:](?=[ \t]))+/gm;

function bracketsTooDeepAt(text: string): number | null {
  let [depth, at] = [0, 0];
  for (const token of new Lexer().lex(text)) {
    if (token === '[' || token === '{') depth += 1;
    if (token === ']' || token === '}') depth -= 1;
    if (depth > mostBrackets) return at;
    // Marks of the lexer's own, which stand for nothing in the file.
    if (!lexerMarks.has(token)) at += token.length;
  }
  return null;
}

const lexerMarks: ReadonlySet<string> = new Set(['\u0002', '\u0018', '\u001f']);
