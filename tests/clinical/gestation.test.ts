import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { gestationAt, gestationDays, postmenstrualWeeks, weeksAndDays } from '../../src/clinical/gestation.ts';
import { dayNumber } from '../../src/clinical/iso-date.ts';

const isoDate = (day: number) => new Date(day * 86_400_000).toISOString().slice(0, 10);
const anyDay = fc.integer({ min: dayNumber('2000-01-01')!, max: dayNumber('2099-12-31')! });

describe('gestation', () => {
  // Dates counted on a calendar.
  it.each([
    ['from the last period', { kind: 'last-period', on: '2025-01-01' }, '2025-10-08', 280],
    ['from the last period, across 29 February', { kind: 'last-period', on: '2024-02-01' }, '2024-11-07', 280],
    ['on the due date', { kind: 'due-date', on: '2025-10-08' }, '2025-10-08', 280],
    ['a week before the due date', { kind: 'due-date', on: '2025-10-08' }, '2025-10-01', 273],
    ['a week after the due date', { kind: 'due-date', on: '2025-12-29' }, '2026-01-05', 287],
    ['as counted that day', { kind: 'counted', weeks: 36, days: 4, on: '2025-06-01' }, '2025-06-01', 256],
    ['as counted by an earlier scan', { kind: 'counted', weeks: 12, days: 0, on: '2025-01-31' }, '2025-03-01', 113],
  ] as const)('%s', (_how, dating, on, days) => {
    expect(gestationAt(dating, on)).toEqual({ kind: 'gestation', days });
  });

  it('is the same from the last period, from the due date 280 days later, and from a scan between', () => {
    fc.assert(
      fc.property(anyDay, fc.integer({ min: 0, max: 310 }), fc.integer({ min: 0, max: 310 }), (start, until, scan) => {
        const on = isoDate(start + until);
        const counted = gestationAt({ kind: 'counted', ...weeksAndDays(scan), on: isoDate(start + scan) }, on);
        expect(gestationAt({ kind: 'last-period', on: isoDate(start) }, on)).toEqual({ kind: 'gestation', days: until });
        expect(gestationAt({ kind: 'due-date', on: isoDate(start + 280) }, on)).toEqual({ kind: 'gestation', days: until });
        expect(counted).toEqual({ kind: 'gestation', days: until });
      }),
    );
  });

  it.each([
    ['2025-02-29', '2025-09-01'],
    ['2025-13-01', '2025-09-01'],
    ['2025-00-10', '2025-09-01'],
    ['2025-04-31', '2025-09-01'],
    ['0025-04-30', '2025-09-01'],
    ['25-4-30', '2025-09-01'],
    ['', '2025-09-01'],
    ['2025-01-01T00:00', '2025-09-01'],
    ['2025-01-01', 'today'],
  ])('is refused from "%s" to "%s", which are not both dates', (from, on) => {
    expect(gestationAt({ kind: 'last-period', on: from }, on)).toEqual({ kind: 'refused', reason: 'not-a-date' });
  });

  it('is refused before the pregnancy began', () => {
    expect(gestationAt({ kind: 'last-period', on: '2025-05-02' }, '2025-05-01')).toEqual({
      kind: 'refused',
      reason: 'before-the-pregnancy',
    });
    expect(gestationAt({ kind: 'due-date', on: '2026-05-01' }, '2025-05-01')).toEqual({ kind: 'refused', reason: 'before-the-pregnancy' });
  });

  it.each([
    [36, 7],
    [36, -1],
    [-1, 0],
    [36.5, 0],
    [36, 0.5],
    [Number.NaN, 0],
  ])('is refused for %f weeks and %f days', (weeks, days) => {
    expect(gestationDays(weeks, days)).toBeNull();
    expect(gestationAt({ kind: 'counted', weeks, days, on: '2025-05-01' }, '2025-05-01')).toEqual({
      kind: 'refused',
      reason: 'not-weeks-and-days',
    });
  });

  it('goes from days to weeks and days and back', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 320 }), (total) => {
        const { weeks, days } = weeksAndDays(total);
        expect(gestationDays(weeks, days)).toBe(total);
      }),
    );
  });

  it('goes on after birth as postmenstrual age', () => {
    expect(postmenstrualWeeks(32 * 7 + 3, 18)).toBe(35);
  });
});
