// Asks what became of a baby that was sent on, and takes the answer, by digit or in the same text as its code. A refusal is
// told at once, and its reason asked after; a death is asked back. Next: referral-question.ts, parting.ts.

import type { Caller } from './book.ts';
import type { ReferralNewsFact } from './facts.ts';
import { ageAndSex, namePhrase } from './followed.ts';
import { askSure, diedTurn } from './parting.ts';
import { settled, type Turn } from './proceed.ts';
import {
  digitOf,
  type ReferralAnswer,
  type ReferralNews,
  type RefusalReason,
  reasonDigitOf,
  referralQuestion,
  refusalReasons,
} from './referral-question.ts';
import { type Question, type Reply, type Say, say } from './reply.ts';
import type { NamedBaby, Session } from './session.ts';

/** Opens the rest of what may be done with the baby: no digit of the question is used for it. */
export const otherDigit = '0';

export function askReferral(session: Session, baby: NamedBaby, told: readonly Say[], caller: Caller, now: number, page = 0): Turn {
  const reply: Reply = { told, question: questionOf(baby, caller, now), page, ends: false };
  return { session: { ...settled(session), view: 'followed', followed: { of: 'referral', baby }, told, page }, reply, facts: [] };
}

function questionOf(baby: NamedBaby, { facilityName }: Caller, now: number): Question {
  const asked = referralQuestion(baby.referral?.state ?? 'closed');
  const options = (asked?.answers ?? []).map((news) => ({ digit: digitOf(news), label: say(`referral.news.${news}`) }));
  const place = baby.referral?.place ?? null;
  const title = say(`referral.ask.${asked?.name ?? 'left'}`, {
    ...{ code: baby.code, baby: ageAndSex(baby, now), facility: facilityName },
    place: place === null ? say('referral.place') : say('verbatim', { text: place }),
  });
  return { title, options: [...options, { digit: otherDigit, label: say('followed.other') }], tail: [] };
}

/** True: one of the digits that the question shows. */
export function answersReferral({ news }: ReferralAnswer, baby: NamedBaby): boolean {
  return referralQuestion(baby.referral?.state ?? 'closed')?.answers.includes(news) ?? false;
}

/** Takes  baby: one whose referral is open. */
export function tellReferral(
  session: Session,
  baby: NamedBaby,
  { news, reason, isSure }: ReferralAnswer,
  caller: Caller,
  now: number,
): Turn {
  if (news === 'died') return isSure ? diedTurn(session, baby, caller, now) : askSure(session, baby, 'died', now);
  const facts = factsOf(baby, news, reason, caller, now);
  const then = news === 'refused' ? [say('referral.refused-advice')] : [];
  if (news === 'refused' && reason === null) return { ...askReason(session, baby, then, now), facts };
  const told = [say('referral.noted', { code: baby.code, answer: say(`referral.news.${news}`) }), ...then];
  return { session: settled(session), reply: { told, page: 0, ends: true }, facts };
}

/** The refusal was told before; what to do then was said with it. */
export function tellReason(session: Session, baby: NamedBaby, reason: RefusalReason, caller: Caller, now: number): Turn {
  const told = [say('referral.noted', { code: baby.code, answer: say(`referral.reason.${reason}`) })];
  return { session: settled(session), reply: { told, page: 0, ends: true }, facts: factsOf(baby, 'refused', reason, caller, now) };
}

export function askReason(session: Session, baby: NamedBaby, told: readonly Say[], now: number, page = 0): Turn {
  const options = refusalReasons.map((reason) => ({ digit: reasonDigitOf(reason), label: say(`referral.reason.${reason}`) }));
  const title = say('followed.why', { name: namePhrase(baby, now) });
  const reply: Reply = { told, question: { title, options, tail: [] }, page, ends: false };
  return { session: { ...settled(session), view: 'followed', followed: { of: 'reason', baby }, told, page }, reply, facts: [] };
}

function factsOf(baby: NamedBaby, news: ReferralNews, reason: RefusalReason | null, caller: Caller, at: number): ReferralNewsFact[] {
  const { id, code, worker, sex, bornAt, referral } = baby;
  if (referral === null) return [];
  const key = `referral-news:${caller.message ?? `${caller.phone}-${at}`}`;
  const who = { baby: id, code, worker, by: caller.phone, facility: caller.facility, sex, bornAt };
  return [{ kind: 'referral-news', key, ...who, at, referral: referral.key, news, reason }];
}
