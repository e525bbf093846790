// How many examinations the protocol plans for every baby: the first day, and the contacts of the schedule that the programme chose.
// Next: src/clinical/contacts.ts, when each is due.

import { join } from 'node:path';
import type { Protocol } from '../clinical/protocol.ts';
import { loadProtocol } from './load-protocol.ts';

export interface PlannedContacts {
  readonly schedule: string;
  readonly count: number;
}

/** Those for some babies only, and those that are repeated until something holds no longer, are left out. */
export function plannedContacts(flows: string): PlannedContacts {
  const { read } = loadProtocol(join(flows, 'protocol'));
  if (read.kind !== 'protocol') throw new Error('The protocol cannot be read. Run "pipit check" and mend it first.');
  return contactsIn(read.protocol);
}

function contactsIn({ contacts, switches }: Pick<Protocol, 'contacts' | 'switches'>): PlannedContacts {
  const [chosen] = switches.get(contacts.switch)?.options ?? [];
  const schedule = contacts.schedules.find(({ option }) => option === chosen);
  if (schedule === undefined) throw new Error('contacts.yaml has no schedule for its switch. Run "pipit check" and mend it first.');
  // One that may be done from birth on is the first-day examination itself.
  const later = schedule.contacts.filter(({ when, againAfter, fromHours }) => when === undefined && !againAfter && fromHours > 0);
  return { schedule: schedule.option, count: 1 + later.length };
}
