// Whom an alert can go to, and whose it may be: the nurses on call at the facility and above it, then the coordinators.
// Next: src/on-call/asking.ts, which says whose turn it is.

import { chainFrom } from '../../on-call/chain.ts';
import type { Person, Roster } from '../ports.ts';
import type { AlertRecord } from '../records.ts';

/**
 * Numbers to ask at that instant, first one first. Never empty where the facility is on the roster: the number to ring stands
 * in when the rota names nobody, and the worker who raised it is asked herself only when there is nobody else.
 */
export function chainOf({ facility, worker }: Pick<AlertRecord, 'facility' | 'worker'>, at: number, roster: Roster): readonly string[] {
  const nurses = roster.onCall(facility, at).map(({ phone }) => phone);
  const number = roster.facility(facility)?.nurse;
  const first = nurses.length > 0 || number === undefined ? nurses : [number];
  const chain = [...new Set([...first, ...roster.coordinators(facility).map(({ phone }) => phone)])];
  const others = chain.filter((phone) => phone !== worker);
  return others.length > 0 ? others : chain;
}

/** True: somebody of this facility, or of one above it, or who was asked. Who can help is not turned away. */
export function mayHave(person: Person, alert: Pick<AlertRecord, 'facility' | 'asked' | 'takenBy'>, roster: Roster): boolean {
  if (alert.asked.includes(person.phone) || alert.takenBy === person.phone) return true;
  return chainFrom(alert.facility, (id) => roster.facility(id)).some(({ id }) => id === person.facility);
}

/** Who hears of an alert that is not closed: whoever has it, else all who are asked now, the one that the worker knows of first. */
export function whoHearsOf({ takenBy, askedNow }: Pick<AlertRecord, 'takenBy' | 'askedNow'>): readonly string[] {
  return takenBy === null ? askedNow : [takenBy];
}

/** A key for each of several who are told one thing: that of `first` as it is. */
export function keyTo(phone: string, first: string, key: string): string {
  return phone === first ? key : `${key}:${phone}`;
}

export function nameOf(phone: string | null, roster: Roster): string {
  return (phone === null ? undefined : roster.find(phone)?.name) ?? phone ?? '';
}
