// One message written into the text of a locale file: only its own characters change, or one line is added. Comments, order, layout
// and quotes stay as they were, since a coordinator reads the difference line by line. Next: save-words.ts.

import { isMap, isScalar, type Node, type Pair, parseDocument, Scalar, type YAMLMap } from 'yaml';

/**
 * The text with the message in it; null when there is no place for it: the file cannot be read, or something else stands there.
 *
 * Takes    key: as in signs.mother-hiv.positive. order: keys of the base language; a new message stands as it does there.
 */
export function writeMessage(text: string, key: string, words: string, order: readonly string[]): string | null {
  const document = parseDocument(text, { schema: 'failsafe' });
  const top = document.contents;
  if (document.errors.length > 0) return null;
  if (top === null && text.trim() === '') return `messages:\n  ${newEntry(key.split('.'), words)}\n`;
  if (!isMap(top)) return null;
  const written = writeUnder(text, top, ['messages', ...key.split('.')], words, ['messages', ...order.map((one) => `messages.${one}`)]);
  return written !== null && parseDocument(written, { schema: 'failsafe' }).errors.length === 0 ? written : null;
}

function writeUnder(text: string, top: YAMLMap, path: readonly string[], words: string, order: readonly string[]): string | null {
  let map = top;
  for (const [depth, name] of path.entries()) {
    const pair = pairNamed(map, name);
    if (pair === undefined) return addTo(text, map, path.slice(0, depth), path.slice(depth), words, order);
    const isLast = depth === path.length - 1;
    if (isLast) return isScalar(pair.value) ? replaceScalar(text, pair.value, words) : null;
    if (!isMap(pair.value)) return null;
    map = pair.value;
  }
  return null;
}

function pairNamed(map: YAMLMap, name: string): Pair | undefined {
  return map.items.find(({ key }) => isScalar(key) && key.value === name);
}

function replaceScalar(text: string, scalar: Scalar, words: string): string | null {
  const [from, to] = scalar.range ?? [];
  if (from === undefined || to === undefined) return null;
  const old = text.slice(from, to);
  // Nothing stood behind the colon, or a block that ends with its line.
  const before = old === '' && !/\s$/.test(text.slice(0, from)) ? ' ' : '';
  return `${text.slice(0, from)}${before}${quoted(words, old === '' ? undefined : scalar.type)}${old.endsWith('\n') ? '\n' : ''}${text.slice(to)}`;
}

/** As the author quoted it before, where these words can be. */
function quoted(words: string, type: Scalar['type']): string {
  if (type === Scalar.PLAIN && /^[\p{L}\p{M}\p{N}](?:[\p{L}\p{M}\p{N} .;()/'-]*[\p{L}\p{M}\p{N}.)])?$/u.test(words)) return words;
  if (type === Scalar.QUOTE_SINGLE && !/\p{Control}/u.test(words)) return `'${words.replaceAll("'", "''")}'`;
  return JSON.stringify(words);
}

function newEntry(rest: readonly string[], words: string): string {
  const [name = '', ...deeper] = rest;
  const key = /^[\p{L}\p{N}_-]+$/u.test(name) ? name : JSON.stringify(name);
  return deeper.length === 0 ? `${key}: ${JSON.stringify(words)}` : `${key}: { ${newEntry(deeper, words)} }`;
}

function addTo(
  text: string,
  map: YAMLMap,
  above: readonly string[],
  rest: readonly string[],
  words: string,
  order: readonly string[],
): string | null {
  const entry = newEntry(rest, words);
  const neighbour = neighbourOf(map, above, rest[0] ?? '', order);
  const [from, to] = map.range ?? [];
  if (from === undefined || to === undefined) return null;
  if (neighbour === undefined) return map.flow ? `${text.slice(0, from)}{ ${entry} }${text.slice(to)}` : null;
  const end = endOf(neighbour);
  if (end === null) return null;
  if (map.flow) return `${text.slice(0, end)}, ${entry}${text.slice(end)}`;
  const first = (map.items[0]?.key as Node | null | undefined)?.range?.[0] ?? from;
  const indent = ' '.repeat(first - (text.lastIndexOf('\n', first - 1) + 1));
  const lineEnd = text.indexOf('\n', end);
  const newline = text.includes('\r\n') ? '\r\n' : '\n';
  if (lineEnd < 0) return `${text}${newline}${indent}${entry}`;
  return `${text.slice(0, lineEnd + 1)}${indent}${entry}${newline}${text.slice(lineEnd + 1)}`;
}

/** The last of those that stand before it in the base language; else the last one there is. */
function neighbourOf(map: YAMLMap, above: readonly string[], name: string, order: readonly string[]): Pair | undefined {
  const stem = above.length === 0 ? '' : `${above.join('.')}.`;
  const names = [...new Set(order.filter((key) => key.startsWith(stem)).map((key) => key.slice(stem.length).split('.')[0]))];
  const before = names.slice(0, Math.max(names.indexOf(name), 0)).reverse();
  for (const one of before) {
    const pair = pairNamed(map, one ?? '');
    if (pair !== undefined) return pair;
  }
  return map.items.at(-1);
}

/** Where the last character of an entry stands; comments and empty lines behind it are not its own. */
function endOf({ key, value }: Pair): number | null {
  if (isMap(value) && !value.flow) {
    const last = value.items.at(-1);
    if (last !== undefined) return endOf(last);
  }
  const range = (value as Node | null)?.range ?? (key as Node | null)?.range;
  if (!range) return null;
  const isBlock = isScalar(value) && (value.type === Scalar.BLOCK_FOLDED || value.type === Scalar.BLOCK_LITERAL);
  return isBlock ? range[1] - 1 : range[1];
}
