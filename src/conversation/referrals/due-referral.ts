// The three questions of a referral: has the baby left, has it arrived, what became of it. Each climbs its ladder until it is
// answered: the state of the referral says so, whoever told. Who is asked how: ask-referral.ts.

import type { Ladder } from '../../on-call/follow-up.ts';
import { climb } from '../../on-call/ladder.ts';
import { heldUntil, isOver, type WorkParts } from '../due-parts.ts';
import { whenToText } from '../follow-up-parts.ts';
import { travelMinutes } from '../news-entries.ts';
import type { DueWork, ReferralRecord, WorkAnswer } from '../records.ts';
import type { ReferralLeftBody } from '../reminders/schedule.ts';
import { announceComing, askReferral } from './ask-referral.ts';

const minute = 60_000;

export function answerHasLeft(work: DueWork, parts: WorkParts): WorkAnswer {
  const body = work.body as ReferralLeftBody;
  const referral = work.referral ?? (body.hastens ? hastened(work) : null);
  if (referral?.state !== 'advised') return isOver;
  const urgency = work.referral === null ? 'urgent' : referral.urgency;
  return ask(work, referral, parts.published.followUp.hasLeft[urgency], body.since, urgency === 'urgent', parts);
}

/** The older referral, advised without haste, of a baby that is urgent now; its own was left out for it. */
function hastened({ baby }: DueWork): ReferralRecord | null {
  const older = baby?.referral ?? null;
  return older?.urgency === 'refer' ? older : null;
}

export interface ArrivalBody {
  /** Only tells the receiving side that the baby is on its way. */
  readonly announces: boolean;
}

export function answerHasArrived(work: DueWork, parts: WorkParts): WorkAnswer {
  const { referral } = work;
  if (referral?.state !== 'left') return isOver;
  if ((work.body as ArrivalBody).announces) return { entries: announceComing(work, referral, parts), next: { kind: 'done' } };
  const expectedAt = (referral.leftAt ?? work.dueAt) + travelMinutes(referral.facility, parts) * minute;
  const urgent = isUrgent(work, referral);
  return ask(work, referral, parts.published.followUp.hasArrived[urgent ? 'urgent' : 'refer'], expectedAt, urgent, parts);
}

export function answerOutcome(work: DueWork, parts: WorkParts): WorkAnswer {
  const { referral } = work;
  if (referral?.state !== 'arrived') return isOver;
  const { outcome, outcomeNotKnownAfterMinutes } = parts.published.followUp;
  const since = referral.arrivedAt ?? work.dueAt;
  const endsAt = since + outcomeNotKnownAfterMinutes * minute;
  if (parts.now >= endsAt) {
    const given = { referral: referral.key, news: 'not-known', reason: null, by: 'nobody' } as const;
    return { entries: [{ kind: 'referral-news', key: `not-known:${referral.key}`, at: parts.now, ...given }], next: { kind: 'done' } };
  }
  const asked = ask(work, referral, outcome, since, false, parts);
  return asked.next.kind === 'missed' ? { ...asked, next: { kind: 'again', at: endsAt } } : asked;
}

/** Advised as urgent, or found urgent since. */
function isUrgent({ baby }: DueWork, referral: ReferralRecord): boolean {
  return referral.urgency === 'urgent' || baby?.last?.urgency === 'urgent';
}

function ask(work: DueWork, referral: ReferralRecord, ladder: Ladder, since: number, urgent: boolean, parts: WorkParts): WorkAnswer {
  const release = (at: number): number => whenToText(at, referral.facility, urgent, parts);
  const at = release(parts.now);
  if (at > parts.now) return heldUntil(at);
  const { asks, step, next } = climb(ladder, since, work.dueAt, parts.now, release);
  const entries = askReferral(work, referral, asks, { step, urgent, at }, parts);
  return { entries, next: next === null ? { kind: 'missed' } : { kind: 'again', at: next } };
}
