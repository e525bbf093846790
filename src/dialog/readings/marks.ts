// Reads which signs of a region were seen: 0 for none, else their digits in any form: 13, 1 3, 1,3, 1*3, 1.3.
// Reads one choice of a list too. Says which digit has no meaning instead of dropping it.

import { isWord, type Read, refused, type Words } from './words.ts';

/** Digits chosen, ascending, without repeats; empty for none. */
export function readMarks(pieces: readonly string[], offered: readonly string[], words: Words): Read<readonly string[]> {
  const joined = pieces.join(' ');
  const used = pieces.length;
  if (pieces.length === 1 && isWord(words, 'none', joined)) return { kind: 'read', value: [], used };
  if (pieces.length === 1 && isWord(words, 'not-known', joined)) return { kind: 'not-known', used };
  const compact = joined.replace(/[\s,.*+&/-]+/g, '').replaceAll('o', '0');
  if (!/^\d+$/.test(compact)) return refused('marks', used, { text: joined });
  const digits = [...new Set(compact)].sort();
  const seen = digits.filter((digit) => digit !== '0');
  if (seen.length > 0 && digits.length > seen.length && compact.startsWith('0') === false) {
    // 10 or 30: a zero after a sign is a slip or a two-digit number, never "none and one".
    return refused('zero-and-more', used, { text: joined });
  }
  const strange = seen.find((digit) => !offered.includes(digit));
  if (strange !== undefined) return refused('no-such-digit', used, { digit: strange, text: joined });
  return { kind: 'read', value: seen, used };
}

/** One option by its digit, from 1; its word is taken too where the language has one. */
export function readChoice(pieces: readonly string[], options: readonly string[], words: Words): Read<string> {
  const first = pieces[0];
  if (first === undefined) return refused('nothing', 0, {});
  if (isWord(words, 'not-known', first)) return { kind: 'not-known', used: 1 };
  const byWord = options.find((option) => isWord(words, option, first));
  if (byWord !== undefined) return { kind: 'read', value: byWord, used: 1 };
  const byDigit = /^\d$/.test(first) ? options[Number(first) - 1] : undefined;
  if (byDigit !== undefined) return { kind: 'read', value: byDigit, used: 1 };
  return refused('choice', 1, { text: first, count: options.length });
}
