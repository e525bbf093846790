// Cells of the roster as values: names, ids, words, times of day, dates, small numbers. What cannot be read is reported with
// something to type. Numbers of phones: read-roster-phone.ts.

import { isDate } from '../on-call/shift-days.ts';
import { type Cell, cellOf, type Row, unused } from './read-roster-table.ts';
import { unguardFormula } from './spreadsheet-formula.ts';
import { complain, type Report, unknownName } from './yaml-source.ts';

/** Texts to phones name people and facilities; a longer name would cost a segment. */
const longestName = 40;
const longestJourneyMinutes = 2880;

export function faultOf(row: Row, cell: Cell, code: string, what: string, fix: string, why = unused) {
  return complain(row, cell.range, `roster/${code}`, what, why, fix);
}

/** The cell's text; null, and a report, when it is empty. */
export function filled(row: Row, column: string, report: Report): Cell | null {
  const cell = cellOf(row, column);
  if (cell.text !== '') return cell;
  report(faultOf(row, cell, 'cell-empty', `"${column}" is empty in this line.`, `Fill in the ${column}.`));
  return null;
}

/** A person's or a facility's name. */
export function nameIn(row: Row, column: string, report: Report): string | null {
  const cell = filled(row, column, report);
  if (cell === null) return null;
  const name = unguardFormula(cell.text);
  if ([...name].length <= longestName && !/[\p{Cc};]/u.test(name)) return name;
  const what = `"${name}" cannot be a name in a text.`;
  report(faultOf(row, cell, 'not-a-name', what, `Write at most ${longestName} letters, without semicolons.`));
  return null;
}

export function idIn(row: Row, column: string, report: Report): string | null {
  const cell = filled(row, column, report);
  if (cell === null) return null;
  if (/^[a-z][a-z0-9]*(-[a-z0-9]+)*$/.test(cell.text) && cell.text.length <= longestName) return cell.text;
  const what = `"${cell.text}" is not an id.`;
  report(faultOf(row, cell, 'not-an-id', what, 'Write small letters, digits and hyphens, such as baobab-hospital.'));
  return null;
}

/** One of a few words; null, and a report, for any other. */
export function wordIn<W extends string>(row: Row, cell: Cell, said: string, words: readonly W[], kind: string, report: Report): W | null {
  const word = words.find((one) => one === said.toLowerCase());
  if (word !== undefined) return word;
  report(unknownName(row, cell.range, 'roster/unknown-word', kind, said, words, unused));
  return null;
}

/** The minute of the day, 0 to 1440; seconds, which spreadsheets add, must be none. */
export function timeIn(row: Row, column: string, report: Report): number | null {
  const cell = filled(row, column, report);
  if (cell === null) return null;
  const [, hours = '', minutes = ''] = /^(\d{1,2}):([0-5]\d)(?::00)?$/.exec(cell.text) ?? [];
  const minute = hours === '' ? Number.NaN : Number(hours) * 60 + Number(minutes);
  const minutesPerDay = 1440;
  if (minute <= minutesPerDay) return minute;
  const what = `"${cell.text}" is not a time of day.`;
  report(faultOf(row, cell, 'not-a-time', what, 'Write hours and minutes from 00:00 to 24:00, such as 07:30.'));
  return null;
}

export function dateIn(row: Row, column: string, report: Report): string | null {
  const cell = filled(row, column, report);
  if (cell === null) return null;
  if (isDate(cell.text)) return cell.text;
  report(faultOf(row, cell, 'not-a-date', `"${cell.text}" is not a date.`, dateRemedy(cell.text)));
  return null;
}

/** What a spreadsheet made of a date, put back: 25/12/2026 can be only one day, 11/12/2026 may be two. */
export function dateRemedy(text: string): string {
  const [, one = '', other = '', year = ''] = /^(\d{1,2})[/.-](\d{1,2})[/.-](\d{4})$/.exec(text.trim()) ?? [];
  const two = (digits: string): string => digits.padStart(2, '0');
  const meant = [`${year}-${two(other)}-${two(one)}`, `${year}-${two(one)}-${two(other)}`].filter(isDate);
  const offered = meant.length === 0 ? 'year-month-day, such as 2026-12-25' : [...new Set(meant)].join(' or ');
  return `Write ${offered}, and make the column text, so that the spreadsheet keeps it.`;
}

/** Empty: null without a report. */
export function journeyMinutesIn(row: Row, column: string, report: Report): number | null {
  const cell = cellOf(row, column);
  if (cell.text === '') return null;
  const minutes = /^\d{1,4}$/.test(cell.text) ? Number(cell.text) : Number.NaN;
  if (minutes > 0 && minutes <= longestJourneyMinutes) return minutes;
  const what = `"${cell.text}" is not a number of minutes.`;
  report(faultOf(row, cell, 'not-minutes', what, `Write whole minutes, 1 to ${longestJourneyMinutes}, such as 45.`));
  return null;
}
