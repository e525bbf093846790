// What `pipit cost` counts is what happens: the texts that it walks with get the same replies from the whole application, over
// its stores. And the ways that it walks are what they claim to be.

import { expect, it } from 'vitest';
import { buildApplication } from '../../src/cli/application.ts';
import { bindBook } from '../../src/conversation/book.ts';
import type { Channel } from '../../src/conversation/ports.ts';
import { rosterOf } from '../../src/conversation/roster.ts';
import { chanceFrom } from '../../src/economy/chance.ts';
import { type CostOptions, changesBetween, costsOf } from '../../src/economy/costs.ts';
import { allMarked, allNormal, byChance, type Prevalence, quickest } from '../../src/economy/manners.ts';
import { type Manner, walk } from '../../src/economy/walk.ts';
import { measure } from '../../src/messages/segments.ts';
import { inForce, published } from '../support/desk.ts';
import { memorySessions } from '../support/memory-stores.ts';
import { openTestRegister } from '../support/test-register.ts';

const files = published();
const book = bindBook(files);
const { catalogues } = files;
const screen = { gsm7: 182, ucs2: 70 };
const now = Date.UTC(2026, 0, 15, 9, 30);
const languages = [...catalogues.byTag.keys()];
const never: Prevalence = { otherwise: 0, signs: {}, values: {} };
const walked = (manner: Manner, language: string, channel: Channel = 'sms') =>
  walk(manner, { book, catalogues, language, channel, screen, now });
const words = (language: string) => ({ catalogues, language });

/** The same texts to the application. The first one ever, with its cautions, is not counted. */
async function replayed(sent: readonly string[], language: string, channel: Channel): Promise<string[]> {
  const phone = '+254700555301';
  let [at, keyed, messages] = [now, '', 0];
  const { receive } = buildApplication({
    stores: { sessions: memorySessions(), register: openTestRegister() },
    roster: rosterOf({
      ...{ shifts: [], leave: [] },
      facilities: [{ id: 'marula', name: '', zone: 'UTC', nurse: '', above: null, refersTo: null, travelMinutes: null }],
      people: [{ phone, name: 'Invented Worker', roles: ['worker'], facility: 'marula', language, mayInject: false }],
    }),
    ...{ published: inForce, screen, now: () => at, log: { info: () => {}, warn: () => {}, error: () => {} } },
    send: async () => ({ kind: 'unknown' }),
  });
  await receive({ channel: 'sms', from: phone, id: 'first', text: 'MENU' });
  const replies: string[] = [];
  for (const text of sent) {
    keyed = [keyed, text].filter((part) => part !== '').join('*');
    const what = channel === 'sms' ? { text } : { text: keyed, dial: 'call' };
    replies.push((await receive({ channel, from: phone, id: `m${messages}`, ...what })).text);
    messages += 1;
    at = now + 1000 * messages;
  }
  return replies;
}

/** A baby's code follows from the phone and the message, which the walk has not. */
const withoutCode = (text: string): string => text.replace(/[2-9२-९][A-Z]{2}/u, 'CODE');

const played: readonly (readonly [string, Channel])[] = languages.flatMap((language) => [
  [language, 'sms'] as const,
  [language, 'ussd'] as const,
]);

it.each(played)('what is walked in %s by %s is what the application says, text for text', async (language, channel) => {
  for (const manner of [allNormal(words(language)), quickest(words(language), book)]) {
    const { exchanged } = walked(manner, language, channel);
    const replies = await replayed(
      exchanged.map(({ sent }) => sent),
      language,
      channel,
    );
    expect(replies.map(withoutCode)).toEqual(exchanged.map(({ reply }) => withoutCode(reply)));
  }
});

it.each(languages)('a well baby is found well in %s, sooner by a quick report, which begins with one segment', (language) => {
  const [normal, quick] = [walked(allNormal(words(language)), language), walked(quickest(words(language), book), language)];
  expect([normal.urgency, quick.urgency]).toEqual(['routine', 'routine']);
  expect(quick.exchanges).toBeLessThan(normal.exchanges);
  expect(measure(quick.exchanged[0]?.sent ?? '').segments).toBe(1);
});

it('everything marked is urgent, and dearer than anything that chance finds', () => {
  const most = walked(allMarked(words('en')), 'en');
  expect(most.urgency).toBe('urgent');
  const chance = chanceFrom(7);
  for (let n = 0; n < 20; n += 1)
    expect(walked(byChance(words('en'), { ...never, otherwise: 0.2 }, chance), 'en').exchanges).toBeLessThanOrEqual(most.exchanges);
});

it('where nothing is ever met, chance walks as all normal does', () => {
  expect(walked(byChance(words('en'), never, chanceFrom(1)), 'en')).toEqual(walked(allNormal(words('en')), 'en'));
});

it('a sign that is always met is always marked, and a value that always differs is sent', () => {
  const manner = byChance(
    words('en'),
    { otherwise: 0, signs: { grunting: 1 }, values: { temperature: [{ send: '35.1', share: 1 }] } },
    chanceFrom(1),
  );
  const { exchanged, urgency } = walked(manner, 'en');
  expect(urgency).toBe('urgent');
  expect(exchanged.some(({ sent }) => sent.startsWith('35.1 '))).toBe(true);
});

const options: CostOptions = {
  ...{ languages: ['en'], walks: 5, seed: 3, secondsPerExchange: 8, secondsPerCall: 180, screen, now },
  prevalence: { ...never, otherwise: 0.01 },
};

it('the same seed costs the same, and minutes and calls follow from the exchanges', () => {
  const costs = costsOf(files, options);
  expect(costsOf(files, options)).toEqual(costs);
  expect(costs.map(({ channel, way }) => `${channel} ${way}`)).toEqual(
    ['sms', 'ussd'].flatMap((channel) => ['quickest', 'all normal', 'all marked', 'expected'].map((way) => `${channel} ${way}`)),
  );
  for (const { exchanges, minutes, calls, channel, way } of costs) {
    expect(minutes).toBeCloseTo((exchanges * 8) / 60, 9);
    if (channel === 'sms') expect(calls).toBe(0);
    else if (way !== 'expected') expect(calls).toBe(Math.ceil((exchanges * 8) / 180));
  }
});

it('of two versions, what costs the same is left out', () => {
  const [first, ...rest] = costsOf(files, options);
  if (first === undefined) throw new Error('No cost.');
  const dearer = { ...first, segmentsOut: first.segmentsOut + 1 };
  expect(changesBetween([first, ...rest], [dearer, ...rest])).toEqual([{ before: first, after: dearer }]);
  expect(changesBetween(rest, [first, ...rest])).toEqual([]);
});
