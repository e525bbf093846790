// What nurses and coordinators text about a referral, and what they get back.

import { describe, expect, it } from 'vitest';
import type { AlertRecord, Entry, ReferralRecord } from '../../../src/conversation/records.ts';
import { answerReferral, askAwaiting } from '../../../src/conversation/referrals/referral-reply.ts';
import { coordinator, hour, morning, nurse, parts, receiver, referral, stranger, worker } from '../ward.ts';

const left = referral({ state: 'left', leftAt: morning });

/** Her text as a nurse sends it after the code; what she gets back, and what was recorded. */
async function reply(from: typeof nurse, words: string, open: readonly ReferralRecord[] = [left], alert: AlertRecord | null = null) {
  const recorded: Entry[] = [];
  const register = {
    findReferrals: async (code: string) => open.filter((one) => one.code === code),
    alertOf: async () => alert,
    record: async (entries: readonly Entry[]) => void recorded.push(...entries),
  };
  const text = await answerReferral(from, '7FK', words, 'm1', morning + hour, { ...parts, register });
  return { text, recorded, news: recorded.flatMap((entry) => (entry.kind === 'referral-news' ? [entry.news] : [])) };
}

const question = '7FK girl 6 h of Mwangaza HC: arrived at Mto Hospital? Reply like 7FK 5: 5 arrived, 6 not there, 4 died';

describe('a nurse at the hospital', () => {
  it.each([
    ['5', 'arrived'],
    ['5.', 'arrived'],
    ['arrived', 'arrived'],
    ['ARRIVED!', 'arrived'],
    ['6', 'not-arrived'],
    ['7', 'home-well'],
    ['home and well', 'home-well'],
    ['8', 'still-in-care'],
    ['9', 'not-known'],
    ['44', 'died'],
  ])('who texts 7FK %s says %s', async (words, news) => {
    const said = await reply(receiver, words);
    expect(said.news).toEqual([news]);
    expect(said.text).toMatch(/^7FK: .*\. Noted\.$/);
    expect(said.recorded[0]).toMatchObject({ referral: 'referral:alert:b1', by: receiver.phone, key: 'referral-news:m1' });
  });

  it('who texts the code alone is asked what the referral waits for', async () => {
    expect(await reply(receiver, '')).toEqual({ text: question, recorded: [], news: [] });
  });

  it.each(['0', 'baby is fine', '55', '💛', '__proto__', 'x'.repeat(10_000)])(
    'whose words say nothing of it is asked again: %s',
    async (words) => {
      expect(await reply(receiver, words)).toEqual({ text: question, recorded: [], news: [] });
    },
  );

  it.each(['4', '४', 'died'])('is asked back before a death is recorded: %s', async (words) => {
    expect(await reply(receiver, words)).toEqual({ text: '7FK girl 6 h of Mwangaza HC: died? Send 7FK 44 if so.', recorded: [], news: [] });
  });

  it('may answer in the digits of her language', async () => {
    expect((await reply({ ...receiver, language: 'hi' }, '५')).news).toEqual(['arrived']);
  });

  it('is heard by the worker', async () => {
    const { recorded } = await reply(receiver, '5');
    expect(recorded).toContainEqual(
      expect.objectContaining({ kind: 'text', to: worker.phone, text: '7FK girl 6 h has arrived at Mto Hospital.' }),
    );
  });

  it('who tells of a death is heard by whoever has the alert', async () => {
    const alert = {
      key: 'alert:b1',
      baby: 'b1',
      code: '7FK',
      worker: worker.phone,
      facility: 'mwangaza',
      nurse: nurse.phone,
      asked: [nurse.phone],
      askedNow: [nurse.phone],
    };
    const open: AlertRecord = { ...alert, at: morning, state: 'taken', takenBy: nurse.phone, body: {} };
    const { recorded } = await reply(receiver, '44', [left], open);
    expect(recorded.flatMap((entry) => (entry.kind === 'text' ? [entry.to] : []))).toEqual([nurse.phone, coordinator.phone, worker.phone]);
  });
});

describe('whose referral it is', () => {
  it.each([
    ['the nurse where the baby comes from', nurse],
    ['the coordinator above', coordinator],
    ['whoever answers the hospital door', { ...stranger, phone: '+254700555220', facility: 'kilima' }],
  ])('also that of %s', async (_, person) => {
    expect((await reply(person, '5')).news).toEqual(['arrived']);
  });

  it('not that of a nurse elsewhere: her text is not about it', async () => {
    expect(await reply(stranger, '5')).toEqual({ text: null, recorded: [], news: [] });
  });

  it("nobody's when no open one has this code", async () => {
    expect(await reply(receiver, '5', [])).toEqual({ text: null, recorded: [], news: [] });
  });
});

describe('two babies with one code', () => {
  const two = [left, referral({ key: 'referral:alert:b2', baby: 'b2', worker: '+254700555209' })];

  it('are told apart by the last digits of the worker', async () => {
    const asked = await reply(receiver, '5', two);
    expect(asked.recorded).toEqual([]);
    expect(asked.text).toContain('7FK 201 (Mwangaza HC), 7FK 209 (Mwangaza HC)');
    expect((await reply(receiver, '209 1', two)).recorded[0]).toMatchObject({ news: 'left', referral: 'referral:alert:b2' });
    expect((await reply(receiver, '201 5', two)).recorded[0]).toMatchObject({ news: 'arrived', referral: 'referral:alert:b1' });
  });

  it('are shown again when no worker has these digits', async () => {
    expect((await reply(receiver, '999 5', two)).text).toContain('7FK 201');
  });

  it('are one where only one of them is hers', async () => {
    const other = referral({ key: 'referral:alert:b2', baby: 'b2', facility: 'kilima', receiving: 'ziwa' });
    expect((await reply(receiver, '5', [other, left])).recorded[0]).toMatchObject({ referral: 'referral:alert:b1' });
  });
});

describe('the code alone, while another nurse has the alert', () => {
  const asked = (person: typeof nurse, state: ReferralRecord['state']) => {
    const findReferrals = async () => [referral({ state })];
    const register = { findReferrals, alertOf: async () => null, record: async () => {} };
    return askAwaiting(person, '7FK', morning + hour, { ...parts, register });
  };

  it('asks her who waits for the baby what the referral waits for', async () => {
    expect(await asked(receiver, 'left')).toBe(question);
    expect(await asked(receiver, 'arrived')).toContain('how is the baby?');
  });

  it('asks nobody else, and nobody before the baby has left', async () => {
    expect(await asked(nurse, 'left')).toBeNull();
    expect(await asked(receiver, 'advised')).toBeNull();
  });
});
