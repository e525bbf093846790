// The roster from its four tables: who is served, in which role, where, in which language; facilities and who stands above them;
// who is on call when; leave. All faults of all tables are reported at once. A roster with an error in it is not used.
// Next: read-roster-table.ts; write-roster.ts for the way back.

import type { RosterData } from '../conversation/roster.ts';
import { checkChains, checkWhoIsReached } from './checks/roster-chains.ts';
import { checkCoverage } from './checks/roster-coverage.ts';
import { checkOverlaps } from './checks/roster-overlap.ts';
import { readFacilities } from './read-roster-facilities.ts';
import { readPeople } from './read-roster-people.ts';
import { readLeave, readShifts } from './read-roster-rota.ts';
import type { Report, SourceFile } from './yaml-source.ts';

/** The tables of a roster, by the names of their files without `.csv`. */
export interface RosterTables {
  readonly facilities: SourceFile;
  readonly people: SourceFile;
  readonly rota: SourceFile;
  readonly leave: SourceFile;
}

export function readRoster(tables: RosterTables, report: Report): RosterData {
  let errors = 0;
  const counting: Report = (fault) => {
    if (fault.severity === 'error') errors += 1;
    report(fault);
  };
  const { facilities, ids } = readFacilities(tables.facilities, counting);
  const people = readPeople(tables.people, ids, counting);
  const shifts = readShifts(tables.rota, ids, people, counting);
  const leave = readLeave(tables.leave, people, counting);
  const data: RosterData = {
    facilities: facilities.map(({ value }) => value),
    people: [...people.people.values()].map(({ value }) => value),
    shifts: shifts.map(({ value }) => value),
    leave: leave.map(({ value }) => value),
  };
  checkChains(facilities, counting);
  checkOverlaps(shifts, leave, counting);
  // What is missing because of an error is not reported once more as nobody to ask.
  if (errors > 0) return data;
  checkWhoIsReached(facilities, data.people, report);
  checkCoverage(facilities, leave, data, report);
  return data;
}
