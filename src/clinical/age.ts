// How old a baby is, from two instants. No clock: `now` is an argument. Ages are counted from the minute of birth, so no
// time zone is needed; a day of age is 24 hours, not a date.

const millisecondsPerHour = 3_600_000;

/**
 * The age in hours, with its fraction.
 *
 * Takes    bornAt, now: epoch milliseconds.
 * Returns  >= 0; null when the birth lies after now or either is not a number: the age is not known.
 */
export function ageHours(bornAt: number, now: number): number | null {
  const hours = (now - bornAt) / millisecondsPerHour;
  return Number.isFinite(hours) && hours >= 0 ? hours : null;
}

/** The age as people say it. All whole, and completed except `dayOfLife`: the first 24 hours are day 1 of life. */
export interface AgeParts {
  readonly hours: number;
  readonly days: number;
  readonly weeks: number;
  readonly dayOfLife: number;
}

/** The parts of an age given in hours, such as ageHours returns. Takes hours >= 0. */
export function ageParts(hours: number): AgeParts {
  const days = Math.floor(hours / 24);
  return { hours: Math.floor(hours), days, weeks: Math.floor(days / 7), dayOfLife: days + 1 };
}
