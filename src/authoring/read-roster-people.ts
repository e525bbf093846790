// people.csv: phone, name, roles, facility, language, may-inject, pin. One line a person, one number a person.

import type { Person } from '../conversation/ports.ts';
import type { Role } from '../conversation/records.ts';
import { faultOf, filled, nameIn, wordIn } from './read-roster-cells.ts';
import { phoneIn } from './read-roster-phone.ts';
import { pinIn } from './read-roster-pin.ts';
import { cellOf, type Placed, type Row, readRosterTable, unused } from './read-roster-table.ts';
import { type Report, type SourceFile, unknownName } from './yaml-source.ts';

export const personColumns = {
  needed: ['phone', 'name', 'roles', 'facility', 'language'],
  optional: ['may-inject', 'pin'],
} as const;
const roles: readonly Role[] = ['worker', 'nurse', 'coordinator'];

export interface ReadPeople {
  readonly people: ReadonlyMap<string, Placed<Person>>;
  /** Also those of lines with a fault, as far as their digits can be seen. */
  readonly phones: ReadonlySet<string>;
  /** False when some line has a number that cannot be known. */
  readonly isWhole: boolean;
}

export function readPeople(source: SourceFile, facilities: ReadonlySet<string>, report: Report): ReadPeople {
  const rows = readRosterTable(source, personColumns, report);
  const phones = new Set((source.text.match(/\d{6,15}/g) ?? []).map((digits) => `+${digits}`));
  const people = new Map<string, Placed<Person>>();
  let isWhole = rows.length > 0;
  for (const row of rows) {
    const phone = phoneIn(row, 'phone', report);
    const person = readPerson(row, phone, facilities, report);
    if (phone === null) {
      isWhole = false;
      continue;
    }
    const before = people.get(phone);
    if (before !== undefined) {
      const why = 'Two people would share one session, and each would get the texts about the babies of both.';
      const fault = faultOf(
        row,
        cellOf(row, 'phone'),
        'number-twice',
        `${phone} stands here for a second person.`,
        'Give each person a number of her own.',
        why,
      );
      report({ ...fault, related: [{ file: row.file, range: before.row.range, what: 'It stands here first.' }] });
    } else if (person !== null) people.set(phone, { value: person, row });
  }
  return { people, phones, isWhole };
}

function readPerson(row: Row, phone: string | null, facilities: ReadonlySet<string>, report: Report): Person | null {
  const name = nameIn(row, 'name', report);
  const own = rolesIn(row, report);
  const facility = facilityIn(row, facilities, report);
  const language = languageIn(row, report);
  const mayInject = yesIn(row, 'may-inject', report);
  const pin = pinIn(row, report);
  if (phone === null || name === null || own === null || facility === null || language === null) return null;
  if (mayInject === null || pin === null) return null;
  return { phone, name, roles: own, facility, language, mayInject, ...(pin === undefined ? {} : { pin }) };
}

/** The facility that a line names; null, and a report, when there is none. */
export function facilityIn(row: Row, facilities: ReadonlySet<string>, report: Report): string | null {
  const cell = filled(row, 'facility', report);
  if (cell === null) return null;
  // No facility could be read at all: that is reported already.
  if (facilities.has(cell.text) || facilities.size === 0) return cell.text;
  report(unknownName(row, cell.range, 'roster/unknown-facility', 'facility', cell.text, facilities, unused));
  return null;
}

/** One or more, apart by spaces. */
function rolesIn(row: Row, report: Report): readonly Role[] | null {
  const cell = filled(row, 'roles', report);
  if (cell === null) return null;
  const said = cell.text.split(/[\s,;/+&]+/).map((word) => wordIn(row, cell, word, roles, 'role', report));
  const own = new Set(said.filter((role) => role !== null));
  return said.includes(null) ? null : [...own];
}

function languageIn(row: Row, report: Report): string | null {
  const cell = filled(row, 'language', report);
  if (cell === null) return null;
  try {
    const [tag] = Intl.getCanonicalLocales(cell.text);
    if (tag !== undefined) return tag;
  } catch {
    // Reported below.
  }
  report(faultOf(row, cell, 'not-a-language', `"${cell.text}" is not a language tag.`, 'Write a tag such as en, sw, fr or hi.'));
  return null;
}

/** Empty is no. */
function yesIn(row: Row, column: string, report: Report): boolean | null {
  const cell = cellOf(row, column);
  if (cell.text === '') return false;
  const word = wordIn(row, cell, cell.text, ['yes', 'no'] as const, column, report);
  return word === null ? null : word === 'yes';
}
