// From which day to which a report goes, both included. A day is the facility's own. Next: figures.ts.

import { DateTime } from 'luxon';

export interface Period {
  /** As YYYY-MM-DD, both included. */
  readonly from: string;
  readonly until: string;
}

/** Monday three weeks before the week of `now`, to the end of that week: four whole weeks. */
export function lastFourWeeks(now: number): Period {
  const week = DateTime.fromMillis(now, { zone: 'utc' }).startOf('week');
  return { from: day(week.minus({ weeks: 3 })), until: day(week.plus({ days: 6 })) };
}

/** Four weeks that begin or end with this day; null: it is no day of the calendar. */
export function fourWeeksWith(end: 'from' | 'until', text: string): Period | null {
  const given = DateTime.fromFormat(text, 'yyyy-MM-dd', { zone: 'utc' });
  if (!given.isValid) return null;
  const rest = { days: 27 };
  return end === 'from' ? { from: text, until: day(given.plus(rest)) } : { from: day(given.minus(rest)), until: text };
}

/** Null: one of them is no day of the calendar, or they stand the wrong way round. */
export function periodOf(from: string, until: string): Period | null {
  const [first, last] = [from, until].map((text) => DateTime.fromFormat(text, 'yyyy-MM-dd', { zone: 'utc' }));
  return first?.isValid && last?.isValid && first <= last ? { from, until } : null;
}

const dayMilliseconds = 86_400_000;

/** Instants that hold the period in every time zone, so that an index can be used before each row's own day is known. */
export function aroundPeriod({ from, until }: Period): { readonly first: number; readonly last: number } {
  return { first: Date.parse(`${from}T00:00Z`) - dayMilliseconds, last: Date.parse(`${until}T00:00Z`) + 2 * dayMilliseconds };
}

function day(at: DateTime): string {
  return at.toFormat('yyyy-MM-dd');
}
