// How long ago: 5h, 5 h, 5h ago, 1.5h, 30 min ago, 2d, 1 h 30 min, 1h30 ago. 1h30 alone is a time on the clock.

import { readAmount } from './amount.ts';
import { isWord, type Words } from './words.ts';

export interface Ago {
  readonly minutes: number;
  /** True: three digits before hours, which may be a time on the clock as well (430h). */
  readonly unsure: boolean;
  readonly used: number;
}

const units = [
  { what: 'days', minutes: 1440 },
  { what: 'hours', minutes: 60 },
  { what: 'minutes', minutes: 1 },
] as const;

/** The stretch of time that the pieces begin with; null when there is none. */
export function readAgo(pieces: readonly string[], words: Words): Ago | null {
  let minutes = 0;
  let used = 0;
  let unsure = false;
  let below: number = Number.POSITIVE_INFINITY;
  const unitOf = (word: string) => units.find(({ what }) => isWord(words, what, word));
  const parts = splitParts(pieces.slice(0, 7), words);
  while (used < parts.length) {
    const amount = readAmount(parts.slice(used), (piece) => unitOf(piece) !== undefined);
    const unit = amount === null ? undefined : unitOf(amount.unit);
    if (amount === null || unit === undefined || unit.minutes >= below || amount.per !== '' || amount.whole.length > 3) break;
    minutes += amount.value * unit.minutes;
    unsure ||= unit.what === 'hours' && amount.whole.length > 2;
    below = unit.minutes;
    used += amount.used;
  }
  if (used === 0) return null;
  const saysAgo = isWord(words, 'ago', parts[used] ?? '');
  const usedPieces = used - (parts.length - Math.min(pieces.length, 7)) + (saysAgo ? 1 : 0);
  return { minutes: Math.round(minutes), unsure, used: usedPieces };
}

/** `1h30min` and `1h30 ago` in front become the parts that they are made of. */
function splitParts(pieces: readonly string[], words: Words): readonly string[] {
  const [first = '', second = ''] = pieces;
  const [, hours = '', hourWord = '', rest = '', minuteWord = ''] = /^(\d{1,2})(\D{1,12})(\d{1,2})(\D{0,12})$/u.exec(first) ?? [];
  const saysMinutes =
    isWord(words, 'minutes', minuteWord) || (minuteWord === '' && (isWord(words, 'ago', second) || isWord(words, 'minutes', second)));
  if (!saysMinutes || hourWord === '' || !isWord(words, 'hours', hourWord)) return pieces;
  const minuteUnit = minuteWord === '' ? (words.readings.minutes?.[0] ?? '') : minuteWord;
  const others = pieces.slice(minuteWord === '' && isWord(words, 'minutes', second) ? 2 : 1);
  return [hours + hourWord, rest + minuteUnit, ...others];
}
