// rota.csv: facility, days, from, to, phone, order. leave.csv: phone, from, until, instead. Who is named must be a nurse among the
// people. What shifts say of each other: checks/roster-overlap.ts; of the hours they leave: checks/roster-coverage.ts.

import type { Leave, Shift, ShiftDays } from '../on-call/rota.ts';
import { readShiftDays, weekdayNames } from '../on-call/shift-days.ts';
import { nearestName } from './nearest-name.ts';
import { dateIn, dateRemedy, faultOf, filled, timeIn } from './read-roster-cells.ts';
import { facilityIn, type ReadPeople } from './read-roster-people.ts';
import { phoneIn, phoneOrNoneIn } from './read-roster-phone.ts';
import { cellOf, type Placed, type Row, readRosterTable } from './read-roster-table.ts';
import type { Report, SourceFile } from './yaml-source.ts';

export const shiftColumns = { needed: ['facility', 'days', 'from', 'to', 'phone', 'order'], optional: [], mayBeEmpty: true } as const;
export const leaveColumns = { needed: ['phone', 'from', 'until'], optional: ['instead'], mayBeEmpty: true } as const;
const minutesPerDay = 1440;
const unanswered = 'An alert in these hours would reach nobody who can take it.';

export function readShifts(source: SourceFile, facilities: ReadonlySet<string>, people: ReadPeople, report: Report): Placed<Shift>[] {
  return readRosterTable(source, shiftColumns, report).flatMap((row) => {
    const facility = facilityIn(row, facilities, report);
    const days = daysIn(row, report);
    const from = timeIn(row, 'from', report);
    const to = timeIn(row, 'to', report);
    const phone = nurseIn(row, 'phone', phoneIn(row, 'phone', report), people, report);
    const order = orderIn(row, report);
    if (facility === null || days === null || from === null || to === null || phone === null || order === null) return [];
    const shift = { facility, days, fromMinute: from % minutesPerDay, toMinute: to === 0 ? minutesPerDay : to, phone, order };
    return [{ value: shift, row }];
  });
}

export function readLeave(source: SourceFile, people: ReadPeople, report: Report): Placed<Leave>[] {
  return readRosterTable(source, leaveColumns, report).flatMap((row) => {
    const phone = nurseIn(row, 'phone', phoneIn(row, 'phone', report), people, report);
    const from = dateIn(row, 'from', report);
    const until = dateIn(row, 'until', report);
    const named = phoneOrNoneIn(row, 'instead', report);
    const instead = named === null ? null : nurseIn(row, 'instead', named, people, report);
    if (phone === null || from === null || until === null) return [];
    if (from > until) {
      report(faultOf(row, cellOf(row, 'until'), 'dates-reversed', `Leave ends on ${until}, before it begins.`, 'Swap the two dates.'));
      return [];
    }
    if (instead === phone) {
      const fix = 'Name another nurse, or leave it empty.';
      report(faultOf(row, cellOf(row, 'instead'), 'itself', `${phone} stands in for herself.`, fix));
      return [];
    }
    return [{ value: { phone, from, until, instead }, row }];
  });
}

/** The number, when it is that of a nurse among the people. */
function nurseIn(row: Row, column: string, phone: string | null, known: ReadPeople, report: Report): string | null {
  if (phone === null) return null;
  const cell = cellOf(row, column);
  const person = known.people.get(phone)?.value;
  if (person === undefined) {
    // A number whose own line in people.csv has a fault is reported there alone.
    if (!known.phones.has(phone) && known.phones.size > 0) {
      const what = `There is no person with the number ${phone}.`;
      report(faultOf(row, cell, 'unknown-person', what, remedyFor(phone, known), unanswered));
    }
    return null;
  }
  if (person.roles.includes('nurse')) return phone;
  const what = `${phone} is ${person.name}, who has not the role nurse.`;
  report(faultOf(row, cell, 'not-a-nurse', what, 'Name a nurse, or add nurse to her roles in people.csv.', unanswered));
  return null;
}

/** Offers the nurse with the nearest number, unless the right one may be in a line that cannot be read. */
function remedyFor(phone: string, { people, isWhole }: ReadPeople): string {
  if (!isWhole) return 'Mend the numbers in people.csv first; then look whether this one is among them.';
  const nurses = new Map(
    [...people.values()].filter(({ value }) => value.roles.includes('nurse')).map(({ value }) => [value.phone, value.name]),
  );
  const near = nearestName(phone, nurses.keys());
  const add = 'add the person to people.csv';
  return near === null ? `Write the number of a nurse, or ${add}.` : `Write "${near}" if you mean ${nurses.get(near)}, or ${add}.`;
}

function daysIn(row: Row, report: Report): ShiftDays | null {
  const cell = filled(row, 'days', report);
  if (cell === null) return null;
  const read = readShiftDays(cell.text);
  if (read.kind === 'read') return read.days;
  const near = nearestName(read.word, ['daily', ...weekdayNames]);
  const usual = 'Write daily, mon-fri, "sat sun", 2026-12-25 or 2026-12-24..2026-12-26.';
  const fix = /^\d/.test(read.word) ? dateRemedy(read.word) : near === null ? usual : `Write "${near}". ${usual}`;
  report(faultOf(row, cell, 'not-days', `"${read.word}" does not say on which days the shift begins.`, fix));
  return null;
}

function orderIn(row: Row, report: Report): number | null {
  const cell = filled(row, 'order', report);
  if (cell === null) return null;
  if (/^[1-9]$/.test(cell.text)) return Number(cell.text);
  report(faultOf(row, cell, 'not-an-order', `"${cell.text}" is not an order.`, 'Write 1 for who is asked first, 2 for the next, up to 9.'));
  return null;
}
