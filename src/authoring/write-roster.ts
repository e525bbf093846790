// The roster as four tables, for a spreadsheet: what is written here, read-roster.ts reads back as it was. Names that a spreadsheet
// would run as a formula are guarded; numbers are written plain, since digits behind a plus can do no harm.

import { stringify } from 'csv-stringify/sync';
import type { RosterData } from '../conversation/roster.ts';
import { writeShiftDays } from '../on-call/shift-days.ts';
import { facilityColumns } from './read-roster-facilities.ts';
import { personColumns } from './read-roster-people.ts';
import { leaveColumns, shiftColumns } from './read-roster-rota.ts';
import type { Columns } from './read-roster-table.ts';
import { guardFormula } from './spreadsheet-formula.ts';

/** Text of each table, by the name of its file without `.csv`. */
export function writeRoster({ facilities, people, shifts, leave }: RosterData): {
  readonly facilities: string;
  readonly people: string;
  readonly rota: string;
  readonly leave: string;
} {
  return {
    facilities: table(
      facilityColumns,
      facilities.map((one) => [one.id, guardFormula(one.name), one.zone, one.nurse, one.above, one.refersTo, one.travelMinutes]),
    ),
    people: table(
      personColumns,
      people.map((one) => [
        one.phone,
        guardFormula(one.name),
        one.roles.join(' '),
        one.facility,
        one.language,
        one.mayInject ? 'yes' : 'no',
        one.pin ?? null,
      ]),
    ),
    rota: table(
      shiftColumns,
      shifts.map((one) => [one.facility, writeShiftDays(one.days), clock(one.fromMinute), clock(one.toMinute), one.phone, one.order]),
    ),
    leave: table(
      leaveColumns,
      leave.map((one) => [one.phone, one.from, one.until, one.instead]),
    ),
  };
}

/** With a byte-order mark where a letter beyond ASCII stands: without it a spreadsheet spoils the letter. */
function table({ needed, optional }: Columns, rows: readonly (readonly (string | number | null)[])[]): string {
  const text = stringify([[...needed, ...optional], ...rows.map((row) => [...row])]);
  return /[^\0-\x7F]/.test(text) ? `\uFEFF${text}` : text;
}

function clock(minute: number): string {
  const two = (value: number): string => String(value).padStart(2, '0');
  return `${two(Math.floor(minute / 60))}:${two(minute % 60)}`;
}
