// A baby that died, moved away, or is followed by somebody else from now on. The register stops what was due; here it is said
// who is told. Of a death the worker gets no text but the news itself, and only when she does not bring it. Next: news-entries.ts.

import type { BabyNewsFact } from '../dialog/facts.ts';
import { whoHearsOf } from './alerts/alert-chain.ts';
import { type FollowUpParts, nurseFor, recipient, textTo } from './follow-up-parts.ts';
import { type NewsFact, type NewsParts, newsValues } from './news-fact.ts';
import type { Entry, TextEntry } from './records.ts';

export function babyNewsEntries(fact: BabyNewsFact, parts: NewsParts): Entry[] {
  const { at, baby, news, to, by } = fact;
  // A baby dies once, whoever tells; it may be handed over often.
  const key = news === 'died' ? `died:${baby}` : fact.key;
  const entry: Entry = { kind: 'baby-news', key, at, baby, news, to, by };
  if (news === 'died') return [entry, ...deathTold(fact, parts)];
  return [entry, ...(news === 'moved' ? moveTold(fact, parts) : handoverTold(fact, parts))];
}

/**
 * The coordinators, and whoever awaits the baby while a referral or an alert of it is open, are told plainly. The worker is told when
 * somebody else brings the news, for she would ask the family for the baby.
 */
export function deathTold(fact: NewsFact, parts: NewsParts): TextEntry[] {
  const { roster, openAlert = null } = parts;
  const { baby, facility, worker, by, at } = fact;
  const nurse = fact.referral === null ? undefined : nurseFor(facility, at, parts)?.phone;
  const awaiting = openAlert === null ? [nurse].filter((phone) => phone !== undefined) : whoHearsOf(openAlert);
  const told = [...awaiting, ...roster.coordinators(facility).map(({ phone }) => phone)];
  const values = newsValues(fact, parts);
  const texts = [...new Set(told)]
    .filter((phone) => phone !== by)
    .map((phone) =>
      textTo(recipient(phone, parts), { key: `death-told:${baby}:${phone}`, at, urgent: false, baby }, 'referral.died-told', values, parts),
    );
  if (by === worker) return texts;
  const about = { key: `death-told:${baby}:${worker}`, at, urgent: false, baby };
  return [...texts, textTo(recipient(worker, parts), about, 'referral.died-worker', values, parts)];
}

/** A family that moves away while its baby is sent to hospital: the nurse hears, for nothing more is asked. */
function moveTold(fact: BabyNewsFact, parts: NewsParts): TextEntry[] {
  const nurse = nurseFor(fact.facility, fact.at, parts);
  if (nurse === null || (fact.referral === null && (parts.openAlert ?? null) === null)) return [];
  return [
    textTo(
      nurse,
      { key: `moved:${fact.baby}`, at: fact.at, urgent: true, baby: fact.baby },
      'referral.moved-nurse',
      newsValues(fact, parts),
      parts,
    ),
  ];
}

function handoverTold(fact: BabyNewsFact, parts: FollowUpParts): TextEntry[] {
  if (fact.to === null) return [];
  const from = parts.roster.find(fact.worker)?.name ?? '';
  const values = { ...newsValues(fact, parts), name: from, phone: fact.worker };
  const about = { key: `handed-over:${fact.key}`, at: fact.at, urgent: false, baby: fact.baby };
  return [textTo(recipient(fact.to, parts), about, 'follow-up.handed-over', values, parts)];
}
