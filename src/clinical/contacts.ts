// When the baby is to be seen again although well. The schedules are data (contacts.yaml).

import type { ContactRule } from './care-rules.ts';
import type { Facts } from './facts.ts';
import type { Judge } from './judge.ts';

export interface NextContact {
  readonly contact: string;
  readonly fromHours: number;
  readonly toHours: number;
  readonly row: string;
}

export interface PreparedContact {
  readonly rule: ContactRule;
  readonly when: Judge<Facts> | undefined;
}

/** The first that an examination begun at this age was not itself; undefined: the schedule holds no further one. */
export function contactToCome(contacts: readonly NextContact[], ageHoursAtBegin: number): NextContact | undefined {
  return contacts.find(({ fromHours }) => fromHours > ageHoursAtBegin);
}

/** Contacts whose last hour has not passed, soonest first. */
export function contactsAfter(contacts: readonly PreparedContact[], facts: Facts, ageHours: number): NextContact[] {
  const ahead: NextContact[] = [];
  for (const { rule, when } of contacts) {
    const from = rule.againAfter ? ageHours : 0;
    const toHours = from + rule.toHours;
    if (toHours < ageHours || when?.holds(facts) === false) continue;
    ahead.push({ contact: rule.contact, fromHours: from + rule.fromHours, toHours, row: rule.row });
  }
  return ahead.sort((a, b) => a.fromHours - b.fromHours);
}
