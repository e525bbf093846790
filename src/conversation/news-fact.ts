// News of a referral or of a baby, from the dialog, where the worker tells, or from a nurse's text.
// Next: news-entries.ts.

import type { BabyNewsFact, ReferralNewsFact } from '../dialog/facts.ts';
import type { FollowUpParts } from './follow-up-parts.ts';
import { babyNamed, placeNamed } from './naming.ts';
import type { AlertRecord } from './records.ts';

export type NewsFact = ReferralNewsFact | BabyNewsFact;

/** The alert of the baby that is not closed, if the caller knows of one. */
export type NewsParts = FollowUpParts & { readonly openAlert?: AlertRecord | null };

/** What goes into the places of every text about news. */
export function newsValues(fact: NewsFact, { roster }: FollowUpParts) {
  const facility = roster.facility(fact.facility);
  return {
    code: fact.code,
    baby: babyNamed(fact, fact.at),
    facility: facility?.name ?? '',
    place: placeNamed(facility?.refersTo ?? null, roster),
    worker: fact.worker,
    by: roster.find(fact.by)?.name ?? fact.by,
  };
}
