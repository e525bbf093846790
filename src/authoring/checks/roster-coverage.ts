// Hours in which nobody is on call for a facility, neither there nor above it: in every week, or because of leave. Warnings, with
// the hours: the facility's own number still gets the alert, and nobody else is asked.

import type { Facility } from '../../conversation/ports.ts';
import type { RosterData } from '../../conversation/roster.ts';
import { chainFrom } from '../../on-call/chain.ts';
import { type Span, uncovered } from '../../on-call/coverage.ts';
import { type Leave, type Rota, rotaOf } from '../../on-call/rota.ts';
import { writeShiftDays } from '../../on-call/shift-days.ts';
import { dayAt, instantOf, plusDays, weekdayOf } from '../../on-call/wall-clock.ts';
import { faultOf } from '../read-roster-cells.ts';
import { cellOf, type Placed } from '../read-roster-table.ts';
import type { Report } from '../yaml-source.ts';

/** A Monday. The hours of a week do not depend on which; in January hardly any zone changes its clock. */
const someMonday = '2026-01-05';
const minutesPerDay = 1440;
const millisecondsPerMinute = 60_000;
const why = 'An alert in these hours is texted to the number of the facility alone, and when it is not taken no other nurse is asked.';

export function checkCoverage(
  facilities: readonly Placed<Facility>[],
  leave: readonly Placed<Leave>[],
  data: RosterData,
  report: Report,
): void {
  for (const { value, row } of facilities) {
    const rotas = rotasFor(value, data).map((rota) => ({
      ...rota,
      shifts: rota.shifts.filter(({ days }) => days.kind === 'weekly'),
      leave: [],
    }));
    const gaps = uncovered(rotas, week(value.zone));
    if (gaps.length === 0) continue;
    const what = `Nobody is on call for "${value.id}": ${hoursOf(gaps, value.zone)}.`;
    const fix = 'Add shifts for these hours to rota.csv, or write under "above" who takes over then.';
    report({ ...faultOf(row, cellOf(row, 'id'), 'nobody-on-call', what, fix, why), severity: 'warning' });
  }
  for (const one of leave) checkLeave(one, facilities, data, report);
}

/** What a leave opens beyond what was open before. */
function checkLeave({ value, row }: Placed<Leave>, facilities: readonly Placed<Facility>[], data: RosterData, report: Report): void {
  const own = new Set(data.shifts.filter(({ phone }) => phone === value.phone).map(({ facility }) => facility));
  for (const { value: facility } of facilities.filter((one) => own.has(one.value.id))) {
    const { zone } = facility;
    const span = { from: instantOf(value.from, 0, zone), until: instantOf(plusDays(value.until, 1), minutesPerDay, zone) };
    const rotas = rotasFor(facility, data);
    const without = rotas.map((rota) => ({ ...rota, leave: rota.leave.filter((one) => one !== value) }));
    const before = new Set(uncovered(without, span).map(({ from }) => from));
    const opened = uncovered(rotas, span).filter(({ from }) => !before.has(from));
    const [first] = opened;
    if (first === undefined) continue;
    const more = opened.length === 1 ? '' : ` and ${opened.length - 1} more`;
    const what = `With ${value.phone} on leave nobody is on call for "${facility.id}": ${moment(first.from, zone)} to ${moment(first.until, zone)}${more}.`;
    const fix = 'Name under "instead" a nurse who takes these shifts, or add dated shifts to rota.csv.';
    report({ ...faultOf(row, cellOf(row, 'phone'), 'leave-leaves-nobody', what, fix, why), severity: 'warning' });
  }
}

/** Of the facility and of those above it. */
function rotasFor({ id }: Facility, data: RosterData): Rota[] {
  return chainFrom(id, (one) => data.facilities.find((facility) => facility.id === one)).map((facility) => rotaOf(facility, data));
}

function week(zone: string): Span {
  return { from: instantOf(someMonday, 0, zone), until: instantOf(plusDays(someMonday, 7), 0, zone) };
}

/** Gaps of the same hours on one line: `mon-fri 17:00-08:00`. */
function hoursOf(gaps: readonly Span[], zone: string): string {
  const { from, until } = week(zone);
  const [first, last] = [gaps[0], gaps.at(-1)];
  if (first?.from === from && first.until === until) return 'at no hour of the week';
  // A gap over Sunday midnight was cut in two by the week's end.
  const isCut = first !== undefined && last !== undefined && first.from === from && last.until === until && gaps.length > 1;
  const whole = isCut ? [...gaps.slice(1, -1), { from: last.from, until: until + (first.until - from) }] : gaps;
  const byHours = new Map<string, number[]>();
  for (const gap of whole) {
    const [day, begins] = wall(gap.from, zone);
    const [lastDay, ends] = wall(gap.until, zone);
    const isShort = gap.until - gap.from < minutesPerDay * millisecondsPerMinute;
    const hours = isShort
      ? `${clock(begins)}-${ends === 0 ? '24:00' : clock(ends)}`
      : `${clock(begins)} to ${nameOf(lastDay)} ${clock(ends)}`;
    byHours.set(hours, [...(byHours.get(hours) ?? []), weekdayOf(day)]);
  }
  return [...byHours].map(([hours, weekdays]) => `${writeShiftDays({ kind: 'weekly', weekdays })} ${hours}`).join(', ');
}

function wall(at: number, zone: string): [day: string, minute: number] {
  const day = dayAt(at, zone);
  return [day, Math.round((at - instantOf(day, 0, zone)) / millisecondsPerMinute)];
}

function nameOf(day: string): string {
  return writeShiftDays({ kind: 'weekly', weekdays: [weekdayOf(day)] });
}

function moment(at: number, zone: string): string {
  const [day, minute] = wall(at, zone);
  return `${day} ${clock(minute)}`;
}

function clock(minute: number): string {
  const two = (value: number): string => String(value).padStart(2, '0');
  return `${two(Math.floor(minute / 60))}:${two(minute % 60)}`;
}
