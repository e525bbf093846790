import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readShiftDays, writeShiftDays } from '../../src/on-call/shift-days.ts';

const weekly = (...weekdays: number[]) => ({ kind: 'read', days: { kind: 'weekly', weekdays } });

describe('days of a shift', () => {
  it.each([
    ['daily', weekly(1, 2, 3, 4, 5, 6, 7)],
    ['Mon-Fri', weekly(1, 2, 3, 4, 5)],
    ['mon \u2013 fri', weekly(1, 2, 3, 4, 5)],
    ['sat sun', weekly(6, 7)],
    ['sun,sat', weekly(6, 7)],
    ['fri-mon', weekly(1, 5, 6, 7)],
    ['Tuesday, thurs', weekly(2, 4)],
    ['mon-wed sat', weekly(1, 2, 3, 6)],
    ['2026-12-25', { kind: 'read', days: { kind: 'dated', from: '2026-12-25', until: '2026-12-25' } }],
    ['2026-12-24..2026-12-26', { kind: 'read', days: { kind: 'dated', from: '2026-12-24', until: '2026-12-26' } }],
    ['2026-12-24 to 2026-12-26', { kind: 'read', days: { kind: 'dated', from: '2026-12-24', until: '2026-12-26' } }],
  ])('%s is read', (text, expected) => {
    expect(readShiftDays(text)).toEqual(expected);
  });

  it.each([
    '',
    'm',
    'mo',
    'mon-',
    'mon-tue-wed',
    'weekdays',
    '2026-02-30',
    '2026-12-26..2026-12-24',
    '25.12.2026',
    '2026-12-24..',
    '__proto__',
  ])('"%s" is refused', (text) => {
    expect(readShiftDays(text).kind).toBe('refused');
  });

  it('are read back as they were written', () => {
    const weekdays = fc.uniqueArray(fc.integer({ min: 1, max: 7 }), { minLength: 1 }).map((days) => [...days].sort());
    fc.assert(
      fc.property(weekdays, (days) => {
        expect(readShiftDays(writeShiftDays({ kind: 'weekly', weekdays: days }))).toEqual(weekly(...days));
      }),
    );
  });

  it('never throw, whatever is written', () => {
    fc.assert(fc.property(fc.string(), (text) => ['read', 'refused'].includes(readShiftDays(text).kind)));
  });
});
