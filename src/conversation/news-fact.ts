// News of a referral or of a baby as this folder takes it: from the dialog, where the worker tells, or from a nurse's text.
// Next: news-entries.ts.

import type { BabyNewsFact, ReferralNewsFact } from '../dialog/facts.ts';
import type { FollowUpParts } from './follow-up-parts.ts';
import { babyNamed, placeNamed } from './naming.ts';
import type { AlertRecord } from './records.ts';

/** `worker`: who follows the baby. `by`: who tells, when it is not the worker. */
export type NewsFact = (ReferralNewsFact | BabyNewsFact) & { readonly by?: string };

/** The alert of the baby that is not closed, if the caller knows of one. */
export type NewsParts = FollowUpParts & { readonly openAlert?: AlertRecord | null };

/** What goes into the places of every text about news. */
export function newsValues(fact: NewsFact, { roster }: FollowUpParts) {
  const facility = roster.facility(fact.facility);
  const by = fact.by ?? fact.worker;
  return {
    code: fact.code,
    baby: babyNamed(fact, fact.at),
    facility: facility?.name ?? '',
    place: placeNamed(facility?.refersTo ?? null, roster),
    worker: fact.worker,
    by: roster.find(by)?.name ?? by,
  };
}
