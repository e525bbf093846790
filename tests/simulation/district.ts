// An invented district: one hospital, health centres below it, their workers, ten nurses on a rota, a coordinator. Its clocks go
// forward in the week of the simulation. Nobody in it exists. Next: week.ts.

import type { Facility, Person } from '../../src/conversation/ports.ts';
import type { Role } from '../../src/conversation/records.ts';
import type { RosterData } from '../../src/conversation/roster.ts';
import type { Shift } from '../../src/on-call/rota.ts';

/** Its clocks went forward on 24 April 2026, at midnight: an hour that no wall clock showed. */
export const zone = 'Africa/Cairo';
export const hospital = 'invented-hospital';

export interface DistrictSize {
  readonly facilities: number;
  readonly workers: number;
  readonly nurses: number;
}

const phoneOf = (kind: number, n: number): string => `+2010${kind}${String(n).padStart(7, '0')}`;

export function districtOf({ facilities, workers, nurses }: DistrictSize): RosterData {
  const centre = (n: number): string => `invented-centre-${n}`;
  const centres = Array.from({ length: facilities - 1 }, (_, n) => centre(n + 1));
  const person = (phone: string, name: string, role: Role, facility: string): Person => ({
    phone,
    name,
    roles: [role],
    facility,
    language: 'en',
    mayInject: false,
  });
  const places: Facility[] = [hospital, ...centres].map((id, n) => ({
    id,
    name: n === 0 ? 'Invented Hospital' : `Invented HC ${n}`,
    zone,
    nurse: phoneOf(3, n),
    above: n === 0 ? null : hospital,
    refersTo: n === 0 ? null : hospital,
    travelMinutes: n === 0 ? null : 30 + 5 * (n % 12),
  }));
  const nurseHome = (n: number): string => (n < 4 ? hospital : (centres[n % centres.length] ?? hospital));
  const people = [
    ...Array.from({ length: workers }, (_, n) =>
      person(phoneOf(1, n), `Invented Worker ${n}`, 'worker', places[n % places.length]?.id ?? hospital),
    ),
    ...Array.from({ length: nurses }, (_, n) => person(phoneOf(2, n), `Invented Nurse ${n}`, 'nurse', nurseHome(n))),
    person(phoneOf(4, 0), 'Invented Coordinator', 'coordinator', hospital),
  ];
  const everyDay: Shift['days'] = { kind: 'weekly', weekdays: [1, 2, 3, 4, 5, 6, 7] };
  const shift = (facility: string, nurse: number, fromMinute: number, toMinute: number, order: number): Shift => ({
    facility,
    days: everyDay,
    fromMinute,
    toMinute,
    phone: phoneOf(2, nurse),
    order,
  });
  const day = 7 * 60;
  const night = 19 * 60;
  // The hospital by day and night, first and second; the centres that have a nurse by day.
  const shifts = [
    shift(hospital, 0, day, night, 1),
    shift(hospital, 1, night, day, 1),
    shift(hospital, 2, day, night, 2),
    shift(hospital, 3, night, day, 2),
    ...Array.from({ length: Math.max(0, nurses - 4) }, (_, n) => shift(nurseHome(n + 4), n + 4, day, night, 1)),
  ];
  return { facilities: places, people, shifts, leave: [] };
}
