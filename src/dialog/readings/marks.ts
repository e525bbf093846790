// Reads which signs of a region were seen: 0 for none, else their digits in any form: 13, 1 3, 1,3, 1*3, 1.3, 1&3.
// Reads one choice of a list too. Says which digit has no meaning instead of dropping it.

import { isWord, type Read, refused, type Words } from './words.ts';

/**
 * Digits chosen, ascending, without repeats; empty for none.
 *
 * A word between the digits is refused, since it may be "not"; so is a dash, which may be "to", and a digit sent twice, which
 * was a slip of the thumb. 05 is 5. 10 is refused: a zero after a sign is a slip or a two-digit number, never "none and one".
 */
export function readMarks(pieces: readonly string[], offered: readonly string[], words: Words): Read<readonly string[]> {
  const text = pieces.join(' ');
  const used = pieces.length;
  if (used === 0) return refused('nothing', 0, {});
  if (pieces.every((piece) => piece === '0' || isWord(words, 'none', piece))) return { kind: 'read', value: [], used };
  if (used === 1 && isWord(words, 'not-known', text)) return { kind: 'not-known', used };
  const compact = text.replace(/[\s,.*+&/]/g, '');
  if (!/^\d+$/.test(compact)) return refused('marks', used, { text });
  const seen = [...new Set(compact)].sort().filter((digit) => digit !== '0');
  if (seen.length < compact.replaceAll('0', '').length) return refused('marks', used, { text });
  if (/[1-9]0/.test(compact)) return refused('zero-and-more', used, { text });
  const strange = seen.find((digit) => !offered.includes(digit));
  if (strange !== undefined) return refused('no-such-digit', used, { digit: strange, text });
  return { kind: 'read', value: seen, used };
}

/** One option by its digit, from 1; its word is taken too where the language has one. */
export function readChoice(pieces: readonly string[], options: readonly string[], words: Words): Read<string> {
  const first = pieces[0];
  if (first === undefined) return refused('nothing', 0, {});
  const byWord = options.find((option) => isWord(words, option, first));
  if (byWord !== undefined) return { kind: 'read', value: byWord, used: 1 };
  if (isWord(words, 'not-known', first)) return { kind: 'not-known', used: 1 };
  const byDigit = /^\d$/.test(first) ? options[Number(first) - 1] : undefined;
  if (byDigit !== undefined) return { kind: 'read', value: byDigit, used: 1 };
  return refused('choice', 1, { text: first, count: options.length });
}
