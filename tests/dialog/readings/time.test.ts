import { describe, expect, it } from 'vitest';
import { readTime } from '../../../src/dialog/readings/time.ts';
import { tokens } from '../../../src/dialog/readings/tokens.ts';
import { minutesAt, now, words } from '../first-day.ts';

const here = { now, zone: 'Africa/Nairobi', oldestDays: 59 };
const minute = 60_000;
const time = (text: string, clock = here): unknown => {
  const read = readTime(tokens(text, words), clock, words);
  return read.kind === 'refused' ? read.reason.code : read.kind === 'not-known' ? 'not-known' : [read.kind, read.value, read.used];
};
const local = (iso: string): number => minutesAt(iso);

describe('a time of birth, on Wednesday 25 November 2026 at 09:30', () => {
  it.each([
    ['0430', '2026-11-25T04:30', 1],
    ['430', '2026-11-25T04:30', 1],
    ['4:30', '2026-11-25T04:30', 1],
    ['4.30', '2026-11-25T04:30', 1],
    ['4,30', '2026-11-25T04:30', 1],
    ['4*30', '2026-11-25T04:30', 1],
    ['4h30', '2026-11-25T04:30', 1],
    ['0430h', '2026-11-25T04:30', 1],
    ['4:30 am', '2026-11-25T04:30', 2],
    ['430am', '2026-11-25T04:30', 1],
    ['4am', '2026-11-25T04:00', 1],
    ['4 pm', '2026-11-24T16:00', 2],
    ['12am', '2026-11-25T00:00', 1],
    ['12:15 pm', '2026-11-24T12:15', 2],
    ['0430 39 3100', '2026-11-25T04:30', 1],
    ['O43O', '2026-11-25T04:30', 1],
    ['०४३०', '2026-11-25T04:30', 1],
    ['2300', '2026-11-24T23:00', 1],
    ['0930', '2026-11-25T09:30', 1],
    ['0931', '2026-11-24T09:31', 1],
    ['0000', '2026-11-25T00:00', 1],
    ['2400', '2026-11-25T00:00', 1],
    ['5h', '2026-11-25T04:30', 1],
    ['5 h', '2026-11-25T04:30', 2],
    ['5h ago', '2026-11-25T04:30', 2],
    ['5 hours ago', '2026-11-25T04:30', 3],
    ['5h 39w', '2026-11-25T04:30', 1],
    ['1.5h', '2026-11-25T08:00', 1],
    ['30 min ago', '2026-11-25T09:00', 3],
    ['1 h 30 min ago', '2026-11-25T08:00', 5],
    ['1h30min', '2026-11-25T08:00', 1],
    ['1h30 ago', '2026-11-25T08:00', 2],
    ['1h 30min', '2026-11-25T08:00', 2],
    ['2d', '2026-11-23T09:30', 1],
    ['now', '2026-11-25T09:30', 1],
    ['just now', '2026-11-25T09:30', 1],
    ['today 0430', '2026-11-25T04:30', 2],
    ['0430 today', '2026-11-25T04:30', 2],
    ['yesterday 2300', '2026-11-24T23:00', 2],
    ['2300 yesterday', '2026-11-24T23:00', 2],
    ['yesterday 2400', '2026-11-25T00:00', 2],
    ['yday 4 pm', '2026-11-24T16:00', 3],
    ['24/11 0430', '2026-11-24T04:30', 2],
    ['0430 24/11', '2026-11-24T04:30', 2],
    ['4:30 pm 24/11/2026', '2026-11-24T16:30', 3],
    ['0430 2026-11-24', '2026-11-24T04:30', 2],
    ['0430 24/1 3100', '2026-11-25T04:30', 1],
    ['0430 39/40 3100', '2026-11-25T04:30', 1],
    ['24.11 0430', '2026-11-24T04:30', 2],
    ['24-11 4:30', '2026-11-24T04:30', 2],
    ['24*11 0430', '2026-11-24T04:30', 2],
    ['24/11/26 0430', '2026-11-24T04:30', 2],
    ['24.11.2026 0430', '2026-11-24T04:30', 2],
    ['2026-11-24 0430', '2026-11-24T04:30', 2],
    ['24/11 2400', '2026-11-25T00:00', 2],
    ['4.11', '2026-11-25T04:11', 1],
    ['10.10 39 3100', '2026-11-24T10:10', 1],
  ])('%j is %s', (text, iso, used) => {
    expect(time(text)).toEqual(['read', local(iso), used]);
  });

  it.each([
    ['5', '2026-11-25T04:30', 1],
    ['12 39 3100', '2026-11-24T21:30', 1],
    ['0', '2026-11-25T09:30', 1],
    ['4.11 0430', '2026-11-04T04:30', 2],
    ['120h', '2026-11-20T09:30', 1],
  ])('%j may be something else and is asked back as %s', (text, iso, used) => {
    expect(time(text)).toEqual(['doubt', local(iso), used]);
  });

  it.each([
    ['today 1000', 'in-the-future'],
    ['25/11 0931', 'in-the-future'],
    ['today 2400', 'in-the-future'],
    ['26/11/2026 0430', 'in-the-future'],
    ['26/11 0430', 'in-the-future'],
    ['24/9 0430', 'too-long-ago'],
    ['99d', 'too-long-ago'],
    ['24/11', 'day-needs-time'],
    ['yesterday', 'day-needs-time'],
    ['24/11 39', 'day-needs-time'],
    ['11/24 0430', 'not-a-time'],
    ['31/2 0430', 'not-a-time'],
    ['0460', 'not-a-time'],
    ['2430', 'not-a-time'],
    ['25', 'not-a-time'],
    ['3100', 'not-a-time'],
    ['last week', 'not-a-time'],
    ['5kg', 'not-a-time'],
    ['-1h', 'not-a-time'],
    ['-', 'not-known'],
    ['', 'nothing'],
  ])('%j is refused or not known: %s', (text, reason) => {
    expect(time(text)).toBe(reason);
  });

  it('is never guessed in a place without a zone', () => {
    expect(() => time('0430', { ...here, zone: 'Nowhere/Lost' })).toThrow(/zone of the facility/);
  });
});

