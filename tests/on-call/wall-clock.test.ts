// Clock changes, each as the tz database has it: Berlin 2026-03-29 02:00 -> 03:00 and 2026-10-25 03:00 -> 02:00; Cairo
// 2026-04-24 00:00 -> 01:00 and 2026-10-30 00:00 -> 23:00 of the day before; Apia had no 2011-12-30.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dayAt, instantOf, plusDays, wallClockOver, weekdayOf } from '../../src/on-call/wall-clock.ts';

const hour = 60;

describe('a time on the clock', () => {
  it.each([
    ['Africa/Nairobi', '2026-11-25', 8 * hour, '2026-11-25T08:00:00+03:00'],
    ['Africa/Nairobi', '2026-11-25', 24 * hour, '2026-11-26T00:00:00+03:00'],
    ['Africa/Nairobi', '2026-11-25', 30 * hour, '2026-11-26T06:00:00+03:00'],
    ['Asia/Kathmandu', '2026-11-25', 8 * hour, '2026-11-25T08:00:00+05:45'],
    ['Europe/Berlin', '2026-03-29', 1 * hour + 59, '2026-03-29T01:59:00+01:00'],
    ['Europe/Berlin', '2026-03-29', 3 * hour, '2026-03-29T03:00:00+02:00'],
    ['Europe/Berlin', '2026-10-25', 3 * hour, '2026-10-25T03:00:00+01:00'],
  ])('in %s on %s, minute %i, is %s', (zone, day, minute, instant) => {
    expect(instantOf(day, minute, zone)).toBe(Date.parse(instant));
  });

  it.each([
    ['Europe/Berlin', '2026-03-29', 2 * hour + 30, '2026-03-29T03:00:00+02:00'],
    ['Africa/Cairo', '2026-04-24', 0, '2026-04-24T01:00:00+03:00'],
    ['Africa/Cairo', '2026-04-23', 24 * hour, '2026-04-24T01:00:00+03:00'],
    ['Pacific/Apia', '2011-12-30', 12 * hour, '2011-12-31T00:00:00+14:00'],
  ])('that the clock skips is the moment of its jump: %s %s %i', (zone, day, minute, instant) => {
    expect(instantOf(day, minute, zone)).toBe(Date.parse(instant));
  });

  it.each([
    ['Europe/Berlin', '2026-10-25', 2 * hour + 30, '2026-10-25T02:30:00+02:00'],
    ['Africa/Cairo', '2026-10-29', 23 * hour + 30, '2026-10-29T23:30:00+03:00'],
  ])('that comes twice is the first: %s %s %i', (zone, day, minute, instant) => {
    expect(instantOf(day, minute, zone)).toBe(Date.parse(instant));
  });

  const zones = fc.constantFrom('Africa/Nairobi', 'Europe/Berlin', 'Africa/Cairo', 'America/Santiago', 'Australia/Lord_Howe');
  const days = fc.integer({ min: 0, max: 800 }).map((days) => plusDays('2025-12-01', days));
  const minutes = fc.integer({ min: 0, max: 2879 });

  it('that is later is never an earlier instant', () => {
    fc.assert(
      fc.property(zones, days, minutes, minutes, (zone, day, one, other) => {
        const [early, late] = [Math.min(one, other), Math.max(one, other)];
        expect(instantOf(day, early, zone)).toBeLessThanOrEqual(instantOf(day, late, zone));
      }),
    );
  });

  it('is the same by the quick clock of a span, also in a week with a change', () => {
    fc.assert(
      fc.property(zones, days, minutes, (zone, day, minute) => {
        const at = instantOf(day, minute, zone);
        const clock = wallClockOver(zone, at, at + 1);
        expect([clock.instantOf(day, minute), clock.dayAt(at)]).toEqual([at, dayAt(at, zone)]);
      }),
    );
  });
});

describe('days', () => {
  it('begin where the facility is', () => {
    expect(dayAt(Date.parse('2026-11-25T21:30:00Z'), 'Africa/Nairobi')).toBe('2026-11-26');
    expect(dayAt(Date.parse('2026-11-25T21:30:00Z'), 'Europe/London')).toBe('2026-11-25');
  });

  it('are counted over months and leap years, Monday first', () => {
    expect([plusDays('2028-02-28', 1), plusDays('2027-02-28', 1), plusDays('2026-01-01', -1)]).toEqual([
      '2028-02-29',
      '2027-03-01',
      '2025-12-31',
    ]);
    expect(['2026-11-23', '2026-11-28', '2026-11-29'].map(weekdayOf)).toEqual([1, 6, 7]);
  });

  it('of a zone that is none stop with the remedy', () => {
    expect(() => dayAt(0, 'Nowhere/Lost')).toThrow(/zone of the facility/);
  });
});
