// The next contact of a baby has come. Next: due-parts.ts, contact-due.ts.

import { remind, type WorkParts } from '../due-parts.ts';
import { calendarDay } from '../naming.ts';
import type { BabyRecord, DueWork, WorkAnswer } from '../records.ts';
import type { ContactBody } from './contact-due.ts';

export function answerContact(work: DueWork, baby: BabyRecord, parts: WorkParts): WorkAnswer {
  const { from, to } = work.body as ContactBody;
  const facility = parts.roster.facility(baby.facility);
  const values = { from: calendarDay(from, facility), to: calendarDay(to, facility) };
  const { graceMinutes } = parts.published.followUp;
  return remind(work, baby, 'follow-up.contact', values, { graceMinutes: graceMinutes.contact, isNear: false }, parts);
}
