// The days of a shift as a coordinator writes them: daily, mon-fri, "sat sun", 2026-12-25, 2026-12-24..2026-12-26.
// What is written here is read back as it was. Next: rota.ts.

import type { ShiftDays } from './rota.ts';

export const weekdayNames = ['monday', 'tuesday', 'wednesday', 'thursday', 'friday', 'saturday', 'sunday'] as const;
const everyDay = [1, 2, 3, 4, 5, 6, 7] as const;
const fewestLetters = 3;
const shortestRun = 3;

export type ReadDays =
  | { readonly kind: 'read'; readonly days: ShiftDays }
  /** `word` is the part that could not be read. */
  | { readonly kind: 'refused'; readonly word: string };

/** Weekdays by three letters or more, alone, listed, or from one to another also over a Sunday; or a date, or two. */
export function readShiftDays(text: string): ReadDays {
  const plain = text.trim().toLowerCase().replace(/\s+/g, ' ');
  const [from = '', until = from, ...more] = plain.split(/ ?(?:\.\.|\bto\b) ?/);
  if (/^\d/.test(plain)) {
    const isFine = more.length === 0 && isDate(from) && isDate(until) && from <= until;
    return isFine ? { kind: 'read', days: { kind: 'dated', from, until } } : { kind: 'refused', word: plain };
  }
  if (plain === 'daily') return weekly(everyDay);
  const weekdays: number[] = [];
  for (const word of plain
    .replace(/ ?[-\u2013] ?/g, '-')
    .split(/[\s,/&+]+/)
    .filter((one) => one !== '')) {
    const days = readWeekdays(word);
    if (days === null) return { kind: 'refused', word: word.split('-').find((end) => weekdayNamed(end) === null) ?? word };
    weekdays.push(...days);
  }
  return weekdays.length === 0 ? { kind: 'refused', word: plain } : weekly(weekdays);
}

export function writeShiftDays(days: ShiftDays): string {
  if (days.kind === 'dated') return days.from === days.until ? days.from : `${days.from}..${days.until}`;
  if (days.weekdays.length === everyDay.length) return 'daily';
  return runsOf(days.weekdays)
    .map((run) => (run.length < shortestRun ? run.map(nameOf).join(' ') : `${nameOf(run[0])}-${nameOf(run.at(-1))}`))
    .join(' ');
}

/** True for a date that the calendar has, as year-month-day. */
export function isDate(text: string): boolean {
  const at = /^\d{4}-\d{2}-\d{2}$/.test(text) ? Date.parse(`${text}T00:00:00Z`) : Number.NaN;
  return !Number.isNaN(at) && new Date(at).toISOString().startsWith(text);
}

function weekly(weekdays: readonly number[]): ReadDays {
  return { kind: 'read', days: { kind: 'weekly', weekdays: everyDay.filter((day) => weekdays.includes(day)) } };
}

function readWeekdays(word: string): number[] | null {
  const ends = word.split('-').map(weekdayNamed);
  const [first, last = first] = ends;
  if (ends.length > 2 || first === undefined || first === null || last === undefined || last === null) return null;
  const count = (last - first + everyDay.length) % everyDay.length;
  return Array.from({ length: count + 1 }, (_, step) => ((first - 1 + step) % everyDay.length) + 1);
}

function weekdayNamed(word: string): number | null {
  if (word.length < fewestLetters) return null;
  const index = weekdayNames.findIndex((name) => name.startsWith(word));
  return index === -1 ? null : index + 1;
}

function runsOf(weekdays: readonly number[]): number[][] {
  const runs: number[][] = [];
  for (const day of weekdays) {
    const run = runs.at(-1);
    if (run?.at(-1) === day - 1) run.push(day);
    else runs.push([day]);
  }
  return runs;
}

function nameOf(weekday: number | undefined): string {
  return weekdayNames[(weekday ?? 1) - 1]?.slice(0, fewestLetters) ?? '';
}
