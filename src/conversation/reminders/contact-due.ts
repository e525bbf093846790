// Which later contact is next after an examination, and when: the first of the schedule that this examination was not itself.
// The schedule is data (flows/protocol/contacts.yaml) and computed with the interpretation. Next: schedule.ts.

import { contactToCome, type NextContact } from '../../clinical/contacts.ts';
import type { ExaminationFact } from '../../dialog/facts.ts';
import type { FollowUp } from '../../on-call/follow-up.ts';

/** Instants in epoch milliseconds. */
export interface ContactBody {
  readonly contact: string;
  readonly from: number;
  readonly to: number;
}

const hour = 3_600_000;

/**
 * A second look belongs to the examination that it looks at again, so it is its begin that counts: a contact whose time had
 * come by then is that examination, and one that came in between is still to be done.
 *
 * Returns  null when the schedule holds no further one.
 */
export function contactAfter(
  fact: Pick<ExaminationFact, 'at' | 'case' | 'interpretation' | 'examination'>,
  followUp: FollowUp,
): ContactBody | null {
  const age = fact.case.ageHours ?? null;
  const contacts = fact.interpretation.computed.nextContacts as readonly NextContact[] | null | undefined;
  if (age === null || contacts == null) {
    const from = fact.at + followUp.contactWhenAgeNotKnownMinutes * 60_000;
    return { contact: 'age-not-known', from, to: from };
  }
  const ageAtBegin = age - (fact.at - fact.examination.startedAt) / hour;
  const next = contactToCome(contacts, ageAtBegin);
  if (next === undefined) return null;
  const bornAt = fact.at - age * hour;
  return { contact: next.contact, from: Math.round(bornAt + next.fromHours * hour), to: Math.round(bornAt + next.toHours * hour) };
}
