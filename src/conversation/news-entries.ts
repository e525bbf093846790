// What follows from news of a referral or of a baby: the news itself, who is told of it, and what is asked next. All of it
// follows from the fact and the roster, under natural keys: the same fact twice is the same entries.
// News of a baby: baby-news-entries.ts. Next: follow-up-work.ts.

import type { ReferralNewsFact } from '../dialog/facts.ts';
import { say } from '../dialog/reply.ts';
import { babyNewsEntries, deathTold } from './baby-news-entries.ts';
import { type FollowUpParts, nurseFor, recipient, textTo, whenToText } from './follow-up-parts.ts';
import { type NewsFact, type NewsParts, newsValues } from './news-fact.ts';
import type { DueEntry, Entry, TextEntry } from './records.ts';

const minute = 60_000;

export function newsEntries(fact: NewsFact, parts: NewsParts): Entry[] {
  return fact.kind === 'baby-news' ? babyNewsEntries(fact, parts) : referralNewsEntries(fact, parts);
}

function referralNewsEntries(fact: ReferralNewsFact, parts: NewsParts): Entry[] {
  const { key, at, referral, news, reason, baby, by } = fact;
  const entry: Entry = { kind: 'referral-news', key, at, referral, news, reason, by };
  switch (news) {
    case 'left':
      return [entry, ...arrivalEntries(fact, parts)];
    case 'refused':
      return [entry, ...refusalTold(fact, parts), visitEntry(fact, parts)];
    case 'arrived':
      return [entry, ...workerTold(fact, `arrived:${referral}`, 'referral.arrived-worker', parts), outcomeEntry(fact, parts)];
    case 'not-arrived':
      return [entry, ...workerTold(fact, `not-arrived:${key}`, 'referral.not-arrived-worker', parts)];
    case 'home-well':
      return [entry, ...workerTold(fact, `home:${referral}`, 'referral.home-worker', parts)];
    case 'still-in-care':
      return [entry, outcomeEntry(fact, parts)];
    case 'died':
      return [entry, { kind: 'baby-news', key: `died:${baby}`, at, baby, news, to: null, by }, ...deathTold(fact, parts)];
    default:
      return [entry];
  }
}

/** The receiving side is told at once that the baby comes, and is asked when it should be there. */
function arrivalEntries({ referral, baby, facility, at }: ReferralNewsFact, parts: FollowUpParts): DueEntry[] {
  const due = { kind: 'due', work: 'referral-arrived', baby, referral, at } as const;
  const expectedAt = at + travelMinutes(facility, parts) * minute;
  return [
    { ...due, key: `due:${referral}:coming`, dueAt: at, body: { announces: true } },
    { ...due, key: `due:${referral}:arrived`, dueAt: expectedAt, body: { announces: false } },
  ];
}

export function travelMinutes(facility: string, { roster, published }: FollowUpParts): number {
  return roster.facility(facility)?.travelMinutes ?? published.followUp.travelMinutes;
}

/** Once a referral, however often the refusal is told and whenever its reason comes. */
function refusalTold(fact: ReferralNewsFact, parts: FollowUpParts): TextEntry[] {
  const to = nurseFor(fact.facility, fact.at, parts);
  if (to === null) return [];
  const reason = fact.reason === null ? '' : say('referral.because', { reason: say(`referral.reason.${fact.reason}`) });
  const about = { key: `refused:${fact.referral}`, at: fact.at, urgent: true, baby: fact.baby };
  return [textTo(to, about, 'referral.refused-nurse', { ...newsValues(fact, parts), reason }, parts)];
}

function visitEntry({ referral, baby, facility, at }: ReferralNewsFact, parts: FollowUpParts): DueEntry {
  const dueAt = whenToText(at + parts.published.followUp.refusalVisit.everyMinutes * minute, facility, false, parts);
  return { kind: 'due', key: `due:${referral}:refusal-visit`, work: 'refusal-visit', baby, referral, dueAt, body: { since: at }, at };
}

function outcomeEntry({ referral, baby, facility, at }: ReferralNewsFact, parts: FollowUpParts): DueEntry {
  const { outcome, outcomeNotKnownAfterMinutes } = parts.published.followUp;
  const dueAt = whenToText(at + (outcome[0]?.afterMinutes ?? outcomeNotKnownAfterMinutes) * minute, facility, false, parts);
  return { kind: 'due', key: `due:${referral}:outcome`, work: 'referral-outcome', baby, referral, dueAt, body: {}, at };
}

/** What others tell; what she told herself she knows. */
function workerTold(fact: ReferralNewsFact, key: string, message: string, parts: FollowUpParts): TextEntry[] {
  const { worker, by, at, baby } = fact;
  if (by === worker) return [];
  return [textTo(recipient(worker, parts), { key, at, urgent: false, baby }, message, { ...newsValues(fact, parts), phone: by }, parts)];
}
