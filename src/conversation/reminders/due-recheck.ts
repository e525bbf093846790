// A baby is to be looked at again now. While it is on the way to hospital or there, others look. Next: due-parts.ts.

import { isOver, remind, type WorkParts } from '../due-parts.ts';
import type { BabyRecord, DueWork, WorkAnswer } from '../records.ts';
import type { RecheckBody } from './schedule.ts';

export function answerRecheck(work: DueWork, baby: BabyRecord, parts: WorkParts): WorkAnswer {
  const state = baby.referral?.state;
  if (state === 'left' || state === 'arrived') return isOver;
  const { what, isNear } = work.body as RecheckBody;
  const { graceMinutes } = parts.published.followUp;
  return remind(work, baby, 'follow-up.recheck', { what }, { graceMinutes: graceMinutes.recheck, isNear }, parts);
}
