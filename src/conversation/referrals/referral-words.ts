// The answers to a question about a referral, as they are shown and as they are read back: a digit, or the words shown for it.
// Next: src/dialog/referral-question.ts, where the digits are; ask-referral.ts, referral-reply.ts.

import { normalise } from '../../dialog/readings/tokens.ts';
import { digitOf, type ReferralAnswer, type ReferralQuestion, referralAnswerIn, referralNews } from '../../dialog/referral-question.ts';
import { type Say, say } from '../../dialog/reply.ts';
import type { FollowUpParts } from '../follow-up-parts.ts';

/** "1 left", "2 not yet" ... */
export function answersShown({ answers }: ReferralQuestion): Say[] {
  return answers.map((news) => say('referral.option', { digit: Number(digitOf(news)), answer: say(`referral.news.${news}`) }));
}

/**
 * What a person's text says of a referral, in digits or in the words of her language.
 *
 * Returns  null: it says nothing of it. Words for a death are asked back like its digit.
 */
export function readReferralAnswer(text: string, language: string, { speak }: Pick<FollowUpParts, 'speak'>): ReferralAnswer | null {
  const said = normalise(text).replace(/(?<![.,!])[.,!]+$/, '');
  const byDigit = referralAnswerIn(said);
  if (byDigit !== null) return byDigit;
  const news = referralNews.find((one) => normalise(speak(language, `referral.news.${one}`, {})) === said);
  return news === undefined ? null : { news, reason: null, isSure: news !== 'died' };
}
