// Reads weeks from a date: LMP 12/02 (first day of the last period), EDD 19/11 (due date). Kept as that date and the
// facility's offset, because the weeks at birth follow only once the birth is known; src/dialog/gather.ts works them out.

import { DateTime } from 'luxon';
import { type Dating, gestationAt, weeksAndDays } from '../../clinical/gestation.ts';
import type { Gestation } from '../../clinical/protocol.ts';
import { readDay } from './calendar-day.ts';
import { isWord, type Read, refused, type Words } from './words.ts';

const kinds = ['last-period', 'due-date'] as const;
const minute = 60_000;
const stored = /^(last-period|due-date)=(\d{4}-\d{2}-\d{2})([+-]\d+)$/;

/** Whether the piece is a word for one of the two dates. */
export function namesDate(piece: string, words: Words): boolean {
  return kinds.some((one) => isWord(words, one, piece));
}

/** Null: the pieces do not begin with a word for one of the two dates. */
export function readDatedGestation(
  pieces: readonly string[],
  clock: { readonly now: number; readonly zone: string },
  range: { readonly low: number; readonly high: number },
  words: Words,
): Read<string> | null {
  const [word = '', date] = pieces;
  const kind = kinds.find((one) => isWord(words, one, word));
  if (kind === undefined) return null;
  const here = DateTime.fromMillis(clock.now, { zone: clock.zone });
  const found = date === undefined ? null : (dueAhead(kind, date, here, words) ?? readDay(date, here, words));
  const on = found?.day.toISODate();
  if (on === null || on === undefined) return refused('not-weeks', 2, { text: pieces.slice(0, 2).join(' ') });
  const value = `${kind}=${on}${here.offset < 0 ? '-' : '+'}${Math.abs(here.offset)}`;
  const weeks = gestationFrom(value, clock.now / minute)?.weeks;
  if (weeks === undefined || weeks < range.low || weeks > range.high)
    return refused('not-weeks', 2, { text: pieces.slice(0, 2).join(' ') });
  return { kind: 'read', value, used: 2 };
}

/** A due date may lie ahead; a day without a year is then the nearest one too. */
function dueAhead(kind: Dating['kind'], date: string, here: DateTime, words: Words) {
  return kind === 'due-date' ? readDay(date, here.plus({ days: 90 }), words) : null;
}

export function isDatedGestation(value: string): boolean {
  return stored.test(value);
}

/** Weeks and days at birth; null when the value is no such date. Takes epoch minutes of birth. */
export function gestationFrom(value: string, bornMinutes: number): Gestation | null {
  const [, kind, on = '', offset = '0'] = stored.exec(value) ?? [];
  if (kind !== 'last-period' && kind !== 'due-date') return null;
  const bornOn = DateTime.fromMillis((bornMinutes + Number(offset)) * minute, { zone: 'utc' }).toISODate();
  const at = bornOn === null ? null : gestationAt({ kind, on }, bornOn);
  return at?.kind === 'gestation' ? weeksAndDays(at.days) : null;
}
