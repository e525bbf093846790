// What falls due after an examination or an alert: looking again, the next contact, and a referral with the question whether
// the baby left. All of it follows from the fact and the roster, under natural keys: the same fact twice is the same entries.
// Next: follow-up-work.ts, which answers them when they are due; news-entries.ts, for what is heard later.

import { minutesOf } from '../../clinical/duration.ts';
import type { Classification } from '../../clinical/protocol.ts';
import type { AlertFact, ExaminationFact } from '../../dialog/facts.ts';
import { reasonsFor } from '../../dialog/phrases.ts';
import { type Say, say } from '../../dialog/reply.ts';
import { type FollowUpParts, whenToText } from '../follow-up-parts.ts';
import type { DueEntry, Entry } from '../records.ts';
import { contactAfter } from './contact-due.ts';

const minute = 60_000;

export function followUpEntries(fact: ExaminationFact | AlertFact, parts: FollowUpParts): Entry[] {
  if (fact.kind === 'alert') return fact.news.length === 0 ? [] : referralEntries(fact, `referral:${fact.key}`, 'urgent', parts);
  const { urgency } = fact.interpretation;
  const isSent = urgency === 'urgent' || urgency === 'refer';
  return [
    ...recheckEntries(fact, parts),
    ...contactEntries(fact, parts),
    ...(isSent ? referralEntries(fact, `referral:examination:${fact.examination.id}`, urgency, parts) : []),
  ];
}

/** What the reminder says to look at. */
export interface RecheckBody {
  readonly what: readonly Say[];
  /** Ordered so soon that it belongs to the examination: never held by quiet hours. */
  readonly isNear: boolean;
  /** When it was ordered for, in epoch milliseconds, however often she is reminded. */
  readonly from: number;
}

/** One for all that is to be looked at again at the same time. */
function recheckEntries(fact: ExaminationFact, parts: FollowUpParts): DueEntry[] {
  const { book, followUp } = parts.published;
  const byMinutes = new Map<number, Classification[]>();
  for (const one of fact.interpretation.classifications) {
    const time = one.recheck ?? one.within;
    if (time === undefined || one.urgency === 'urgent' || book.isBox(one.id)) continue;
    byMinutes.set(minutesOf(time), [...(byMinutes.get(minutesOf(time)) ?? []), one]);
  }
  return [...byMinutes].map(([minutes, ones]) => {
    const isNear = minutes <= followUp.quiet.alwaysWithinMinutes;
    const body: RecheckBody = {
      what: ones.flatMap((one) => (one.id === 'extra-look' ? reasonsFor([one], book) : [say(`classifications.${one.id}`)])),
      isNear,
      from: fact.at + minutes * minute,
    };
    const dueAt = whenToText(fact.at + minutes * minute, fact.facility, isNear, parts);
    return { ...dueOf(fact, 'recheck', String(minutes)), work: 'recheck', dueAt, body };
  });
}

function contactEntries(fact: ExaminationFact, parts: FollowUpParts): DueEntry[] {
  const contact = contactAfter(fact, parts.published.followUp);
  if (contact === null) return [];
  const dueAt = whenToText(Math.max(contact.from, fact.at), fact.facility, false, parts);
  return [{ ...dueOf(fact, 'contact', contact.contact), work: 'contact', dueAt, body: contact }];
}

function dueOf({ key, baby, at }: ExaminationFact, work: string, which: string) {
  return { kind: 'due', key: `due:${key}:${work}:${which}`, baby, examination: key, at } as const;
}

/** Tells work whose own referral was left out, for an older one was open, whether it is to see to that one. */
export interface ReferralLeftBody {
  /** A baby that was sent without haste and is urgent now: asked soon after all. */
  readonly hastens: boolean;
  /** When it was advised. */
  readonly since: number;
}

/** The register leaves the referral out when the baby has one that is open; work of one left out finds no referral and is over. */
function referralEntries(
  fact: ExaminationFact | AlertFact,
  key: string,
  urgency: 'urgent' | 'refer',
  { roster, published, ...rest }: FollowUpParts,
): Entry[] {
  const { baby, worker, facility, code, at, interpretation } = fact;
  const [first] = published.followUp.hasLeft[urgency];
  const asksAt = at + (first?.afterMinutes ?? 0) * minute;
  const body: ReferralLeftBody = { hastens: fact.kind === 'alert' && !fact.isUpdate, since: at };
  return [
    {
      kind: 'referral',
      ...{ key, baby, worker, facility, code, at, urgency },
      receiving: roster.facility(facility)?.refersTo ?? null,
      body: { case: fact.case, interpretation },
    },
    {
      kind: 'due',
      key: `due:${key}:left`,
      work: 'referral-left',
      dueAt: whenToText(asksAt, facility, urgency === 'urgent', { roster, published, ...rest }),
      ...{ baby, referral: key, body, at },
    },
  ];
}
