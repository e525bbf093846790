// Reads when a baby was born: 0430, 4:30, 5h, 5h ago, 30 min ago, today 0430, yesterday 2300, 24/11 0430.
// A clock time alone is the last time the clock at the facility showed it. Nothing is read in the future.

import { DateTime } from 'luxon';
import { isWord, type Read, refused, type Words } from './words.ts';

export interface Clock {
  /** Epoch milliseconds. */
  readonly now: number;
  /** IANA zone of the facility. */
  readonly zone: string;
  /** Oldest birth that is read, in days. */
  readonly oldestDays: number;
}

const minute = 60_000;
const clockTime = /^(\d{1,2})(?:[:.h*](\d{2})|(\d{2}))(am|pm)?$/u;
const calendarDay = /^(\d{1,2})[/.*-](\d{1,2})$/u;
const agoToken = /^(\d{1,3})(?:[.,](\d))?(\D+)$/u;

/**
 * Epoch minutes of birth.
 *
 * Returns  doubt: a bare small number such as `5`, which could be five o'clock or five hours old (five hours is offered).
 *          refused: not a time; in the future; older than the clock's oldestDays.
 */
export function readTime(pieces: readonly string[], clock: Clock, words: Words): Read<number> {
  const [first, second, third] = pieces;
  if (first === undefined) return refused('nothing', 0, {});
  if (isWord(words, 'not-known', first)) return { kind: 'not-known', used: 1 };
  if (isWord(words, 'now', first)) return { kind: 'read', value: Math.floor(clock.now / minute), used: 1 };

  const ago = readAgo(first, second, third, words);
  if (ago !== null) return bounded(clock.now - ago.minutes * minute, ago.used, first, clock);

  const here = DateTime.fromMillis(clock.now, { zone: clock.zone });
  const day = dayOf(first, here, words);
  if (day !== null && day.isValid) {
    const time = second === undefined ? null : timeOfDay(second, third, words);
    if (time === null) return refused('day-needs-time', 1, { text: first });
    return bounded(day.set(time.at).toMillis(), 1 + time.used, `${first} ${second}`, clock);
  }
  const time = timeOfDay(first, second, words);
  if (time !== null) {
    const today = here.set({ ...time.at, second: 0, millisecond: 0 });
    const at = today.toMillis() > clock.now ? today.minus({ days: 1 }) : today;
    return bounded(at.toMillis(), time.used, first, clock);
  }
  if (/^\d{1,2}$/.test(first) && Number(first) <= 24) {
    return { kind: 'doubt', value: Math.floor((clock.now - Number(first) * 60 * minute) / minute), used: 1 };
  }
  return refused('not-a-time', 1, { text: first });
}

/** `5h`, `5 h`, `5h ago`, `30 min`, `2d`: how long ago, in minutes. */
function readAgo(first: string, second: string | undefined, third: string | undefined, words: Words): { minutes: number; used: number } | null {
  const joined = agoToken.exec(first);
  const apart = /^\d{1,3}(?:[.,]\d)?$/.test(first) && second !== undefined ? agoToken.exec(first + second) : null;
  const match = joined ?? apart;
  if (match === null) return null;
  const [, whole = '', tenth, word = ''] = match;
  const perWord = isWord(words, 'minutes', word) ? 1 : isWord(words, 'hours', word) ? 60 : isWord(words, 'days', word) ? 1440 : null;
  if (perWord === null) return null;
  const used = joined === null ? 2 : 1;
  const next = joined === null ? third : second;
  const saysAgo = next !== undefined && isWord(words, 'ago', next);
  return { minutes: Math.round(Number(`${whole}.${tenth ?? 0}`) * perWord), used: used + (saysAgo ? 1 : 0) };
}

function dayOf(token: string, here: DateTime, words: Words): DateTime | null {
  const midnight = here.startOf('day');
  if (isWord(words, 'today', token)) return midnight;
  if (isWord(words, 'yesterday', token)) return midnight.minus({ days: 1 });
  const match = calendarDay.exec(token);
  if (match === null) return null;
  const thisYear = midnight.set({ month: Number(match[2]), day: Number(match[1]) });
  const isThatDay = thisYear.day === Number(match[1]) && thisYear.month === Number(match[2]);
  if (!isThatDay) return null;
  return thisYear > here ? thisYear.minus({ years: 1 }) : thisYear;
}

function timeOfDay(token: string, next: string | undefined, words: Words): { at: { hour: number; minute: number }; used: number } | null {
  const match = clockTime.exec(token);
  if (match === null) return null;
  const half = match[4] ?? (next !== undefined && (isWord(words, 'am', next) ? 'am' : isWord(words, 'pm', next) ? 'pm' : undefined));
  let hour = Number(match[1]);
  const minutes = Number(match[2] ?? match[3]);
  if (half === 'pm' && hour < 12) hour += 12;
  if (half === 'am' && hour === 12) hour = 0;
  if (hour > 23 || minutes > 59) return null;
  return { at: { hour, minute: minutes }, used: half !== undefined && half !== false && match[4] === undefined ? 2 : 1 };
}

function bounded(at: number, used: number, shown: string, clock: Clock): Read<number> {
  if (at > clock.now) return refused('in-the-future', used, { text: shown });
  if (clock.now - at > clock.oldestDays * 1440 * minute) return refused('too-long-ago', used, { text: shown, days: clock.oldestDays });
  return { kind: 'read', value: Math.floor(at / minute), used };
}
