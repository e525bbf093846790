// Reads weeks of pregnancy at birth: 39, 39w, 39+4, 39w4d, 39 weeks. Kept as weeks and, when said, days.

import type { Gestation } from '../../clinical/protocol.ts';
import { isWord, type Read, refused, type Words } from './words.ts';

const weeksThenDays = /^(\d{1,3})([^\d+/.,*]*)(?:[+/.,*]?(\d)(?:\/7)?(\D*))?$/u;

export function readGestation(pieces: readonly string[], range: { low: number; high: number }, words: Words): Read<Gestation> {
  const [first, second] = pieces;
  if (first === undefined) return refused('nothing', 0, {});
  if (isWord(words, 'not-known', first)) return { kind: 'not-known', used: 1 };
  const match = weeksThenDays.exec(first);
  const [, weeksText = '', weekWord = '', daysText, dayWord = ''] = match ?? [];
  const wordsFit = (weekWord === '' || isWord(words, 'weeks', weekWord)) && (dayWord === '' || isWord(words, 'days', dayWord));
  if (match === null || !wordsFit) return refused('not-weeks', 1, { text: first, ...range });
  const weeks = Number(weeksText);
  const days = daysText === undefined ? undefined : Number(daysText);
  if (weeks < range.low || weeks > range.high || (days !== undefined && days > 6)) {
    return refused('out-of-range', 1, { text: first, ...range, unit: '' });
  }
  const used = weekWord === '' && second !== undefined && isWord(words, 'weeks', second) ? 2 : 1;
  return { kind: 'read', value: days === undefined ? { weeks } : { weeks, days }, used };
}
