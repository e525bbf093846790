// The roster: who is served, in which role, where, in which language, and which nurse is on call for a facility.
// Numbers are E.164 and stand in quotes; two people with one number, or a facility nobody knows, are reported.

import { isValidPhoneNumber } from 'libphonenumber-js';
import type { Facility, Person, Role, Roster } from '../conversation/ports.ts';
import {
  complain,
  entriesOf,
  fieldsOf,
  itemsOf,
  needed,
  type Place,
  type Report,
  readYaml,
  type SourceFile,
  textOf,
  unknownName,
  wordOf,
  yesOf,
} from './yaml-source.ts';

const roles: readonly Role[] = ['worker', 'nurse', 'coordinator'];
const notServed = 'This person would get no answer.';

export interface ReadRoster extends Roster {
  readonly people: readonly Person[];
  readonly facilities: readonly Facility[];
}

export function readRoster(source: SourceFile, report: Report): ReadRoster {
  const top = readYaml(source, report);
  const fields = top === null ? new Map<string, Place>() : fieldsOf(top, ['facilities', 'people'], report);
  const places = top === null ? null : needed(fields, 'facilities', top, report);
  const list = top === null ? null : needed(fields, 'people', top, report);
  const entries = places === null ? [] : entriesOf(places, report);
  const facilities = new Map<string, Facility>();
  for (const entry of entries) {
    const facility = readFacility(entry, report);
    if (facility !== null) facilities.set(facility.id, facility);
  }
  const named = new Set(entries.map((entry) => entry.key));
  const people = new Map<string, Person>();
  for (const item of list === null ? [] : itemsOf(list)) {
    const person = readPerson(item, named, report);
    if (person === null) continue;
    if (people.has(person.phone))
      report(
        complain(
          item,
          item.range,
          'roster/number-twice',
          `${person.phone} stands here for a second person.`,
          'Two people would share one session.',
          'Give each person a number of her own.',
        ),
      );
    people.set(person.phone, person);
  }
  for (const entry of entries) checkNurse(entry, facilities.get(entry.key), people, report);
  return {
    people: [...people.values()],
    facilities: [...facilities.values()],
    find: (phone) => people.get(phone),
    facility: (id) => facilities.get(id),
  };
}

/** Her number may be rung all the same, so this is a warning. */
function checkNurse(entry: Place, facility: Facility | undefined, people: ReadonlyMap<string, Person>, report: Report): void {
  if (facility === undefined || people.get(facility.nurse)?.roles.includes('nurse') === true) return;
  const what = `The nurse of "${facility.id}", ${facility.nurse}, is not among the people with the role nurse.`;
  const fault = complain(
    entry,
    entry.keyRange,
    'roster/nurse-not-listed',
    what,
    'She would get the alerts, and her reply would not be understood.',
    `Add a person with phone "${facility.nurse}" and roles [nurse].`,
  );
  report({ ...fault, severity: 'warning' });
}

function readFacility(place: Place, report: Report): Facility | null {
  const fields = fieldsOf(place, ['name', 'zone', 'nurse'], report);
  const name = textIn(fields, 'name', place, report);
  const zone = textIn(fields, 'zone', place, report);
  const nurse = phoneIn(fields, 'nurse', place, report);
  if (name === null || zone === null || nurse === null) return null;
  const zonePlace = fields.get('zone');
  if (zonePlace !== undefined && !isZone(zone)) {
    report(
      complain(
        zonePlace,
        zonePlace.range,
        'roster/unknown-zone',
        `"${zone}" is not a time zone.`,
        'Every birth time would be read wrongly.',
        'Write an IANA zone, such as Africa/Nairobi.',
      ),
    );
    return null;
  }
  return { id: place.key, name, zone, nurse };
}

function readPerson(place: Place, facilities: ReadonlySet<string>, report: Report): Person | null {
  const fields = fieldsOf(place, ['phone', 'name', 'roles', 'facility', 'language', 'may-inject'], report);
  const phone = phoneIn(fields, 'phone', place, report);
  const name = textIn(fields, 'name', place, report);
  const facility = textIn(fields, 'facility', place, report);
  const language = textIn(fields, 'language', place, report);
  const listed = needed(fields, 'roles', place, report);
  if (phone === null || name === null || facility === null || language === null || listed === null) return null;
  const facilityPlace = fields.get('facility');
  if (facilityPlace !== undefined && !facilities.has(facility)) {
    report(unknownName(facilityPlace, facilityPlace.range, 'roster/unknown-facility', 'facility', facility, facilities, notServed));
    return null;
  }
  const own = itemsOf(listed).flatMap((item) => wordOf(item, roles, report) ?? []);
  if (itemsOf(listed).length === 0)
    report(
      complain(
        listed,
        listed.keyRange,
        'roster/no-role',
        `${name} has no role.`,
        notServed,
        `Write one or more of: roles: [${roles.join(', ')}].`,
      ),
    );
  return { phone, name, roles: own, facility, language, mayInject: yesOf(fields.get('may-inject'), report) };
}

function textIn(fields: ReadonlyMap<string, Place>, name: string, parent: Place, report: Report): string | null {
  const place = needed(fields, name, parent, report);
  return place === null ? null : textOf(place, report);
}

function phoneIn(fields: ReadonlyMap<string, Place>, name: string, parent: Place, report: Report): string | null {
  const text = textIn(fields, name, parent, report);
  if (text === null) return null;
  const place = fields.get(name) ?? parent;
  if (/^\+\d{6,15}$/.test(text) && isValidPhoneNumber(text)) return text;
  report(
    complain(
      place,
      place.range,
      'roster/not-a-number',
      `"${text}" is not a phone number in international form.`,
      notServed,
      'Write it with the plus and the country, in quotes, such as "+254700555101".',
    ),
  );
  return null;
}

function isZone(zone: string): boolean {
  try {
    new Intl.DateTimeFormat('en', { timeZone: zone });
    return true;
  } catch {
    return false;
  }
}
