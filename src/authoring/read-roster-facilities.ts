// facilities.csv: id, name, zone, phone, above, refers-to, travel-minutes. The phone is rung when the rota names nobody.
// Next: checks/roster-chains.ts, for what facilities say of each other.

import type { Facility } from '../conversation/ports.ts';
import { faultOf, filled, idIn, journeyMinutesIn, nameIn } from './read-roster-cells.ts';
import { phoneIn } from './read-roster-phone.ts';
import { cellOf, type Placed, type Row, readRosterTable, unused } from './read-roster-table.ts';
import { type Report, type SourceFile, unknownName } from './yaml-source.ts';

export const facilityColumns = {
  needed: ['id', 'name', 'zone', 'phone'],
  optional: ['above', 'refers-to', 'travel-minutes'],
} as const;

export interface ReadFacilities {
  readonly facilities: readonly Placed<Facility>[];
  /** Also those of lines with a fault, so that nobody is blamed for naming one. */
  readonly ids: ReadonlySet<string>;
}

export function readFacilities(source: SourceFile, report: Report): ReadFacilities {
  const rows = readRosterTable(source, facilityColumns, report);
  const ids = new Set(rows.map((row) => cellOf(row, 'id').text));
  const byId = new Map<string, Placed<Facility>>();
  for (const row of rows) {
    const facility = readFacility(row, ids, report);
    if (facility === null) continue;
    const before = byId.get(facility.id);
    if (before === undefined) byId.set(facility.id, { value: facility, row });
    else {
      const fault = faultOf(
        row,
        cellOf(row, 'id'),
        'facility-twice',
        `"${facility.id}" stands here again.`,
        'Give each facility its own id.',
      );
      report({ ...fault, related: [{ file: row.file, range: before.row.range, what: 'It stands here first.' }] });
    }
  }
  return { facilities: [...byId.values()], ids };
}

function readFacility(row: Row, ids: ReadonlySet<string>, report: Report): Facility | null {
  const id = idIn(row, 'id', report);
  const name = nameIn(row, 'name', report);
  const zone = zoneIn(row, report);
  const nurse = phoneIn(row, 'phone', report);
  const above = otherIn(row, 'above', ids, report);
  const refersTo = otherIn(row, 'refers-to', ids, report);
  const travelMinutes = journeyMinutesIn(row, 'travel-minutes', report);
  if (id === null || name === null || zone === null || nurse === null) return null;
  return { id, name, zone, nurse, above, refersTo, travelMinutes };
}

/** Another facility, or none. */
function otherIn(row: Row, column: string, ids: ReadonlySet<string>, report: Report): string | null {
  const cell = cellOf(row, column);
  if (cell.text === '' || cell.text === cellOf(row, 'id').text) {
    if (cell.text !== '')
      report(faultOf(row, cell, 'itself', `"${cell.text}" names itself under ${column}.`, 'Name another facility, or leave it empty.'));
    return null;
  }
  if (ids.has(cell.text)) return cell.text;
  report(unknownName(row, cell.range, 'roster/unknown-facility', 'facility', cell.text, ids, unused));
  return null;
}

function zoneIn(row: Row, report: Report): string | null {
  const cell = filled(row, 'zone', report);
  if (cell === null) return null;
  if (isZone(cell.text)) return cell.text;
  const why = 'Every birth time and every shift would be read wrongly.';
  const zones = Intl.supportedValuesOf('timeZone');
  report(unknownName(row, cell.range, 'roster/unknown-zone', 'time zone', cell.text, zones, why));
  return null;
}

/** An IANA name; what is only an offset, such as +03:00, knows no clock changes and is none. */
function isZone(zone: string): boolean {
  try {
    new Intl.DateTimeFormat('en', { timeZone: zone });
    return !/^[+-]/.test(zone);
  } catch {
    return false;
  }
}