describe('across the turn of the year', () => {
  const newYear = { ...here, now: Date.parse('2027-01-01T02:00:00+03:00') };

  it.each([
    ['2330', '2026-12-31T23:30'],
    ['yesterday 2330', '2026-12-31T23:30'],
    ['31/12 2330', '2026-12-31T23:30'],
    ['1/1 0130', '2027-01-01T01:30'],
    ['3h', '2026-12-31T23:00'],
  ])('%j is %s', (text, iso) => {
    expect(time(text, newYear)).toEqual(['read', local(iso), expect.any(Number)]);
  });
});

describe('across a change of the clocks', () => {
  // Oracle: the runtime's own zone data through Intl, asked minute by minute, backwards from now.
  const lastShown = (hhmm: string, at: number, zone: string): number | undefined => {
    const shown = new Intl.DateTimeFormat('en-GB', { timeZone: zone, hour: '2-digit', minute: '2-digit', hourCycle: 'h23' });
    for (let back = 0; back <= 25 * 60; back += 1) {
      const instant = Math.floor(at / minute) - back;
      if (shown.format(instant * minute).replace(':', '') === hhmm) return instant;
    }
    return undefined;
  };

  it.each([
    ['Europe/Berlin', '2026-10-25T00:30:00Z'],
    ['Europe/Berlin', '2026-10-25T01:15:00Z'],
    ['Europe/Berlin', '2026-10-25T10:00:00Z'],
    ['Europe/Berlin', '2026-03-29T08:00:00Z'],
    ['America/New_York', '2026-11-01T05:40:00Z'],
    ['America/New_York', '2026-11-01T06:20:00Z'],
    ['America/New_York', '2026-03-08T12:00:00Z'],
    ['America/Santiago', '2026-09-06T14:00:00Z'],
    ['Africa/Cairo', '2026-04-24T09:00:00Z'],
  ])('in %s at %s, a clock time is the last time the clock showed it', (zone, at) => {
    const clock = { ...here, now: Date.parse(at), zone };
    for (let of = 0; of < 24 * 60; of += 5) {
      const hhmm = String(Math.floor(of / 60)).padStart(2, '0') + String(of % 60).padStart(2, '0');
      const expected = lastShown(hhmm, clock.now, zone);
      const read = readTime([hhmm], clock, words);
      if (read.kind !== 'read') throw new Error(`${hhmm} was not read`);
      // In spring an hour is never shown; it is then a clock that was not put on, less than a day ago.
      if (expected === undefined) expect(clock.now / minute - read.value, hhmm).toBeLessThan(24 * 60);
      else expect(read.value, hhmm).toBe(expected);
    }
  });

  it('hours ago are hours, whatever the clocks did', () => {
    const clock = { ...here, now: Date.parse('2026-10-25T10:00:00Z'), zone: 'Europe/Berlin' };
    expect(time('12h', clock)).toEqual(['read', (clock.now - 12 * 3_600_000) / minute, 1]);
  });
});
