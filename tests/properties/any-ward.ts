// What the register may answer a turn of the dialog core with: invented babies in every state in which one may be followed, or
// that it is away. Next: any-dialog.ts.

import type { DueNext, FollowedBaby, Found, LookUp } from '../../src/dialog/followed.ts';
import type { Examination } from '../../src/dialog/session.ts';

const hour = 3_600_000;

/** The code that most messages speak of; another is shared by two babies, and 9XY is nobody's. */
export const [knownCode, sharedCode] = ['7FK', '3AC'] as const;

/** Takes  last: a finished examination, as the register gives it back. */
export function wardAt(now: number, worker: string, last: Examination): FollowedBaby[] {
  const baby = (id: string, code: string, rest: Partial<FollowedBaby>): FollowedBaby => ({
    ...{ id, code, worker, sex: 'girl', bornAt: now - 30 * hour, gestationDays: 273, birthWeightGrams: 3100, card: 'C7' },
    ...{ last, due: [], referral: null },
    ...rest,
  });
  const due = (work: DueNext['work'], hours: number, isMissed = false): DueNext => ({
    ...{ work, dueAt: now + hours * hour, lateAt: now + hours * hour, isMissed },
  });
  const referral = (state: 'advised' | 'left' | 'refused' | 'arrived', urgency: 'urgent' | 'refer' = 'urgent') => ({
    ...{ key: `referral-${state}`, state, urgency, place: 'Baobab District Hospital' },
  });
  return [
    baby('b1', knownCode, { due: [due('recheck', -1), due('contact', 20)] }),
    baby('b2', sharedCode, { due: [due('contact', -30, true)], worker: '+254700555102' }),
    baby('b3', sharedCode, { referral: referral('advised') }),
    baby('b4', '4DD', { referral: referral('left', 'refer'), due: [due('recheck', 2)] }),
    baby('b5', '5EE', { referral: referral('refused'), due: [due('refusal-visit', -2)], last: null, sex: null, bornAt: null }),
    baby('b6', '6HH', { referral: { ...referral('arrived'), place: null } }),
    baby('b7', '8JJ', { due: [due('contact', -3)], last: null, gestationDays: null, birthWeightGrams: null, card: null }),
    // Examined in a flow that is no longer published.
    baby('b8', '2MM', { last: { ...last, flow: 'older-examination' } }),
  ];
}

/** Away now and then, by the clock, so that the same turn is answered the same. */
export function foundFor(lookUp: LookUp, ward: readonly FollowedBaby[], now: number): Found {
  if (Math.floor(now / 1000) % 9 === 0) return { kind: 'away' };
  const wanted = (baby: FollowedBaby): boolean =>
    lookUp.kind === 'list' || (lookUp.kind === 'code' ? baby.code === lookUp.code : baby.id === lookUp.id);
  return { kind: 'babies', babies: ward.filter(wanted) };
}
