// What every register promises of work that falls due: answered by one process at a time, void when what it follows from does
// not stand any more, due again later when its answer breaks. Work of other tests is put off first. Next: register-texts.ts.

import { beforeEach, describe, expect, it } from 'vitest';
import type { DueWork, WorkAnswer } from '../../src/conversation/records.ts';
import { alert, babyNews, due, examination, HOUR, noon, nurse, ofBaby, referral, text } from './entries.ts';
import type { RegisterHarness } from './register.ts';

const done: WorkAnswer = { entries: [], next: { kind: 'done' } };
const SECOND = 1_000;

export function dueConformance(store: string, harness: () => RegisterHarness): void {
  const record = (...entries: Parameters<RegisterHarness['register']['record']>[0]) => harness().register.record(entries);
  const stateOf = async (key: string) =>
    (await harness().database.query('select state, due_at, times from due_work where key = $1', [key]))[0];
  const answerAll = async (at: number, answer: (work: DueWork) => WorkAnswer = () => done, limit = 100) => {
    const [works, faults]: [DueWork[], string[]] = [[], []];
    const count = await harness().register.workDue(
      at,
      limit,
      (work) => {
        works.push(work);
        return answer(work);
      },
      (work) => faults.push(work),
    );
    return { count, works, keys: works.map(({ key }) => key), faults };
  };
  /** A baby that is followed, with an examination. */
  const followed = async () => {
    const baby = ofBaby();
    const examined = examination(baby);
    await record(examined);
    return { ...baby, examined };
  };

  describe(`due work in ${store}`, () => {
    beforeEach(async () => {
      await harness().database.query(`update due_work set state = 'done' where state = 'pending'`);
    });

    it('is not due before its time, and then is answered once, soonest first', async () => {
      const { baby } = await followed();
      const [later, sooner] = [due({ baby, dueAt: noon + 2 }), due({ baby, dueAt: noon + 1 })];
      await record(later, sooner);
      expect(await answerAll(noon)).toMatchObject({ count: 0, keys: [] });
      expect(await answerAll(noon + 2)).toMatchObject({ count: 2, keys: [sooner.key, later.key] });
      expect(await answerAll(noon + HOUR)).toMatchObject({ count: 0 });
      expect(await stateOf(later.key)).toMatchObject({ state: 'done' });
    });

    it('is handed over with all that it is about', async () => {
      const of = await followed();
      const [raised, sent] = [alert(of), referral(of)];
      const piece = due({
        baby: of.baby,
        examination: of.examined.key,
        alert: raised.key,
        referral: sent.key,
        work: 'contact',
        body: { of: 'day-3' },
      });
      await record(raised, sent, piece);
      const { works } = await answerAll(noon);
      expect(works).toEqual([
        {
          ...{ key: piece.key, work: 'contact', dueAt: noon, times: 0, body: { of: 'day-3' } },
          baby: (await harness().register.findBabies(of.facility, 'nobody', of.code)).map((baby) => ({
            ...baby,
            due: expect.any(Array),
          }))[0],
          alert: await harness().register.alertOf(of.baby),
          referral: (await harness().register.findReferrals(of.code))[0],
        },
      ]);
      expect(works[0]).toMatchObject({ alert: { key: raised.key }, referral: { key: sent.key }, baby: { id: of.baby } });
    });

    it('leaves entries, and is due again, missed or done, all in one', async () => {
      const { baby, ...of } = await followed();
      const [again, missed] = [due({ baby }), due({ baby, dueAt: noon + 1 })];
      await record(again, missed);
      const [first, second] = [text(), text()];
      await answerAll(noon + 1, ({ key }) =>
        key === again.key ? { entries: [first], next: { kind: 'again', at: noon + 9 } } : { entries: [second], next: { kind: 'missed' } },
      );
      expect(await stateOf(again.key)).toMatchObject({ state: 'pending', due_at: noon + 9, times: 1 });
      expect(await stateOf(missed.key)).toMatchObject({ state: 'missed' });
      expect(await harness().database.query('select from texts_out where key = any($1)', [[first.key, second.key]])).toHaveLength(2);
      expect((await harness().register.findBabies(of.facility, 'nobody', of.code))[0]?.due.map(({ key, state }) => [key, state])).toEqual([
        [missed.key, 'missed'],
        [again.key, 'pending'],
      ]);
      expect((await answerAll(noon + 9)).works).toMatchObject([{ key: again.key, times: 1 }]);
    });

    it('that is held is due later as if for the first time', async () => {
      const { baby } = await followed();
      const held = due({ baby });
      await record(held);
      await answerAll(noon, () => ({ entries: [], next: { kind: 'held', at: noon + HOUR } }));
      expect(await stateOf(held.key)).toEqual({ state: 'pending', due_at: noon + HOUR, times: 0 });
      expect((await answerAll(noon + HOUR - 1)).keys).toEqual([]);
      expect((await answerAll(noon + HOUR)).works).toMatchObject([{ key: held.key, times: 0 }]);
    });

    it('that is to be due again at once is so a moment later, so that no loop stands still', async () => {
      const { baby } = await followed();
      await record(due({ baby }));
      const again = await answerAll(noon, () => ({ entries: [], next: { kind: 'again', at: noon } }));
      expect(again.count).toBe(1);
    });

    it('is answered no more at a time than asked for', async () => {
      const { baby } = await followed();
      await record(due({ baby }), due({ baby }), due({ baby }));
      expect((await answerAll(noon, () => done, 2)).count).toBe(2);
      expect((await answerAll(noon, () => done, 2)).count).toBe(1);
    });

    it('is answered once by four processes at once', async () => {
      const { baby } = await followed();
      const pieces = Array.from({ length: 30 }, () => due({ baby }));
      await record(...pieces);
      const answered = await Promise.all(Array.from({ length: 4 }, () => answerAll(noon)));
      expect(answered.flatMap(({ keys }) => keys).sort()).toEqual(pieces.map(({ key }) => key).sort());
    });

    it('whose answer breaks is due again after a growing pause, keeps its count and stops no other; nothing of it is written', async () => {
      const { baby } = await followed();
      const [broken, sound] = [due({ baby, work: 'contact' }), due({ baby, dueAt: noon + 1 })];
      await record(broken, sound);
      const breaking = (work: DueWork): WorkAnswer => {
        if (work.key === broken.key) throw new Error('broken on purpose');
        return done;
      };
      expect(await answerAll(noon + 1, breaking)).toMatchObject({ count: 1, faults: ['contact'], keys: [broken.key, sound.key] });
      expect(await stateOf(broken.key)).toEqual({ state: 'pending', due_at: noon + 1 + 10 * SECOND, times: 0 });
      await answerAll(noon + 20 * SECOND, breaking);
      expect(await stateOf(broken.key)).toEqual({ state: 'pending', due_at: noon + 40 * SECOND, times: 0 });
      let at = noon;
      for (let n = 0; n < 12; n += 1) {
        at += HOUR;
        await answerAll(at, breaking);
      }
      expect(await stateOf(broken.key)).toEqual({ state: 'pending', due_at: at + 600 * SECOND, times: 0 });
    });

    it('whose entries cannot be written is due again later, and none of them is', async () => {
      const { baby } = await followed();
      const piece = due({ baby });
      await record(piece);
      const [good, bad] = [text(), text({ at: Number.NaN })];
      expect(await answerAll(noon, () => ({ entries: [good, bad], next: { kind: 'done' } }))).toMatchObject({
        count: 0,
        faults: ['recheck'],
      });
      expect(await stateOf(piece.key)).toMatchObject({ state: 'pending', times: 0 });
      expect(await harness().database.query('select from texts_out where key = $1', [good.key])).toEqual([]);
    });

    it('of an examination that is not the last of its baby any more is void and never answered', async () => {
      const of = await followed();
      const piece = due({ baby: of.baby, examination: of.examined.key });
      await record(piece, examination({ ...of, key: `${of.examined.key}-again`, at: noon + 1 }));
      expect(await answerAll(noon)).toMatchObject({ count: 0, keys: [] });
      expect(await stateOf(piece.key)).toMatchObject({ state: 'void' });
    });

    it.each([
      ['of an alert that is not there, for it joined another', { alert: 'no-such-alert' }],
      ['of a referral that is not there, for the baby had another', { referral: 'no-such-referral' }],
      ['of an examination that is not there', { examination: 'no-such-examination' }],
    ])('%s, is void', async (_, about) => {
      const { baby } = await followed();
      const piece = due({ baby, ...about });
      await record(piece);
      expect(await answerAll(noon)).toMatchObject({ count: 0, keys: [] });
      expect(await stateOf(piece.key)).toMatchObject({ state: 'void' });
    });

    it('of an alert stands until the alert is closed, even when the baby has moved', async () => {
      const of = await followed();
      const raised = alert(of);
      const [first, second] = [
        due({ baby: of.baby, alert: raised.key, work: 'alert-not-taken' }),
        due({ baby: of.baby, alert: raised.key, dueAt: noon + 5 }),
      ];
      await record(raised, first, second);
      await record(babyNews({ baby: of.baby, news: 'moved' }));
      expect((await answerAll(noon)).keys).toEqual([first.key]);
      await harness().register.moveAlert(raised.key, 'open', 'closed', nurse, noon, []);
      expect((await answerAll(noon + 5)).keys).toEqual([]);
      expect(await stateOf(second.key)).toMatchObject({ state: 'void' });
    });

    it('of a baby that died or moved is void when it comes after that news', async () => {
      const of = await followed();
      await record(babyNews({ baby: of.baby, news: 'died' }));
      const piece = due({ baby: of.baby });
      await record(piece);
      expect(await stateOf(piece.key)).toMatchObject({ state: 'void' });
    });

    it('that many pieces of are void does not keep others waiting', async () => {
      const of = await followed();
      const pieces = Array.from({ length: 5 }, () => due({ baby: of.baby, examination: 'no-such-examination' }));
      const sound = due({ baby: of.baby, dueAt: noon + 1 });
      await record(...pieces, sound);
      expect(await answerAll(noon + 1, () => done, 1)).toMatchObject({ count: 1, keys: [sound.key] });
    });
  });
}
