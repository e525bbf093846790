// Where a referral stands, and where each piece of news leads. Pure. News comes by text from two sides, late and out of order:
// it never moves a referral back, and news of a later state overtakes the ones before it. The register applies it
// (src/register/referrals.ts); the questions and their digits are in src/dialog/referral-question.ts.

export type ReferralState = 'advised' | 'left' | 'refused' | 'arrived' | 'closed';

export type ReferralNews =
  | 'left'
  | 'not-left'
  | 'refused'
  | 'arrived'
  | 'not-arrived'
  | 'home-well'
  | 'still-in-care'
  | 'died'
  | 'not-known'
  /** The baby is sent urgently now: another referral takes the place of one on which it has not left. */
  | 'became-urgent';

/** State -> news -> next state. News that a state does not name leaves it as it is. */
const moves: Readonly<Record<ReferralState, Partial<Readonly<Record<ReferralNews, ReferralState>>>>> = {
  advised: {
    ...{ left: 'left', refused: 'refused', arrived: 'arrived', 'still-in-care': 'arrived' },
    ...{ 'home-well': 'closed', died: 'closed', 'became-urgent': 'closed' },
  },
  left: { arrived: 'arrived', 'still-in-care': 'arrived', 'home-well': 'closed', died: 'closed' },
  // A baby that looks well at home was refused care all the same: only going there, or death, ends the daily visits.
  refused: { left: 'left', arrived: 'arrived', 'still-in-care': 'arrived', died: 'closed', 'became-urgent': 'closed' },
  // Not known ends the questions only where she was seen to arrive; before that it would lose her.
  arrived: { 'home-well': 'closed', died: 'closed', 'not-known': 'closed' },
  closed: {},
};

/** The state after the news; the same state when the news does not move it. */
export function referralAfter(state: ReferralState, news: ReferralNews): ReferralState {
  return moves[state][news] ?? state;
}
