// One facility's rota, people by a letter: weekly shifts, swaps, leave, and the nights on which the clock changes.
// Clock changes as the tz database has them: Berlin 2026-03-29 02:00 -> 03:00, 2026-10-25 03:00 -> 02:00.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { uncovered } from '../../src/on-call/coverage.ts';
import { dutiesBetween, type Leave, onCallAt, type Rota, type Shift } from '../../src/on-call/rota.ts';
import { readShiftDays } from '../../src/on-call/shift-days.ts';
import { instantOf, plusDays } from '../../src/on-call/wall-clock.ts';

function shift(days: string, hours: string, phone: string, order = 1): Shift {
  const read = readShiftDays(days);
  if (read.kind === 'refused') throw new Error(`"${days}" are no days.`);
  const [fromMinute = 0, toMinute = 0] = hours.split('-').map((time) => Number(time.slice(0, 2)) * 60 + Number(time.slice(3)));
  return { facility: 'marula', days: read.days, fromMinute, toMinute, phone, order };
}

const away = (phone: string, from: string, until: string, instead: string | null = null): Leave => ({ phone, from, until, instead });
const rota = (shifts: readonly Shift[], leave: readonly Leave[] = [], zone = 'Africa/Nairobi'): Rota => ({ zone, shifts, leave });
/** Whom the rota names at a time on its clock. */
const asked = (of: Rota, day: string, time: string): string =>
  onCallAt(of, instantOf(day, Number(time.slice(0, 2)) * 60 + Number(time.slice(3)), of.zone)).join('');

// 2026-11-23 is a Monday.
const dayAndNight = [
  shift('mon-fri', '08:00-20:00', 'A'),
  shift('sat sun', '08:00-20:00', 'B'),
  shift('daily', '20:00-08:00', 'C'),
  shift('daily', '00:00-24:00', 'D', 2),
];

describe('a weekly rota', () => {
  it.each([
    ['2026-11-23', '07:59', 'CD'],
    ['2026-11-23', '08:00', 'AD'],
    ['2026-11-23', '19:59', 'AD'],
    ['2026-11-23', '20:00', 'CD'],
    ['2026-11-24', '00:00', 'CD'],
    ['2026-11-28', '12:00', 'BD'],
    ['2026-11-30', '07:59', 'CD'],
  ])('names on %s at %s %s', (day, time, names) => {
    expect(asked(rota(dayAndNight), day, time)).toBe(names);
  });

  it('lets a night shift belong to the day on which it begins', () => {
    const fridayNight = rota([shift('fri', '20:00-08:00', 'A')]);
    expect([
      asked(fridayNight, '2026-11-27', '07:00'),
      asked(fridayNight, '2026-11-27', '23:00'),
      asked(fridayNight, '2026-11-28', '07:00'),
    ]).toEqual(['', 'A', 'A']);
  });

  it('runs round the clock where a shift ends when it began', () => {
    const duty = rota([shift('fri', '08:00-08:00', 'A')]);
    expect([
      asked(duty, '2026-11-27', '07:59'),
      asked(duty, '2026-11-27', '08:00'),
      asked(duty, '2026-11-28', '07:59'),
      asked(duty, '2026-11-28', '08:00'),
    ]).toEqual(['', 'A', 'A', '']);
  });

  it('goes by the clock of the facility', () => {
    const at = Date.parse('2026-11-23T05:30:00Z');
    expect(onCallAt(rota(dayAndNight), at)).toEqual(['A', 'D']);
    expect(onCallAt(rota(dayAndNight, [], 'Europe/London'), at)).toEqual(['C', 'D']);
  });

  it('names nobody twice', () => {
    expect(asked(rota([...dayAndNight, shift('daily', '00:00-24:00', 'A', 3)]), '2026-11-23', '09:00')).toBe('AD');
  });
});

describe('a dated shift', () => {
  const swapped = rota([...dayAndNight, shift('2026-11-25', '14:00-23:00', 'E')]);

  it.each([
    ['13:59', 'AD'],
    ['14:00', 'ED'],
    ['20:30', 'ED'],
    ['23:00', 'CD'],
  ])('stands in for the weekly ones of its order while it runs: %s', (time, names) => {
    expect(asked(swapped, '2026-11-25', time)).toBe(names);
  });

  it('leaves other days alone', () => {
    expect(asked(swapped, '2026-11-26', '15:00')).toBe('AD');
  });

  it('leaves the weekly one on call when whoever works it is on leave', () => {
    expect(asked({ ...swapped, leave: [away('E', '2026-11-25', '2026-11-25')] }, '2026-11-25', '15:00')).toBe('AD');
  });

  it('of a whole holiday opens no gap in the night after it', () => {
    const holiday = rota([...dayAndNight.slice(0, 3), shift('2026-11-25', '00:00-24:00', 'E')]);
    const week = { from: instantOf('2026-11-23', 0, holiday.zone), until: instantOf('2026-11-30', 0, holiday.zone) };
    expect(uncovered([holiday], week)).toEqual([]);
    expect(['2026-11-24', '2026-11-25', '2026-11-26'].map((day) => asked(holiday, day, '03:00'))).toEqual(['C', 'E', 'C']);
  });
});

