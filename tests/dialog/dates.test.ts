import { describe, expect, it } from 'vitest';
import { daysText, dayText, whenText } from '../../src/dialog/dates.ts';

const at = Date.parse;
const nairobi = 'Africa/Nairobi';

describe('a time that is said', () => {
  it.each([
    ['2026-11-25T10:40:59+03:00', nairobi, '1040'],
    ['2026-11-25T23:59:00+03:00', nairobi, '2359'],
    ['2026-11-26T00:00:00+03:00', nairobi, '26/11 0000'],
    ['2026-11-26T04:30:00+03:00', nairobi, '26/11 0430'],
    ['2026-11-24T09:30:00+03:00', nairobi, '24/11 0930'],
    ['2026-12-01T04:30:00+03:00', nairobi, '1/12 0430'],
    // Half an hour off the hour, and already the next day.
    ['2026-11-25T18:45:00Z', 'Asia/Kolkata', '26/11 0015'],
  ])('is a clock time on the same day and has its date on another: %s in %s is %s', (then, zone, text) => {
    expect(whenText(at(then), at('2026-11-25T09:30:00+03:00'), zone)).toBe(text);
  });

  it('is the time that the clock shows after it was put back', () => {
    // Clocks in this zone go back an hour on 1 November 2026 at 02:00.
    const now = at('2026-11-01T01:30:00-04:00');
    expect(whenText(now + 3_600_000, now, 'America/New_York')).toBe('0130');
    expect(whenText(now + 7_200_000, now, 'America/New_York')).toBe('0230');
  });
});

describe('days that are said', () => {
  it.each([
    ['2026-11-27T04:30:00+03:00', '2026-11-28T04:30:00+03:00', '27-28/11'],
    ['2026-11-30T04:30:00+03:00', '2026-12-02T04:30:00+03:00', '30/11-2/12'],
    ['2026-11-27T00:00:00+03:00', '2026-11-27T23:59:00+03:00', '27/11'],
    ['2026-12-31T04:30:00+03:00', '2027-01-01T04:30:00+03:00', '31/12-1/1'],
  ])('from %s to %s are %s', (from, to, text) => {
    expect(daysText(at(from), at(to), nairobi)).toBe(text);
  });

  it('are days at the facility', () => {
    expect(dayText(at('2026-11-25T22:30:00Z'), nairobi)).toBe('26/11');
    expect(() => dayText(0, 'Marula/Nowhere')).toThrow('zone of the facility');
  });
});
