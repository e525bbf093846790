// What is asked of a referral, and the digits that answer it. A digit means the same whatever was asked and by whom it is
// sent, so that an answer to an older text is never taken for something else. Pure; the words are in locales/.
// The worker's dialog shows these questions, and so do the texts of src/conversation/due-referral.ts.

/** Where a referral stands; src/on-call/referral.ts says how news moves it. */
export type ReferralState = 'advised' | 'left' | 'refused' | 'arrived' | 'closed';

/** What may be answered, each with the digit of its place. */
export const referralNews = [
  'left',
  'not-left',
  'refused',
  'died',
  'arrived',
  'not-arrived',
  'home-well',
  'still-in-care',
  'not-known',
] as const;
export type ReferralNews = (typeof referralNews)[number];

/** Why a family refuses, each with the digit of its place. */
export const refusalReasons = ['cost', 'transport', 'far', 'elder-decides', 'fear', 'other'] as const;
export type RefusalReason = (typeof refusalReasons)[number];

/** The key of the question is `referral.ask.<name>`; the answers in the order shown, said by `referral.news.<answer>`. */
export interface ReferralQuestion {
  readonly name: 'left' | 'gone-after-all' | 'arrived' | 'outcome';
  readonly answers: readonly ReferralNews[];
}

const questions: Readonly<Record<Exclude<ReferralState, 'closed'>, ReferralQuestion>> = {
  advised: { name: 'left', answers: ['left', 'not-left', 'refused', 'died'] },
  refused: { name: 'gone-after-all', answers: ['left', 'not-left', 'died'] },
  left: { name: 'arrived', answers: ['arrived', 'not-arrived', 'died'] },
  arrived: { name: 'outcome', answers: ['home-well', 'still-in-care', 'died', 'not-known'] },
};

/** The question that a referral waits for; null: none any more. */
export function referralQuestion(state: ReferralState): ReferralQuestion | null {
  return state === 'closed' ? null : questions[state];
}

export function digitOf(news: ReferralNews): string {
  return String(referralNews.indexOf(news) + 1);
}

export function reasonDigitOf(reason: RefusalReason): string {
  return String(refusalReasons.indexOf(reason) + 1);
}

export interface ReferralAnswer {
  readonly news: ReferralNews;
  readonly reason: RefusalReason | null;
  /** A death is asked back once, for a slip of the thumb would end all care of a living baby: 44 says it surely. */
  readonly isSure: boolean;
}

/**
 * What digits after a code say: one digit; 3 and the digit of a reason, as in 31; 44 for a death that was asked back.
 *
 * Returns  null: no answer about a referral.
 */
export function referralAnswerIn(text: string): ReferralAnswer | null {
  const [first = '', second, ...more] = text.replace(/[\s.,!]/g, '');
  const news = referralNews[Number(first) - 1];
  if (!/^[1-9]$/.test(first) || news === undefined || more.length > 0) return null;
  if (second === undefined) return { news, reason: null, isSure: news !== 'died' };
  if (news === 'died') return second === first ? { news, reason: null, isSure: true } : null;
  const reason = news === 'refused' && /^[1-9]$/.test(second) ? refusalReasons[Number(second) - 1] : undefined;
  return reason === undefined ? null : { news, reason, isSure: true };
}
