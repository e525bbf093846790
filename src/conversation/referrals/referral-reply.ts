// What a nurse or a coordinator texts about a referral, at the place that the baby is sent to or where it comes from: its code
// and a digit, or the words shown for it. The code alone asks what the referral waits for. Next: news-entries.ts, nurse.ts.

import { normalise } from '../../dialog/readings/tokens.ts';
import { digitOf, referralQuestion } from '../../dialog/referral-question.ts';
import { say } from '../../dialog/reply.ts';
import { chainFrom } from '../../on-call/chain.ts';
import type { FollowUpParts } from '../follow-up-parts.ts';
import { babyOfReferral } from '../naming.ts';
import { newsEntries } from '../news-entries.ts';
import type { NewsFact } from '../news-fact.ts';
import type { Person, Register } from '../ports.ts';
import type { ReferralRecord } from '../records.ts';
import { questionText, valuesOf } from './ask-referral.ts';
import { readReferralAnswer } from './referral-words.ts';

export type ReferralReplyParts = FollowUpParts & { readonly register: Pick<Register, 'alertOf' | 'findReferrals' | 'record'> };

/**
 * The answer to her; null when no open referral with this code is hers to speak of. Words that say nothing of the referral get
 * its question: so call this for a digit before anything else, and for a code alone or other words once no alert took them.
 *
 * Takes    words: what follows the code; the last three digits of the worker's number may stand first where two babies share it.
 */
export async function answerReferral(
  person: Person,
  code: string,
  words: string,
  messageId: string,
  now: number,
  parts: ReferralReplyParts,
): Promise<string | null> {
  const open = (await parts.register.findReferrals(code)).filter((referral) => isHers(person, referral, parts));
  const { ending, rest } = endingIn(words);
  const meant = ending === null ? open : open.filter(({ worker }) => worker.endsWith(ending));
  const [referral] = meant;
  if (referral === undefined) return open.length === 0 ? null : which(person, code, open, parts);
  if (meant.length > 1) return which(person, code, meant, parts);
  const values = valuesOf({ baby: null }, referral, now, parts);
  const answer = readReferralAnswer(rest, person.language, parts);
  if (answer === null) {
    const question = referralQuestion(referral.state);
    return question === null ? null : questionText(question, values, person, parts);
  }
  if (!answer.isSure) return parts.speak(person.language, 'referral.sure', { ...values, digits: digitOf('died').repeat(2) });
  const { baby, worker, facility } = referral;
  const fact: NewsFact = {
    kind: 'referral-news',
    key: `referral-news:${messageId}`,
    ...{ baby, code, worker, facility, at: now, referral: referral.key, news: answer.news, reason: answer.reason, by: person.phone },
    ...babyOfReferral(referral),
  };
  const openAlert = answer.news === 'died' ? await parts.register.alertOf(baby) : null;
  await parts.register.record(newsEntries(fact, { ...parts, openAlert }));
  return parts.speak(person.language, 'referral.noted', { code, answer: say(`referral.news.${answer.news}`) });
}

/** The question to her who waits for a baby that is on its way to her facility or there; null: none with this code. */
export async function askAwaiting(person: Person, code: string, now: number, parts: ReferralReplyParts): Promise<string | null> {
  const open = await parts.register.findReferrals(code);
  const awaited = open.some(({ receiving, state }) => receiving === person.facility && (state === 'left' || state === 'arrived'));
  return awaited ? answerReferral(person, code, '', '', now, parts) : null;
}

/** Of where the baby is sent or comes from, or of a facility above either; or it is the number that is rung there. */
function isHers(person: Person, { receiving, facility }: ReferralRecord, { roster }: FollowUpParts): boolean {
  const find = roster.facility;
  const concerned = [facility, ...(receiving === null ? [] : [receiving])].flatMap((id) => chainFrom(id, find));
  return concerned.some(({ id, nurse }) => id === person.facility || nurse === person.phone);
}

function endingIn(words: string): { readonly ending: string | null; readonly rest: string } {
  const [, ending, rest] = /^(\d{3})\b[\s:,.-]*(.*)$/su.exec(normalise(words)) ?? [];
  return ending === undefined ? { ending: null, rest: words } : { ending, rest: rest ?? '' };
}

function which({ language }: Person, code: string, open: readonly ReferralRecord[], { roster, speak }: FollowUpParts): string {
  const choices = open.map(({ worker, facility }) =>
    say('referral.choice', { code, digits: worker.slice(-3), facility: roster.facility(facility)?.name ?? '' }),
  );
  return speak(language, 'referral.which', { code, choices });
}
