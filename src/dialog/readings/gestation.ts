// Reads weeks of pregnancy at birth: 39, 39w, 39 weeks, 39+4, 39/4, 39.4, 39w4d, 39w 4d, 39+4/7, 39/40. Kept as weeks and,
// when said, days.

import type { Gestation } from '../../clinical/protocol.ts';
import { isWord, type Read, refused, type Words } from './words.ts';

const weeksThenRest = /^(\d{1,3})(?!\d)([^\d+/.,*]{0,12})(.{0,16})$/u;
/** `+4`, `/4`, `4d`, `+4/7`; `/40` says only that forty weeks are a whole pregnancy. */
const daysThenRest = /^[+/.,*]?(\d)(?:\/7)?([^\d+/.,*]{0,12})(?:\/40)?$/u;

export function readGestation(
  pieces: readonly string[],
  range: { readonly low: number; readonly high: number },
  words: Words,
): Read<Gestation> {
  const [first] = pieces;
  if (first === undefined) return refused('nothing', 0, {});
  if (isWord(words, 'not-known', first)) return { kind: 'not-known', used: 1 };
  const [, weeksText = '', weekWord = '', after = ''] = weeksThenRest.exec(first) ?? [];
  const days = after === '' || after === '/40' ? null : daysIn(after, words);
  const wordFits = weekWord === '' || isWord(words, 'weeks', weekWord);
  if (weeksText === '' || days === undefined || !wordFits) return refused('not-weeks', 1, { text: first });

  let used = 1;
  const saysWeeksApart = weekWord === '' && isWord(words, 'weeks', pieces[used] ?? '');
  if (saysWeeksApart) used += 1;
  const daysApart = days === null && (weekWord !== '' || saysWeeksApart) ? readDaysApart(pieces.slice(used, used + 2), words) : null;
  if (daysApart !== null) used += daysApart.used;

  const weeks = Number(weeksText);
  if (weeks < range.low || weeks > range.high)
    return refused('out-of-range', used, { text: first, low: range.low, high: range.high, unit: words.readings.weeks?.[0] ?? '' });
  const told = daysApart?.days ?? days;
  return { kind: 'read', value: told === null ? { weeks } : { weeks, days: told }, used };
}

/** Undefined: no days of a week. */
function daysIn(after: string, words: Words): number | undefined {
  const [, digit = '', word = ''] = daysThenRest.exec(after) ?? [];
  const wordFits = word === '' || isWord(words, 'days', word) || isWord(words, 'weeks', word);
  return digit !== '' && Number(digit) < 7 && wordFits ? Number(digit) : undefined;
}

/** `4d`, `4 days` after `39w`. */
function readDaysApart([first = '', second = '']: readonly string[], words: Words): { days: number; used: number } | null {
  const [, digit = '', word = ''] = /^([0-6])(\D*)$/u.exec(first) ?? [];
  if (digit === '') return null;
  if (word === '') return isWord(words, 'days', second) ? { days: Number(digit), used: 2 } : null;
  return isWord(words, 'days', word) ? { days: Number(digit), used: 1 } : null;
}
