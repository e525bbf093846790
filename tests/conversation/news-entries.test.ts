// Who is told of news, and what is asked next.

import { describe, expect, it } from 'vitest';
import { newsEntries } from '../../src/conversation/news-entries.ts';
import type { NewsFact } from '../../src/conversation/news-fact.ts';
import type { AlertRecord, Entry } from '../../src/conversation/records.ts';
import type { BabyNewsFact, ReferralNewsFact } from '../../src/dialog/facts.ts';
import { clock, colleague, coordinator, hour, morning, nurse, parts, receiver, worker } from './ward.ts';

const named = {
  baby: 'b1',
  code: '7FK',
  worker: worker.phone,
  facility: 'mwangaza',
  at: morning,
  sex: 'girl',
  bornAt: morning - 5 * hour,
} as const;

function referralNews(news: ReferralNewsFact['news'], by = worker.phone, reason: ReferralNewsFact['reason'] = null): ReferralNewsFact {
  return { kind: 'referral-news', key: 'referral-news:m1', referral: 'referral:alert:b1', news, reason, by, ...named };
}

function babyNews(news: BabyNewsFact['news'], more: Partial<BabyNewsFact> = {}): BabyNewsFact {
  return { kind: 'baby-news', key: 'baby-news:m1', news, to: null, referral: null, by: worker.phone, ...named, ...more };
}

const openAlert: AlertRecord = {
  ...{ key: 'alert:b1', baby: 'b1', code: '7FK', worker: worker.phone, facility: 'mwangaza', nurse: nurse.phone },
  ...{ asked: [nurse.phone], askedNow: [nurse.phone], at: morning, state: 'taken', takenBy: receiver.phone, body: {} },
};

const texts = (entries: readonly Entry[]): [string, string][] =>
  entries.flatMap((one) => (one.kind === 'text' ? [[one.to, one.text]] : []));
const dues = (entries: readonly Entry[]): unknown[] => entries.flatMap((one) => (one.kind === 'due' ? [[one.work, clock(one.dueAt)]] : []));

describe('news of a referral', () => {
  it('is kept as it was told, with who told it', () => {
    const told = {
      kind: 'referral-news',
      key: 'referral-news:m1',
      referral: 'referral:alert:b1',
      news: 'not-left',
      reason: null,
      at: morning,
    };
    expect(newsEntries(referralNews('not-left'), parts)).toEqual([{ ...told, by: worker.phone }]);
    expect(newsEntries(referralNews('not-left', nurse.phone), parts)).toEqual([{ ...told, by: nurse.phone }]);
  });

  it('that the baby left announces it there at once, and asks when it is due there: the way takes forty minutes', () => {
    expect(dues(newsEntries(referralNews('left'), parts))).toEqual([
      ['referral-arrived', '25/11 0930'],
      ['referral-arrived', '25/11 1010'],
    ]);
  });

  it('that the family refuses tells the nurse at once, with the reason, and has the baby visited from the next day', () => {
    const entries = newsEntries(referralNews('refused', undefined, 'cost'), parts);
    const said =
      '7FK girl 5 h, Mwangaza HC: family REFUSES to go (cost). Ring worker +254700555201 today. Treatment there only by your order.';
    expect(texts(entries)).toEqual([[nurse.phone, said]]);
    expect(dues(entries)).toEqual([['refusal-visit', '26/11 0930']]);
    expect(entries[0]).toMatchObject({ news: 'refused', reason: 'cost' });
  });

  it('that comes again with the reason tells the nurse nothing twice', () => {
    const first = newsEntries(referralNews('refused'), parts);
    const again = newsEntries({ ...referralNews('refused', undefined, 'fear'), key: 'referral-news:m2' }, parts);
    expect(texts(first)).toEqual([[nurse.phone, expect.stringContaining('REFUSES to go. Ring')]]);
    expect(again.map(({ key }) => key)).toEqual(['referral-news:m2', ...first.slice(1).map(({ key }) => key)]);
  });

  it('that it arrived, told by the hospital, is told to the worker, and what becomes of it is asked after a day', () => {
    const entries = newsEntries(referralNews('arrived', receiver.phone), parts);
    expect(texts(entries)).toEqual([[worker.phone, '7FK girl 5 h has arrived at Mto Hospital.']]);
    expect(dues(entries)).toEqual([['referral-outcome', '26/11 0930']]);
  });

  it('that it is still in care says that it arrived, whether or not anybody said so before', () => {
    expect(dues(newsEntries(referralNews('still-in-care', receiver.phone), parts))).toEqual([['referral-outcome', '26/11 0930']]);
  });

  it('that it is not there is told to the worker, with whom to ring', () => {
    const [[to, said] = []] = texts(newsEntries(referralNews('not-arrived', receiver.phone), parts));
    expect(to).toBe(worker.phone);
    expect(said).toContain(`NOT arrived at Mto Hospital. Find out where the baby is. Ring ${receiver.phone}`);
  });

  it.each(['arrived', 'not-arrived', 'home-well', 'left', 'not-left', 'not-known', 'still-in-care'] as const)(
    'from the worker is not told to the worker: %s',
    (news) => {
      expect(texts(newsEntries(referralNews(news), parts))).toEqual([]);
    },
  );

  it('has nothing to ask of a place without a hospital but the worker', () => {
    expect(dues(newsEntries({ ...referralNews('left'), facility: 'bonde' }, parts))).toEqual([
      ['referral-arrived', '25/11 0930'],
      ['referral-arrived', '25/11 1130'],
    ]);
  });
});

