// What is done with work that falls due, by its kind. Pure: all that is known of its subject comes with it, and what follows is
// entries. Next: due-alert.ts, follow-up-work.ts.

import { answerNotTaken } from './alerts/due-alert.ts';
import type { WorkParts } from './due-parts.ts';
import { answerFollowUp } from './follow-up-work.ts';
import type { DueWork, WorkAnswer } from './records.ts';

export function answerWork(work: DueWork, parts: WorkParts): WorkAnswer {
  return work.work === 'alert-not-taken' ? answerNotTaken(work, parts) : answerFollowUp(work, parts);
}