describe('leave', () => {
  it('takes her shifts that begin on its days, the first and the last too', () => {
    const on = rota(dayAndNight, [away('C', '2026-11-24', '2026-11-25')]);
    expect(
      ['24 03:00', '24 21:00', '25 03:00', '25 21:00', '26 03:00', '26 21:00'].map((at) =>
        asked(on, `2026-11-${at.slice(0, 2)}`, at.slice(3)),
      ),
    ).toEqual(['CD', 'D', 'D', 'D', 'D', 'CD']);
  });

  it('gives her shifts to whoever stands in, and on to whoever stands in for her', () => {
    const leave = [
      away('A', '2026-11-23', '2026-11-27', 'E'),
      away('E', '2026-11-24', '2026-11-24', 'F'),
      away('F', '2026-11-26', '2026-11-26'),
    ];
    const on = rota(dayAndNight, leave);
    expect(['2026-11-23', '2026-11-24', '2026-11-26'].map((day) => asked(on, day, '09:00'))).toEqual(['ED', 'FD', 'ED']);
  });

  it('of two who stand in for each other leaves nobody, and ends', () => {
    const leave = [away('A', '2026-11-23', '2026-11-23', 'B'), away('B', '2026-11-23', '2026-11-23', 'A')];
    expect(asked(rota(dayAndNight, leave), '2026-11-23', '09:00')).toBe('D');
  });
});

describe('on the night of a clock change', () => {
  const night = (day: string) =>
    dutiesBetween(
      rota([shift('daily', '22:00-06:00', 'A')], [], 'Europe/Berlin'),
      instantOf(day, 24 * 60, 'Europe/Berlin'),
      instantOf(day, 25 * 60, 'Europe/Berlin'),
    );
  const hours = (day: string) => night(day).map(({ begins, ends }) => (ends - begins) / 3_600_000);

  it.each([
    ['2026-03-27', 8],
    ['2026-03-28', 7],
    ['2026-10-24', 9],
    ['2026-10-25', 8],
  ])('%s a shift from 22:00 to 06:00 is %i hours long', (day, length) => {
    expect(hours(day)).toEqual([length]);
  });

  it('two shifts that meet at a time which is skipped, or comes twice, meet at one instant', () => {
    const meeting = rota([shift('daily', '22:00-02:30', 'A'), shift('daily', '02:30-22:00', 'B')], [], 'Europe/Berlin');
    const before = Date.parse('2026-03-29T00:59:00Z');
    expect([onCallAt(meeting, before), onCallAt(meeting, before + 60_000)]).toEqual([['A'], ['B']]);
    const first = Date.parse('2026-10-25T00:29:00Z');
    expect([onCallAt(meeting, first), onCallAt(meeting, first + 60_000), onCallAt(meeting, first + 3_600_000)]).toEqual([
      ['A'],
      ['B'],
      ['B'],
    ]);
  });
});

describe('through a week with a clock change', () => {
  const zones = ['Europe/Berlin', 'Africa/Cairo', 'America/Santiago', 'Australia/Lord_Howe'] as const;
  /** Weeks that hold a change in each zone: its first Monday. */
  const weeks = {
    'Europe/Berlin': ['2026-03-23', '2026-10-19'],
    'Africa/Cairo': ['2026-04-20', '2026-10-26'],
    'America/Santiago': ['2026-03-30', '2026-08-31'],
    'Australia/Lord_Howe': ['2026-03-30', '2026-09-28'],
  } as const;
  const minute = 60_000;

  it('there is exactly one of those who share the day among them, whatever the hours at which they meet', () => {
    const cuts = fc.uniqueArray(fc.integer({ min: 0, max: 1439 }), { minLength: 2, maxLength: 5 });
    fc.assert(
      fc.property(fc.constantFrom(...zones), fc.integer({ min: 0, max: 1 }), cuts, (zone, which, unsorted) => {
        const times = [...unsorted].sort((a, b) => a - b);
        const shifts = times.map((fromMinute, index): Shift => {
          const toMinute = times[(index + 1) % times.length] || 1440;
          return {
            facility: 'marula',
            days: { kind: 'weekly', weekdays: [1, 2, 3, 4, 5, 6, 7] },
            fromMinute,
            toMinute,
            phone: `N${index}`,
            order: 1,
          };
        });
        const monday = weeks[zone][which] ?? '';
        const week = { from: instantOf(monday, 0, zone), until: instantOf(plusDays(monday, 7), 0, zone) };
        const duties = dutiesBetween(rota(shifts, [], zone), week.from, week.until).sort((a, b) => a.begins - b.begins);
        for (const [index, { ends }] of duties.slice(0, -1).entries()) expect(duties[index + 1]?.begins).toBe(ends);
        expect(uncovered([rota(shifts, [], zone)], week)).toEqual([]);
      }),
    );
  });

  it.each(zones)('whoever the table names by the clock on the wall is on call, and nobody else: %s', (zone) => {
    const of = rota(dayAndNight, [], zone);
    for (const monday of weeks[zone]) {
      const shown = new Intl.DateTimeFormat('en-GB', {
        timeZone: zone,
        weekday: 'short',
        hour: '2-digit',
        minute: '2-digit',
        hourCycle: 'h23',
      });
      const end = instantOf(plusDays(monday, 7), 0, zone);
      for (let at = instantOf(monday, 0, zone); at < end; at += minute) {
        // Every minute around the hours, and a few between.
        const pastHour = (at / minute) % 60;
        if (pastHour > 1 && pastHour < 59 && pastHour % 29 !== 0) continue;
        const parts = new Map(shown.formatToParts(at).map(({ type, value }) => [type, value]));
        const hour = Number(parts.get('hour'));
        const isWeekend = ['Sat', 'Sun'].includes(parts.get('weekday') ?? '');
        const first = hour < 8 || hour >= 20 ? 'C' : isWeekend ? 'B' : 'A';
        if (onCallAt(of, at).join('') !== `${first}D`) expect.fail(`${zone} ${new Date(at).toISOString()}: ${onCallAt(of, at)}`);
      }
    }
    expect(weeks[zone]).toHaveLength(2);
  });
});
