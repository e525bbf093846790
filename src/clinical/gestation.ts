// Gestational age in exact days, from whatever the mother or her card can tell. Never rounded to weeks: at the 10th
// centile one day is worth up to 2 points. What counts as preterm or post-term is data (flows/protocol).

import { dayNumber, type IsoDate } from './iso-date.ts';

/** How the pregnancy was dated. */
export type Dating =
  /** Weeks and days as counted on one date: at birth, or by an earlier scan. */
  | { readonly kind: 'counted'; readonly weeks: number; readonly days: number; readonly on: IsoDate }
  /** The first day of the last period, which is day 0. */
  | { readonly kind: 'last-period'; readonly on: IsoDate }
  | { readonly kind: 'due-date'; readonly on: IsoDate };

export type GestationAt =
  | { readonly kind: 'gestation'; readonly days: number }
  | { readonly kind: 'refused'; readonly reason: 'not-a-date' | 'not-weeks-and-days' | 'before-the-pregnancy' };

/** From the first day of the last period to the due date: 40 weeks. Source: ICD-10, WHO, volume 2, definitions (from memory). */
const daysToDueDate = 280;

/**
 * The gestation on a date. Does not ask whether it is plausible: the tables and the protocol have their own limits.
 *
 * Takes    dates as YYYY-MM-DD; weeks >= 0 and days 0-6, whole.
 * Returns  whole days >= 0; "refused" when a date is not one, or lies before the pregnancy began.
 */
export function gestationAt(dating: Dating, on: IsoDate): GestationAt {
  const today = dayNumber(on);
  const datedOn = dayNumber(dating.on);
  if (today === null || datedOn === null) return { kind: 'refused', reason: 'not-a-date' };
  const daysThen = daysWhenDated(dating);
  if (daysThen === null) return { kind: 'refused', reason: 'not-weeks-and-days' };
  const days = daysThen + today - datedOn;
  return days < 0 ? { kind: 'refused', reason: 'before-the-pregnancy' } : { kind: 'gestation', days };
}

function daysWhenDated(dating: Dating): number | null {
  switch (dating.kind) {
    case 'counted':
      return gestationDays(dating.weeks, dating.days);
    case 'last-period':
      return 0;
    case 'due-date':
      return daysToDueDate;
  }
}

/** 36 weeks and 4 days are 256 days. Null unless both are whole, weeks >= 0 and days 0-6. */
export function gestationDays(weeks: number, days: number): number | null {
  const isWhole = Number.isInteger(weeks) && Number.isInteger(days);
  return isWhole && weeks >= 0 && days >= 0 && days <= 6 ? weeks * 7 + days : null;
}

/** 256 days are 36 weeks and 4 days. */
export function weeksAndDays(days: number): { readonly weeks: number; readonly days: number } {
  return { weeks: Math.floor(days / 7), days: days % 7 };
}

/** Exact weeks since the last period: gestation at birth and age together. Takes whole days of both. */
export function postmenstrualWeeks(gestationDaysAtBirth: number, ageDays: number): number {
  return (gestationDaysAtBirth + ageDays) / 7;
}
