// When a reminder may go out, over nights, zones and clock changes. The dates of the clock changes are those of the IANA time
// zone database (Europe/Berlin: 29 March and 25 October 2026; Africa/Nairobi has none).

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { QuietHours } from '../../src/on-call/follow-up.ts';
import { reminderAt } from '../../src/on-call/quiet-hours.ts';

const night: QuietHours = { fromMinute: 21 * 60, toMinute: 6 * 60, alwaysWithinMinutes: 360 };
const noon: QuietHours = { fromMinute: 12 * 60, toMinute: 14 * 60, alwaysWithinMinutes: 360 };

function held(at: string, zone: string, quiet = night): string {
  return new Date(reminderAt(Date.parse(at), zone, quiet)).toISOString();
}

describe('a reminder', () => {
  it.each([
    ['in the day', '2026-11-25T09:30:00+03:00', '2026-11-25T06:30:00.000Z'],
    ['a minute before the night', '2026-11-25T20:59:00+03:00', '2026-11-25T17:59:00.000Z'],
    ['as the night begins', '2026-11-25T21:00:00+03:00', '2026-11-26T03:00:00.000Z'],
    ['before midnight', '2026-11-25T23:59:59+03:00', '2026-11-26T03:00:00.000Z'],
    ['after midnight', '2026-11-26T00:30:00+03:00', '2026-11-26T03:00:00.000Z'],
    ['a moment before the night ends', '2026-11-26T05:59:59.999+03:00', '2026-11-26T03:00:00.000Z'],
    ['as the night ends', '2026-11-26T06:00:00+03:00', '2026-11-26T03:00:00.000Z'],
  ])('that is due %s goes out outside the quiet hours', (_, at, out) => {
    expect(held(at, 'Africa/Nairobi')).toBe(out);
  });

  it.each([
    ['the short night', '2026-03-28T22:00:00+01:00', '2026-03-29T04:00:00.000Z'],
    ['the long night', '2026-10-24T22:00:00+02:00', '2026-10-25T05:00:00.000Z'],
    ['the hour that comes twice, first time', '2026-10-25T02:30:00+02:00', '2026-10-25T05:00:00.000Z'],
    ['the hour that comes twice, second time', '2026-10-25T02:30:00+01:00', '2026-10-25T05:00:00.000Z'],
  ])('waits in %s of a clock change until six on the wall', (_, at, out) => {
    expect(held(at, 'Europe/Berlin')).toBe(out);
  });

  it('waits over noon where quiet hours lie within a day', () => {
    expect(held('2026-11-25T13:00:00+03:00', 'Africa/Nairobi', noon)).toBe('2026-11-25T11:00:00.000Z');
    expect(held('2026-11-25T14:00:00+03:00', 'Africa/Nairobi', noon)).toBe('2026-11-25T11:00:00.000Z');
  });

  it('never waits where quiet hours begin and end at once', () => {
    const never = { ...night, toMinute: night.fromMinute };
    expect(held('2026-11-25T23:00:00+03:00', 'Africa/Nairobi', never)).toBe('2026-11-25T20:00:00.000Z');
  });

  it('goes out at an instant that is not quiet, less than a day later, and a later one never earlier', () => {
    const zones = fc.constantFrom('Africa/Nairobi', 'Europe/Berlin', 'Asia/Kathmandu', 'America/St_Johns', 'Australia/Lord_Howe');
    const instant = fc.integer({ min: Date.parse('2026-01-01T00:00:00Z'), max: Date.parse('2027-12-31T00:00:00Z') });
    const minute = fc.integer({ min: 0, max: 1439 });
    fc.assert(
      fc.property(zones, instant, fc.integer({ min: 0, max: 90_000_000 }), minute, minute, (zone, at, later, fromMinute, toMinute) => {
        const quiet = { fromMinute, toMinute, alwaysWithinMinutes: 0 };
        const out = reminderAt(at, zone, quiet);
        expect(out).toBeGreaterThanOrEqual(at);
        expect(out - at).toBeLessThanOrEqual(25 * 3_600_000);
        expect(reminderAt(out, zone, quiet)).toBe(out);
        expect(reminderAt(at + later, zone, quiet)).toBeGreaterThanOrEqual(out);
      }),
    );
  });
});
