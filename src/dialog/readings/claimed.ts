// Values that say by their unit or by their own word which field they belong to: 39w 3100g 5h girl, in any order.
// Only for fields that are open; what two of them could claim, such as 44/min, is left to its place in the message.

import type { Finding } from '../../clinical/protocol.ts';
import { readAmount, worthOf } from './amount.ts';
import { saysDay } from './calendar-day.ts';
import { namesDate } from './dated-gestation.ts';
import { readAgo } from './time-ago.ts';
import { readTimeOfDay } from './time-of-day.ts';
import { readWeighed } from './weight.ts';
import { isWord, type Words } from './words.ts';

/** Whether the pieces begin with a value that can only be this field's, going by how it is written. */
export function claims(
  of: string,
  finding: Finding | undefined,
  options: readonly string[],
  pieces: readonly string[],
  words: Words,
): boolean {
  const [first = '', second = ''] = pieces;
  if (of === 'sex') return options.some((option) => isWord(words, option, first));
  if (of === 'born' && isDayOrNow(first, words)) return true;
  if (of === 'gestation' && namesDate(first, words)) return true;
  if (!/^[\d.]/.test(first)) return false;
  switch (of) {
    case 'born':
      return saysTime(first, second, pieces, words);
    case 'gestation':
      return beginsWeeks(first, second, words);
    case 'birth-weight':
    case 'weight': {
      const weighed = readWeighed(pieces, words);
      return weighed !== null && (isWord(words, 'grams', weighed.unit) || isWord(words, 'kilograms', weighed.unit));
    }
  }
  if (finding?.kind !== 'number' && finding?.kind !== 'count') return false;
  const saysUnit = (piece: string): boolean =>
    piece !== '' && (worthOf(piece, finding.unit, words) !== null || (finding.unit === '°C' && isWord(words, 'fahrenheit', piece)));
  const amount = readAmount(pieces, saysUnit);
  return amount !== null && amount.per === '' && saysUnit(amount.unit);
}

function beginsWeeks(first: string, second: string, words: Words): boolean {
  const [, word = ''] = /^\d{1,3}(\D{0,12})/u.exec(first) ?? [];
  return word === '' ? isWord(words, 'weeks', second) : word === '+' || isWord(words, 'weeks', word);
}

/** A plain 0430 does not say that it is a time, nor 24/11 that it is a day: with weeks beside it, it could be 24+1. */
function saysTime(first: string, second: string, pieces: readonly string[], words: Words): boolean {
  if (readAgo(pieces, words) !== null) return true;
  if (isDayOrNow(second, words)) return !isWord(words, 'now', second) && readTimeOfDay([first], words) !== null;
  return marksTime(saysDay(first) || /^\d{1,2}[/-]\d{1,2}$/.test(first) ? pieces.slice(1) : pieces, words);
}

function isDayOrNow(piece: string, words: Words): boolean {
  return isWord(words, 'now', piece) || isWord(words, 'today', piece) || isWord(words, 'yesterday', piece);
}

/** 4:30, 4h30, 0430h, 430 pm. */
function marksTime(pieces: readonly string[], words: Words): boolean {
  const time = readTimeOfDay(pieces, words);
  return time !== null && (time.used > 1 || /\D$|\d[^\d.,*]+\d/u.test(pieces[0] ?? ''));
}
