// The roster's tables as rows, and back. Written whole, in one statement a table; the caller draws the transaction.
// Next: roster.ts.

import type { Facility, Person } from '../conversation/ports.ts';
import type { RosterData } from '../conversation/roster.ts';
import type { Leave, Shift } from '../on-call/rota.ts';
import { readShiftDays, writeShiftDays } from '../on-call/shift-days.ts';
import type { Sql } from './database.ts';
import { storableJson } from './storable.ts';

const read = {
  facilities: `select id, name, zone, phone as nurse, above, refers_to as "refersTo", travel_minutes as "travelMinutes"
    from facilities order by place, id`,
  people: 'select phone, name, roles, facility, language, may_inject as "mayInject", pin from people order by place, phone',
  shifts: `select facility, days, from_minute as "fromMinute", to_minute as "toMinute", phone, call_order as "order"
    from shifts order by place, facility, days`,
  leave: 'select phone, from_day as "from", until_day as "until", instead from leave order by place, phone',
} as const;

const write = {
  facilities: `insert into facilities (id, name, zone, phone, above, refers_to, travel_minutes, place)
    select id, name, zone, nurse, above, "refersTo", "travelMinutes", place from jsonb_to_recordset($1::jsonb)
      as r (id text, name text, zone text, nurse text, above text, "refersTo" text, "travelMinutes" integer, place integer)`,
  people: `insert into people (phone, name, roles, facility, language, may_inject, pin, place)
    select phone, name, roles, facility, language, "mayInject", pin, place from jsonb_to_recordset($1::jsonb)
      as r (phone text, name text, roles text[], facility text, language text, "mayInject" boolean, pin text, place integer)`,
  shifts: `insert into shifts (facility, days, from_minute, to_minute, phone, call_order, place)
    select facility, days, "fromMinute", "toMinute", phone, "order", place from jsonb_to_recordset($1::jsonb)
      as r (facility text, days text, "fromMinute" integer, "toMinute" integer, phone text, "order" integer, place integer)`,
  leave: `insert into leave (phone, from_day, until_day, instead, place)
    select phone, "from", "until", instead, place from jsonb_to_recordset($1::jsonb)
      as r (phone text, "from" text, "until" text, instead text, place integer)`,
} as const;

type PersonRow = Omit<Person, 'pin'> & { readonly pin: string | null };
type ShiftRow = Omit<Shift, 'days'> & { readonly days: string };

export async function readRosterRows(sql: Sql): Promise<RosterData> {
  const shifts = await sql.query<ShiftRow>(read.shifts);
  return {
    facilities: await sql.query<Facility>(read.facilities),
    people: (await sql.query<PersonRow>(read.people)).map(({ pin, ...person }) => (pin === null ? person : { ...person, pin })),
    shifts: shifts.map((row) => ({ ...row, days: daysOf(row.days) })),
    leave: await sql.query<Leave>(read.leave),
  };
}

/** Puts this roster in place of what is there. */
export async function writeRosterRows(sql: Sql, data: RosterData): Promise<void> {
  // Those that lean on others go first, and come back last.
  await sql.script('delete from leave; delete from shifts; delete from people; delete from facilities');
  await sql.query(write.facilities, [placed(data.facilities)]);
  await sql.query(write.people, [placed(data.people.map((person) => sealedPerson(sql, person)))]);
  await sql.query(write.shifts, [placed(data.shifts.map((shift) => ({ ...shift, days: writeShiftDays(shift.days) })))]);
  await sql.query(write.leave, [placed(data.leave)]);
}

/** The hash of so short a PIN would be guessed: sealed, it is of no use to who has the database alone. */
function sealedPerson(sql: Sql, { pin, ...person }: Person): object {
  return { ...person, name: sql.seal(person.name), pin: pin === undefined ? null : sql.seal(pin) };
}

function placed(rows: readonly object[]): string {
  return storableJson(rows.map((row, place) => ({ ...row, place })));
}

function daysOf(written: string): Shift['days'] {
  const days = readShiftDays(written);
  if (days.kind === 'read') return days.days;
  throw new Error(`The register has a shift on "${written}", which are no days. Import the roster again: pipit roster import FOLDER.`);
}
