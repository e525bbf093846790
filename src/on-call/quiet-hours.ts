// When a reminder may go out: at once, or at the end of the night it falls in, by the clock on the facility's wall. A night in
// which that clock is changed is as long as its times say. What is never held: follow-up.ts. Next: wall-clock.ts.

import type { QuietHours } from './follow-up.ts';
import { dayAt, instantOf, plusDays } from './wall-clock.ts';

/**
 * The first instant from `at` on that is not quiet.
 *
 * Takes    at: epoch milliseconds. zone: IANA.
 * Returns  `at` itself outside quiet hours; the instant at which they end counts as outside.
 */
export function reminderAt(at: number, zone: string, quiet: QuietHours): number {
  const today = dayAt(at, zone);
  for (const day of [plusDays(today, -1), today]) {
    const { from, until } = quietFrom(day, zone, quiet);
    if (from <= at && at < until) return until;
  }
  return at;
}

/** The quiet hours that begin on that day; none when they begin and end at the same time. */
function quietFrom(day: string, zone: string, { fromMinute, toMinute }: QuietHours): { from: number; until: number } {
  const from = instantOf(day, fromMinute, zone);
  if (fromMinute === toMinute) return { from, until: from };
  return { from, until: instantOf(toMinute > fromMinute ? day : plusDays(day, 1), toMinute, zone) };
}
