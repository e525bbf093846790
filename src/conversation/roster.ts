// The roster as the conversation asks it: people by number, facilities, and whom to ring, from its own rota on up through the
// facilities above. Pure: data in, answers out. Next: src/on-call/rota.ts, and ports.ts for what is promised.

import { chainFrom } from '../on-call/chain.ts';
import { type Leave, onCallAt, rotaOf, type Shift } from '../on-call/rota.ts';
import type { Facility, Person, Roster } from './ports.ts';

export interface RosterData {
  readonly facilities: readonly Facility[];
  readonly people: readonly Person[];
  readonly shifts: readonly Shift[];
  readonly leave: readonly Leave[];
}

export const emptyRoster: RosterData = { facilities: [], people: [], shifts: [], leave: [] };

export function rosterOf(data: RosterData): Roster {
  const people = new Map(data.people.map((person) => [person.phone, person]));
  const facilities = new Map(data.facilities.map((facility) => [facility.id, facility]));
  const rotas = new Map(data.facilities.map((facility) => [facility.id, rotaOf(facility, data)]));
  const chain = (id: string): readonly Facility[] => chainFrom(id, (one) => facilities.get(one));
  const among = (phones: readonly string[]): Person[] => [...new Set(phones)].flatMap((phone) => people.get(phone) ?? []);
  return {
    find: (phone) => people.get(phone),
    facility: (id) => facilities.get(id),
    facilityOf: (phone) => facilities.get(people.get(phone)?.facility ?? '') ?? data.facilities.find(({ nurse }) => nurse === phone),
    onCall: (id, at) =>
      among(
        chain(id).flatMap((one) => {
          const rota = rotas.get(one.id);
          return rota === undefined ? [] : onCallAt(rota, at);
        }),
      ),
    coordinators: (id) =>
      chain(id).flatMap((one) => data.people.filter(({ facility, roles }) => facility === one.id && roles.includes('coordinator'))),
    workers: (id) => data.people.filter(({ facility, roles }) => facility === id && roles.includes('worker')),
  };
}
