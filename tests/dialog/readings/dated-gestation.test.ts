import { describe, expect, it } from 'vitest';
import { gestationFrom, readDatedGestation } from '../../../src/dialog/readings/dated-gestation.ts';
import { tokens } from '../../../src/dialog/readings/tokens.ts';
import { book, minutesAt, now, words } from '../first-day.ts';

const dated = (text: string): unknown => {
  const read = readDatedGestation(tokens(text, words), { now, zone: 'Africa/Nairobi' }, book.ranges.gestation, words);
  if (read === null || read.kind === 'not-known') return read;
  return read.kind === 'refused' ? [read.reason.code, read.used] : [read.value, read.used];
};

/** Now is 25 November 2026. */
describe('weeks from a date', () => {
  it.each([
    ['lmp 18/2', 'last-period=2026-02-18+180'],
    ['LMP 18/02/2026 3100', 'last-period=2026-02-18+180'],
    ['lmp 18-2', 'last-period=2026-02-18+180'],
    ['edd 20/11', 'due-date=2026-11-20+180'],
    ['edd 5/1', 'due-date=2027-01-05+180'],
  ])('%j is that day, at the offset of the facility', (text, value) => {
    expect(dated(text)).toEqual([value, 2]);
  });

  it.each(['lmp', 'lmp 39', 'lmp 31/2', 'lmp 20/11', 'edd 1/5'])('%j is refused with its date', (text) => {
    expect(dated(text)).toEqual(['not-weeks', 2]);
  });

  it.each(['20/2', '39', ''])('%j names no date', (text) => {
    expect(dated(text)).toBeNull();
  });

  // A pregnancy is dated at 280 days from the first day of the last period (common practice, no source).
  it.each([
    ['last-period=2026-02-18+180', '2026-11-25T04:30', { weeks: 40, days: 0 }],
    ['due-date=2026-11-25+180', '2026-11-25T04:30', { weeks: 40, days: 0 }],
    ['due-date=2026-12-05+180', '2026-11-25T04:30', { weeks: 38, days: 4 }],
    ['last-period=2026-02-18+180', '2026-11-25T00:30', { weeks: 40, days: 0 }],
    ['last-period=2026-02-18+180', '2026-11-24T23:30', { weeks: 39, days: 6 }],
  ])('%s and born at %s are %o', (value, born, weeks) => {
    expect(gestationFrom(value, minutesAt(born))).toEqual(weeks);
  });
});
