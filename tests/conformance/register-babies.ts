// What every register promises of babies: their row says what their examinations and their news say together, in whatever order
// those came. Next: register-due.ts.

import { describe, expect, it } from 'vitest';
import type { Entry, ExaminationEntry } from '../../src/conversation/records.ts';
import { eraseBaby } from '../../src/register/erase.ts';
import { freshKey } from '../support/fresh-key.ts';
import {
  alert,
  babyNews,
  due,
  examination,
  facility,
  HOUR,
  noon,
  nothingKnown,
  ofBaby,
  referral,
  referralNews,
  worker,
} from './entries.ts';
import type { RegisterHarness } from './register.ts';

const otherWorker = '+254700000008';

export function babiesConformance(store: string, harness: () => RegisterHarness): void {
  const recordEach = async (...entries: readonly Entry[]): Promise<void> => {
    for (const entry of entries) await harness().register.record([entry]);
  };
  const babyOf = async ({ code }: { readonly code: string }) => (await harness().register.findBabies(facility, 'nobody', code))[0];
  const listOf = (phone: string, dueBy = noon) => harness().register.listBabies(phone, dueBy, 100);

  describe(`babies in ${store}`, () => {
    it('are found by facility and code, with what is known of them and their last examination', async () => {
      const of = ofBaby();
      const facts = { sex: 'girl', bornAt: noon - HOUR, gestationDays: 273, birthWeightGrams: 3100, card: 'A-17' } as const;
      const examined = examination({ ...of, facts, urgency: 'refer', body: { case: {}, n: [1] } });
      await recordEach(examined, examination());
      expect(await harness().register.findBabies(facility, 'nobody', of.code)).toStrictEqual([
        {
          ...{ id: of.baby, code: of.code, facility, worker, status: 'followed', ...facts },
          last: { key: examined.key, at: noon, urgency: 'refer', body: { case: {}, n: [1] } },
          due: [],
          referral: null,
        },
      ]);
      expect(await harness().register.findBabies('elsewhere', 'nobody', of.code)).toEqual([]);
    });

    it('are found by who follows them when she has moved to another facility', async () => {
      const of = ofBaby();
      await recordEach(examination(of));
      expect((await harness().register.findBabies('elsewhere', worker, of.code)).map(({ id }) => id)).toEqual([of.baby]);
      expect(await harness().register.findBabies('elsewhere', otherWorker, of.code)).toEqual([]);
    });

    it('that share a code come newest first', async () => {
      const code = freshKey('code');
      const [older, newer] = [examination({ code, at: noon }), examination({ code, at: noon + 1 })];
      await recordEach(newer, older);
      expect((await harness().register.findBabies(facility, 'nobody', code)).map(({ id }) => id)).toEqual([newer.baby, older.baby]);
    });

    it('of whom only an alert is known are there, without an examination', async () => {
      const of = ofBaby();
      await recordEach(alert(of));
      expect(await babyOf(of)).toMatchObject({ id: of.baby, last: null, sex: null });
    });

    const of = (at: number, facts: Partial<ExaminationEntry['facts']>) => ({ at: noon + at, facts: { ...nothingKnown, ...facts } });
    const three = [of(1, { sex: 'girl', card: 'A-17' }), of(2, { sex: 'boy', birthWeightGrams: 3100 }), of(3, { birthWeightGrams: 3000 })];
    it.each([
      [0, 1, 2],
      [0, 2, 1],
      [1, 0, 2],
      [1, 2, 0],
      [2, 0, 1],
      [2, 1, 0],
    ])('know of each fact what was heard last, and their last examination, whether it comes in the order %i, %i, %i', async (...order) => {
      const baby = ofBaby();
      // The keys stand the other way round: it is the clock that counts.
      const entries = three.map((examined, n) => examination({ ...baby, ...examined, key: `examination:${baby.baby}:${9 - n}` }));
      await recordEach(...order.map((n) => entries[n] as ExaminationEntry));
      expect(await babyOf(baby)).toMatchObject({ sex: 'boy', birthWeightGrams: 3000, card: 'A-17', last: { key: entries[2]?.key } });
    });

    it('examined by several processes at once know all that was found', async () => {
      const baby = ofBaby();
      const found = [{ sex: 'girl' }, { card: 'A-17' }, { bornAt: 1 }, { gestationDays: 270 }, { birthWeightGrams: 3100 }] as const;
      const entries = found.map((facts, n) => examination({ ...baby, at: noon + n, facts: { ...nothingKnown, ...facts } }));
      await Promise.all(entries.map((entry) => harness().register.record([entry])));
      expect(await babyOf(baby)).toMatchObject(Object.assign({}, ...found));
    });

    it.each(['before', 'after'])(
      'handed over are with the new worker, when that is heard %s a further examination by another one',
      async (order) => {
        const baby = ofBaby();
        const [first, second] = [examination(baby), examination({ ...baby, at: noon + 1, worker: '+254700000007' })];
        const handed = babyNews({ baby: baby.baby, news: 'handed-over', to: otherWorker, at: noon + 2 });
        await recordEach(...(order === 'before' ? [handed, first, second] : [first, second, handed]));
        expect((await babyOf(baby))?.worker).toBe(otherWorker);
      },
    );

    it('handed over twice are with the one who was named last', async () => {
      const baby = ofBaby();
      const [second, first] = [otherWorker, '+254700000007'].map((to, n) =>
        babyNews({ baby: baby.baby, news: 'handed-over', to, at: noon + 9 - n }),
      );
      await recordEach(examination(baby), second as Entry, first as Entry);
      expect((await babyOf(baby))?.worker).toBe(otherWorker);
    });

    it.each([
      ['died', noon + 1],
      ['moved', noon - 1],
    ] as const)('that %s are followed no more, whatever is heard of them later', async (news, at) => {
      const baby = ofBaby();
      await recordEach(examination({ ...baby, at: noon - 2 }), babyNews({ baby: baby.baby, news, at: noon }), examination({ ...baby, at }));
      expect(await babyOf(baby)).toBeUndefined();
      expect(await harness().database.query('select status from babies where id = $1', [baby.baby])).toEqual([{ status: news }]);
    });

    it.each([
      { news: 'died', work: 'void', sent: 'closed' },
      { news: 'moved', work: 'void', sent: 'left' },
    ] as const)('that $news have no work any more; a referral is $sent then', async ({ news, work, sent }) => {
      const baby = ofBaby();
      const [advised, reminder] = [referral(baby), due({ baby: baby.baby })];
      await recordEach(examination(baby), advised, referralNews({ referral: advised.key, news: 'left' }), reminder);
      await recordEach(babyNews({ baby: baby.baby, news }), due({ baby: baby.baby, dueAt: noon - 1 }));
      expect(await harness().database.query('select distinct state from due_work where baby = $1', [baby.baby])).toEqual([{ state: work }]);
      expect(await harness().database.query('select state from referrals where key = $1', [advised.key])).toEqual([{ state: sent }]);
    });

    it('that moved and are examined here again are followed again, in whichever order that was heard', async () => {
      const [baby, other] = [ofBaby(), ofBaby()];
      const moved = (of: string) => babyNews({ baby: of, news: 'moved', at: noon });
      const back = (of: typeof baby) => examination({ ...of, at: noon + 1 });
      await recordEach(examination({ ...baby, at: noon - 2 }), moved(baby.baby), back(baby), due({ baby: baby.baby }));
      await recordEach(examination({ ...other, at: noon - 2 }), back(other), moved(other.baby));
      expect(await babyOf(baby)).toMatchObject({ due: [{ dueAt: noon }] });
      expect(await babyOf(other)).toMatchObject({ id: other.baby });
    });

    it('that were erased stay empty, and nothing is written that was said of them before', async () => {
      const baby = ofBaby();
      await recordEach(examination({ ...baby, facts: { ...nothingKnown, card: 'A-17' } }));
      await harness().database.query(`update babies set status = 'erased', erased_at = $2, card = null where id = $1`, [
        baby.baby,
        noon + 1,
      ]);
      await recordEach(
        examination({ ...baby, at: noon + 1, facts: { ...nothingKnown, card: 'A-17' } }),
        babyNews({ baby: baby.baby, news: 'moved' }),
        babyNews({ baby: baby.baby, news: 'moved', at: noon + 2 }),
      );
      expect(await harness().database.query('select status, card from babies where id = $1', [baby.baby])).toEqual([
        { status: 'erased', card: null },
      ]);
      expect(await harness().database.query('select from examinations where baby = $1', [baby.baby])).toHaveLength(1);
    });

    it('that were erased come back with what is seen of them later', async () => {
      const baby = ofBaby();
      await recordEach(examination({ ...baby, facts: { ...nothingKnown, card: 'A-17' } }));
      expect(await eraseBaby(harness().database, baby.baby, 'Invented Coordinator', noon + 1)).toBe('erased');
      await recordEach(
        examination({ ...baby, at: noon + 2, facts: { ...nothingKnown, sex: 'girl' } }),
        due({ baby: baby.baby, at: noon + 2 }),
      );
      expect(await babyOf(baby)).toMatchObject({ id: baby.baby, sex: 'girl', card: null, due: [{ dueAt: noon }] });
    });

    it('nobody has seen may be spoken of without harm', async () => {
      const baby = freshKey('baby');
      await expect(recordEach(babyNews({ baby, news: 'died' }), due({ baby }))).resolves.toBeUndefined();
    });
  });

  describe(`a worker's list in ${store}`, () => {
    const freshWorker = () => freshKey('worker');

    it('holds those for whom something is due by then, missed, or a referral open, soonest first', async () => {
      const phone = freshWorker();
      const [later, soon, late, sick, well] = Array.from({ length: 5 }, () => ofBaby({ worker: phone })) as [
        ReturnType<typeof ofBaby>,
        ReturnType<typeof ofBaby>,
        ReturnType<typeof ofBaby>,
        ReturnType<typeof ofBaby>,
        ReturnType<typeof ofBaby>,
      ];
      await recordEach(...[later, soon, late, sick, well].map((baby) => examination(baby)));
      await recordEach(
        due({ baby: later.baby, dueAt: noon + 5 * HOUR }),
        due({ baby: soon.baby, dueAt: noon + 2 * HOUR }),
        due({ baby: late.baby, dueAt: noon - HOUR }),
        due({ baby: late.baby, dueAt: noon + 30 * HOUR }),
        due({ baby: well.baby, dueAt: noon + 100 * HOUR }),
        referral({ ...sick, at: noon }),
      );
      const ids = async (dueBy: number, limit = 9) => (await harness().register.listBabies(phone, dueBy, limit)).map(({ id }) => id);
      expect(await ids(noon + 5 * HOUR)).toEqual([late, sick, soon, later].map(({ baby }) => baby));
      expect(await ids(noon)).toEqual([late, sick].map(({ baby }) => baby));
      expect(await ids(noon, 1)).toEqual([late.baby]);
      expect((await listOf(phone, noon))[0]?.due.map(({ dueAt }) => dueAt)).toEqual([noon - HOUR, noon + 30 * HOUR]);
    });

    it('shows what is due from the last examination only, and from none', async () => {
      const baby = ofBaby({ worker: freshWorker() });
      const [first, second] = [examination(baby), examination({ ...baby, at: noon + 1 })];
      const [old, own, free] = [
        due({ baby: baby.baby, examination: first.key }),
        due({ baby: baby.baby, examination: second.key }),
        due({ baby: baby.baby }),
      ];
      await recordEach(first, old, own, free, second);
      expect((await listOf(baby.worker))[0]?.due.map(({ key }) => key)).toEqual([own.key, free.key].sort());
    });

    it('changes hands with the baby, and does not hold another worker’s', async () => {
      const [baby, to] = [ofBaby({ worker: freshWorker() }), freshWorker()];
      await recordEach(examination(baby), due({ baby: baby.baby }), babyNews({ baby: baby.baby, news: 'handed-over', to }));
      expect(await listOf(baby.worker)).toEqual([]);
      expect(await listOf(to)).toMatchObject([{ id: baby.baby, worker: to }]);
    });

    it('does not hold babies that are followed no more', async () => {
      const baby = ofBaby({ worker: freshWorker() });
      await recordEach(examination(baby), referral(baby), babyNews({ baby: baby.baby, news: 'moved' }));
      expect(await listOf(baby.worker)).toEqual([]);
    });
  });
}
