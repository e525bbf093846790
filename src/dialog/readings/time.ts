// Reads when a baby was born: 0430, 4:30, 5h, 5h ago, 30 min ago, today 0430, 2300 yesterday, 24/11 0430, 0430 24/11. A clock time alone
// is the last time the clock at the facility showed it. Nothing is read in the future. Next: time-of-day.ts, time-ago.ts,
// calendar-day.ts.

import { DateTime } from 'luxon';
import { readDay, saysDay } from './calendar-day.ts';
import { readAgo } from './time-ago.ts';
import { readTimeOfDay, type TimeOfDay } from './time-of-day.ts';
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
const minutesPerHour = 60;
const hoursPerDay = 24;

/**
 * Epoch minutes of birth.
 *
 * Returns  doubt: a bare small number such as `5`, which could be five o'clock or five hours old (five hours is offered); a
 *          day that could be a time (4.11 0430); 430h. refused: not a time; in the future; older than the clock's oldestDays.
 * Errors   the zone is none.
 */
export function readTime(pieces: readonly string[], clock: Clock, words: Words): Read<number> {
  const [first] = pieces;
  if (first === undefined) return refused('nothing', 0, {});
  if (isWord(words, 'not-known', first)) return { kind: 'not-known', used: 1 };
  if (isWord(words, 'now', first)) return { kind: 'read', value: Math.floor(clock.now / minute), used: 1 };

  const ago = readAgo(pieces, words);
  if (ago !== null) return bounded(clock.now - ago.minutes * minute, ago.used, pieces, clock, ago.unsure);

  const here = DateTime.fromMillis(clock.now, { zone: clock.zone });
  if (!here.isValid) throw new Error(`"${clock.zone}" is not a time zone. Mend the zone of the facility in the roster.`);
  const time = readTimeOfDay(pieces, words);
  const day = readDay(first, here, words);
  const timeThatDay = day === null ? null : readTimeOfDay(pieces.slice(1), words);
  if (day !== null && timeThatDay !== null)
    return bounded(at(day.day, timeThatDay, clock), 1 + timeThatDay.used, pieces, clock, day.unsure);
  if (time !== null) return readClockTime(time, here, pieces, clock, words);
  if (day !== null) return refused('day-needs-time', 1, { text: first });

  const hours = /^\d{1,2}$/.test(first) ? Number(first) : Number.NaN;
  if (hours <= hoursPerDay) return bounded(clock.now - hours * minutesPerHour * minute, 1, pieces, clock, true);
  return refused('not-a-time', 1, { text: first });
}

/** The last time that the clock showed it, or that time on the day that is named after it. */
function readClockTime(time: TimeOfDay, here: DateTime, pieces: readonly string[], clock: Clock, words: Words): Read<number> {
  const named = pieces[time.used] ?? '';
  const isNamed = isWord(words, 'today', named) || isWord(words, 'yesterday', named) || saysDay(named);
  const day = isNamed ? readDay(named, here, words) : null;
  if (day !== null) return bounded(at(day.day, time, clock), time.used + 1, pieces, clock);
  const days = [here.plus({ days: 1 }), here, here.minus({ days: 1 }), here.minus({ days: 2 })];
  const last = days.map((one) => at(one, time, clock)).find((instant) => instant <= clock.now);
  return bounded(last ?? Number.NaN, time.used, pieces, clock);
}

/**
 * The instant at which the clock shows this time on this day; when it shows it twice, the later one that is not to come.
 * A time that the clock skips in spring is that of a clock which was not put on.
 */
function at(day: DateTime, time: TimeOfDay, { now }: Clock): number {
  const [dated, hour] = time.hour === hoursPerDay ? [day.plus({ days: 1 }), 0] : [day, time.hour];
  const shown = dated.set({ hour, minute: time.minute, second: 0, millisecond: 0 });
  const instants = shown.getPossibleOffsets().map((one) => one.toMillis());
  return instants.filter((instant) => instant <= now).at(-1) ?? instants[0] ?? shown.toMillis();
}

function bounded(instant: number, used: number, pieces: readonly string[], clock: Clock, unsure = false): Read<number> {
  const text = pieces.slice(0, used).join(' ');
  if (Number.isNaN(instant)) return refused('not-a-time', used, { text });
  if (instant > clock.now) return refused('in-the-future', used, { text });
  if (clock.now - instant > clock.oldestDays * hoursPerDay * minutesPerHour * minute)
    return refused('too-long-ago', used, { text, days: clock.oldestDays });
  return { kind: unsure ? 'doubt' : 'read', value: Math.floor(instant / minute), used };
}
