// Dates of the calendar as people write them, counted in whole days. No clock and no time zone: a date is not an instant.
// Read by gestation.ts.

/** YYYY-MM-DD. */
export type IsoDate = string;

const millisecondsPerDay = 86_400_000;

/**
 * The number of days since 1970-01-01, so that two dates subtract to the days between them.
 *
 * Returns  null for anything that is not a date of the calendar, such as 2025-02-29.
 */
export function dayNumber(date: IsoDate): number | null {
  const parts = /^(\d{4})-(\d{2})-(\d{2})$/.exec(date);
  if (parts === null) return null;
  const [year, month, day] = parts.slice(1).map(Number) as [number, number, number];
  // Date.UTC reads the years 0 to 99 as 1900 to 1999.
  if (year < 100 || month < 1 || month > 12 || day < 1 || day > daysInMonth(year, month)) return null;
  return Date.UTC(year, month - 1, day) / millisecondsPerDay;
}

function daysInMonth(year: number, month: number): number {
  const nextMonth = month === 12 ? Date.UTC(year + 1, 0) : Date.UTC(year, month);
  return (nextMonth - Date.UTC(year, month - 1)) / millisecondsPerDay;
}
