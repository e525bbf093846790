// What every register promises of referrals: one open a baby, moved by news as src/on-call/referral.ts says, with a history.
// Next: register-babies.ts.

import { describe, expect, it } from 'vitest';
import type { Entry, ReferralNewsEntry } from '../../src/conversation/records.ts';
import { freshKey } from '../support/fresh-key.ts';
import { due, examination, noon, ofBaby, referral, referralNews, worker } from './entries.ts';
import type { RegisterHarness } from './register.ts';

export function referralsConformance(store: string, harness: () => RegisterHarness): void {
  const recordEach = async (...entries: readonly Entry[]): Promise<void> => {
    for (const entry of entries) await harness().register.record([entry]);
  };
  const find = (code: string) => harness().register.findReferrals(code);
  const rowOf = async (key: string) => (await harness().database.query('select * from referrals where key = $1', [key]))[0];

  describe(`referrals in ${store}`, () => {
    it('are found by their code while they are not closed, newest first, and with their baby', async () => {
      const code = freshKey('code');
      const [older, newer] = [referral({ code, at: noon }), referral({ code, at: noon + 1, receiving: null, urgency: 'refer' })];
      const { kind: _, ...facts } = newer;
      const nothingYet = { state: 'advised', leftAt: null, arrivedAt: null, outcome: null, reason: null };
      await recordEach(older, newer);
      expect(await find(code)).toStrictEqual([{ ...facts, ...nothingYet }, expect.objectContaining({ key: older.key })]);
      expect((await harness().register.findBabies(newer.facility, 'nobody', code)).map(({ referral: open }) => open?.key)).toEqual([
        newer.key,
        older.key,
      ]);
      await recordEach(referralNews({ referral: newer.key, news: 'died' }));
      expect((await find(code)).map(({ key }) => key)).toEqual([older.key]);
    });

    it('are left out while the baby has one that is not closed', async () => {
      const of = ofBaby();
      const [first, second, third] = [referral(of), referral(of), referral(of)];
      await recordEach(examination(of), first, second, referralNews({ referral: first.key, news: 'home-well' }), third);
      expect((await find(of.code)).map(({ key }) => key)).toEqual([third.key]);
      expect(await rowOf(second.key)).toBeUndefined();
    });

    it.each([
      { heard: [], stands: 'closed' },
      { heard: ['refused'], stands: 'closed' },
      { heard: ['left'], stands: 'left' },
      { heard: ['left', 'arrived'], stands: 'arrived' },
    ] as const)('that are urgent take the place of one that is not, unless the baby has left on it: $heard', async ({ heard, stands }) => {
      const of = ofBaby();
      const [first, urgent] = [referral({ ...of, urgency: 'refer' }), referral({ ...of, at: noon + 9 })];
      const later = due({ baby: of.baby, referral: urgent.key, work: 'referral-left' });
      await recordEach(examination(of), first, ...heard.map((news, n) => referralNews({ referral: first.key, news, at: noon + n })));
      await harness().register.record([urgent, later]);
      await harness().register.record([urgent, later]);
      expect(await rowOf(first.key)).toMatchObject({ state: stands, outcome: stands === 'closed' ? 'became-urgent' : null });
      expect((await find(of.code)).map(({ key }) => key)).toEqual([stands === 'closed' ? urgent.key : first.key]);
    });

    it('that are less urgent, or were advised before, take no place', async () => {
      const of = ofBaby();
      const [urgent, refer] = [referral({ ...of, at: noon }), referral({ ...of, urgency: 'refer', at: noon + 9 })];
      await recordEach(examination(of), urgent, refer);
      expect((await find(of.code)).map(({ key }) => key)).toEqual([urgent.key]);
      const other = ofBaby();
      const [late, early] = [referral({ ...other, urgency: 'refer', at: noon + 9 }), referral({ ...other, at: noon })];
      await recordEach(examination(other), late, early);
      expect((await find(other.code)).map(({ key }) => key)).toEqual([late.key]);
    });

    it('of one baby that come at once are one, and none of them fails', async () => {
      const of = ofBaby();
      await Promise.all(Array.from({ length: 8 }, () => harness().register.record([referral(of)])));
      expect(await find(of.code)).toHaveLength(1);
    });

    it('tell when she left and arrived, how it ended and why it was refused; the history tells each step', async () => {
      const sent = referral();
      const heard = (news: ReferralNewsEntry['news'], at: number, reason: string | null = null) =>
        referralNews({ referral: sent.key, news, at: noon + at, reason });
      const all = [heard('refused', 1, 'cost'), heard('not-left', 2), heard('left', 3), heard('arrived', 4), heard('home-well', 5)];
      await recordEach(sent, ...all, all[0] as Entry);
      expect(await rowOf(sent.key)).toMatchObject({
        ...{ state: 'closed', left_at: noon + 3, arrived_at: noon + 4, outcome: 'home-well', reason: 'cost', closed_at: noon + 5 },
      });
      const history = 'select news, reason, by, at, state_from, state_to from referral_history where referral = $1 order by at';
      expect(await harness().database.query(history, [sent.key])).toEqual([
        { news: 'refused', reason: 'cost', by: worker, at: noon + 1, state_from: 'advised', state_to: 'refused' },
        { news: 'not-left', reason: null, by: worker, at: noon + 2, state_from: 'refused', state_to: 'refused' },
        { news: 'left', reason: null, by: worker, at: noon + 3, state_from: 'refused', state_to: 'left' },
        { news: 'arrived', reason: null, by: worker, at: noon + 4, state_from: 'left', state_to: 'arrived' },
        { news: 'home-well', reason: null, by: worker, at: noon + 5, state_from: 'arrived', state_to: 'closed' },
      ]);
    });

    it('are not moved back by late news, which still tells when she left', async () => {
      const sent = referral();
      const late = referralNews({ referral: sent.key, news: 'left', at: noon + 1 });
      await recordEach(sent, referralNews({ referral: sent.key, news: 'arrived', at: noon + 9 }), late);
      expect(await rowOf(sent.key)).toMatchObject({ state: 'arrived', left_at: noon + 1, arrived_at: noon + 9 });
    });

    it('keep the reason of a refusal that is told after it', async () => {
      const sent = referral();
      await recordEach(
        sent,
        referralNews({ referral: sent.key, news: 'refused' }),
        referralNews({ referral: sent.key, news: 'refused', reason: 'far' }),
      );
      expect(await rowOf(sent.key)).toMatchObject({ state: 'refused', reason: 'far' });
    });

    it('that nobody advised may be spoken of without harm', async () => {
      await expect(recordEach(referralNews({ referral: freshKey('referral'), news: 'left' }))).resolves.toBeUndefined();
    });
  });
}