describe('a death', () => {
  it('told by the worker is told plainly to the nurse and the coordinator, and the worker gets no text', () => {
    const entries = newsEntries(babyNews('died', { referral: 'referral:alert:b1' }), parts);
    const said = '7FK girl 5 h, Mwangaza HC: the baby has died. Reported by Atieno Were. Worker +254700555201.';
    expect(texts(entries)).toEqual([
      [nurse.phone, said],
      [coordinator.phone, said],
    ]);
    expect(entries[0]).toMatchObject({ kind: 'baby-news', news: 'died', baby: 'b1' });
    expect(dues(entries)).toEqual([]);
  });

  it('of a baby for whom nobody was waiting is told to the coordinator only', () => {
    expect(texts(newsEntries(babyNews('died'), parts)).map(([to]) => to)).toEqual([coordinator.phone]);
  });

  it('goes to the nurse who has the alert, whoever is on call', () => {
    const entries = newsEntries(babyNews('died'), { ...parts, openAlert });
    expect(texts(entries).map(([to]) => to)).toEqual([receiver.phone, coordinator.phone]);
  });

  it('goes to all who are asked while nobody has the alert', () => {
    const asked = [nurse.phone, receiver.phone];
    const open: AlertRecord = { ...openAlert, state: 'open', takenBy: null, asked, askedNow: asked };
    const entries = newsEntries(babyNews('died'), { ...parts, openAlert: open });
    expect(texts(entries).map(([to]) => to)).toEqual([...asked, coordinator.phone]);
  });

  it('told by the hospital ends the referral and the following, and the worker hears it once, with care', () => {
    const entries = newsEntries(referralNews('died', receiver.phone), parts);
    expect(entries.slice(0, 2)).toMatchObject([
      { kind: 'referral-news', news: 'died' },
      { kind: 'baby-news', news: 'died', baby: 'b1', by: receiver.phone },
    ]);
    const [, , [to, said] = []] = texts(entries);
    expect(to).toBe(worker.phone);
    expect(said).toContain('We are sorry.');
    expect(dues(entries)).toEqual([]);
  });

  it('told by both sides is written once', () => {
    const keys = (fact: NewsFact): string[] => newsEntries(fact, parts).map(({ key }) => key);
    const both = [...keys(babyNews('died', { referral: 'r' })), ...keys(referralNews('died', receiver.phone))];
    expect(both.filter((key) => key === 'died:b1')).toHaveLength(2);
    expect(both.filter((key) => key === `death-told:b1:${coordinator.phone}`)).toHaveLength(2);
  });
});

describe('a baby that is handed over', () => {
  it('is announced to its new worker in her language', () => {
    const entries = newsEntries(babyNews('handed-over', { to: colleague.phone }), parts);
    expect(entries[0]).toMatchObject({ kind: 'baby-news', news: 'handed-over', to: colleague.phone, by: worker.phone });
    const [[to, said] = []] = texts(entries);
    expect(to).toBe(colleague.phone);
    expect(said).toMatch(/^7FK wa kike .*Atieno Were \+254700555201/);
  });

  it('may be handed over again by another message', () => {
    const key = (message: string): string[] =>
      newsEntries({ ...babyNews('handed-over', { to: colleague.phone }), key: message }, parts).map((one) => one.key);
    expect(key('baby-news:m1').filter((one) => key('baby-news:m2').includes(one))).toEqual([]);
  });
});

describe('a family that moves away', () => {
  it('is told to the nurse while a referral is open, for nothing more is asked', () => {
    const [[to, said] = []] = texts(newsEntries(babyNews('moved', { referral: 'referral:alert:b1' }), parts));
    expect(to).toBe(nurse.phone);
    expect(said).toContain('moved away with the referral open');
  });

  it('is told to nobody else', () => {
    expect(texts(newsEntries(babyNews('moved'), parts))).toEqual([]);
  });
});

describe('the same news twice', () => {
  const all: readonly NewsFact[] = [
    ...(['left', 'not-left', 'refused', 'arrived', 'not-arrived', 'home-well', 'still-in-care', 'died', 'not-known'] as const).map((news) =>
      referralNews(news, receiver.phone),
    ),
    babyNews('died'),
    babyNews('moved', { referral: 'r' }),
    babyNews('handed-over', { to: colleague.phone }),
  ];

  it.each(all.map((fact) => [`${fact.kind} ${fact.news}`, fact] as const))('gives the same entries: %s', (_, fact) => {
    const once = newsEntries(fact, parts);
    expect(newsEntries(structuredClone(fact), parts)).toEqual(once);
    expect(new Set(once.map(({ key }) => key)).size).toBe(once.length);
  });

  it.each(all.map((fact) => [`${fact.kind} ${fact.news}`, fact] as const))('never names a baby but by code, sex and age: %s', (_, fact) => {
    for (const [, said] of texts(newsEntries(fact, parts))) expect(said).toMatch(/^7FK (girl|wa kike)/);
  });
});
