// What happens when a referral or a reminder falls due: who is asked or told, and when it is due again. Pure; one file a kind.
// Next: due-referral.ts, due-recheck.ts, due-contact.ts. Alerts: due-alert.ts.

import { isOver, type WorkParts } from './due-parts.ts';
import type { DueWork, WorkAnswer } from './records.ts';
import { answerHasArrived, answerHasLeft, answerOutcome } from './referrals/due-referral.ts';
import { answerRefusalVisit } from './referrals/due-refusal-visit.ts';
import { answerContact } from './reminders/due-contact.ts';
import { answerRecheck } from './reminders/due-recheck.ts';

/** Takes  work: of any kind but `alert-not-taken`. */
export function answerFollowUp(work: DueWork, parts: WorkParts): WorkAnswer {
  const { baby } = work;
  // A baby that died or moved away is asked about no more. One that no examination has reached yet has its referral only.
  if (baby !== null && baby.status !== 'followed') return isOver;
  switch (work.work) {
    case 'recheck':
      return baby === null ? isOver : answerRecheck(work, baby, parts);
    case 'contact':
      return baby === null ? isOver : answerContact(work, baby, parts);
    case 'referral-left':
      return answerHasLeft(work, parts);
    case 'referral-arrived':
      return answerHasArrived(work, parts);
    case 'referral-outcome':
      return answerOutcome(work, parts);
    case 'refusal-visit':
      return answerRefusalVisit(work, parts);
    case 'alert-not-taken':
      throw new Error('An alert is no follow-up. Give it to due-alert.ts; due-work.ts tells the kinds apart.');
  }
}
