// A day: today, yesterday, 24/11, 24.11, 24-11-2026, 2026-11-24. Day before month. Without a year it is the nearest such day.

import type { DateTime } from 'luxon';
import { isWord, type Words } from './words.ts';

export interface CalendarDay {
  /** Some instant of it in the zone of `here`; only its date counts. */
  readonly day: DateTime;
  /** True: 4.11 and 4*11 may be a time on the clock as well. */
  readonly unsure: boolean;
}

const dayMonthYear = /^(\d{1,2})([/.*-])(\d{1,2})(?:\2(\d{2}|\d{4}))?$/;
const halfAYear = 183;
/** With a month of two digits or a year: 24/1 and 24.1 are weeks and days of pregnancy as well. */
const onlyADay = /^(?:0?[1-9]|[12]\d|3[01])(?:[/.*-](?:0[1-9]|1[0-2])|([/.*-])\d{1,2}\1(?:\d{2}|\d{4}))$/;
const isoDate = /^(\d{4})-(\d{1,2})-(\d{1,2})$/;

/** Whether it says by how it is written that it is a day. */
export function saysDay(piece: string): boolean {
  return onlyADay.test(piece) || isoDate.test(piece);
}

/** Null: no day, or none that is in the calendar. */
export function readDay(piece: string, here: DateTime, words: Words): CalendarDay | null {
  const noon = here.set({ hour: 12, minute: 0, second: 0, millisecond: 0 });
  if (isWord(words, 'today', piece)) return { day: noon, unsure: false };
  if (isWord(words, 'yesterday', piece)) return { day: noon.minus({ days: 1 }), unsure: false };
  const [, isoYear, isoMonth, isoDay] = isoDate.exec(piece) ?? [];
  if (isoYear !== undefined) return dated(noon, Number(isoYear), Number(isoMonth), Number(isoDay), false);
  const [, day, mark = '', month = '', year] = dayMonthYear.exec(piece) ?? [];
  if (day === undefined) return null;
  if (year !== undefined) return dated(noon, Number(year.padStart(4, '20')), Number(month), Number(day), false);
  const unsure = '.*'.includes(mark) && Number(day) < 24 && month.length === 2;
  const thisYear = dated(noon, noon.year, Number(month), Number(day), unsure);
  // The nearest such day: 26/11 on the 25th is tomorrow, to be refused, and 30/12 on the 2nd of January lies behind.
  if (thisYear !== null && thisYear.day.diff(here, 'days').days < halfAYear) return thisYear;
  return dated(noon, noon.year - 1, Number(month), Number(day), unsure);
}

function dated(noon: DateTime, year: number, month: number, day: number, unsure: boolean): CalendarDay | null {
  const date = noon.set({ year, month, day });
  return date.month === month && date.day === day ? { day: date, unsure } : null;
}
