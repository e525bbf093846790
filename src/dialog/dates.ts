// Instants and stretches of time as a wall clock and a calendar at the facility show them: 1040, 26/11 0430, 27-28/11.
// Day before month, 24 hours. Pure; the zone is passed in.

import { DateTime } from 'luxon';

/** "1040" on the day of `now`, else "26/11 0430". */
export function whenText(at: number, now: number, zone: string): string {
  const then = local(at, zone);
  const time = then.toFormat('HHmm');
  return isSameDay(then, local(now, zone)) ? time : `${dayMonth(then)} ${time}`;
}

/** "26/11" */
export function dayText(at: number, zone: string): string {
  return dayMonth(local(at, zone));
}

/** "27/11", "27-28/11", "30/11-2/12" */
export function daysText(from: number, to: number, zone: string): string {
  const [first, last] = [local(from, zone), local(to, zone)];
  if (isSameDay(first, last)) return dayMonth(first);
  return isSameMonth(first, last) ? `${first.day}-${dayMonth(last)}` : `${dayMonth(first)}-${dayMonth(last)}`;
}

/** Both of one zone. The library's own question makes four more dates, and a result asks for several. */
function isSameMonth(one: DateTime, other: DateTime): boolean {
  return one.month === other.month && one.year === other.year;
}

function isSameDay(one: DateTime, other: DateTime): boolean {
  return one.day === other.day && isSameMonth(one, other);
}

function dayMonth(at: DateTime): string {
  return `${at.day}/${at.month}`;
}

function local(at: number, zone: string): DateTime {
  const there = DateTime.fromMillis(at, { zone });
  if (!there.isValid) throw new Error(`"${zone}" is not a time zone. Mend the zone of the facility in the roster.`);
  return there;
}
