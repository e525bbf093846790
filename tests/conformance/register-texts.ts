// What every register promises of texts to send: claimed by one sender at a time, sent again in growing pauses.
// Claims see every text of a store, so each test first takes what others left. Next: register.ts.

import { beforeEach, describe, expect, it } from 'vitest';
import type { Sent, TextOut } from '../../src/conversation/records.ts';
import type { Resending } from '../../src/register/resending.ts';
import { noon, text } from './entries.ts';
import type { RegisterHarness } from './register.ts';

const CLAIM = 30_000;
const NEVER = 1e15;

/** The pauses a harness must give its register. */
export const testResending: Resending = { urgentPausesMilliseconds: [1_000, 3_000, 9_000], otherPausesMilliseconds: [60_000, 180_000] };

export function textsConformance(store: string, harness: () => RegisterHarness): void {
  const record = (...entries: Parameters<typeof text>[0][]) => {
    const texts = entries.map((changes) => text(changes));
    return harness()
      .register.record(texts)
      .then(() => texts.map(({ key }) => key));
  };
  const claim = (at: number, limit = 100) => harness().register.claimTexts(at, limit, CLAIM);
  const settle = (key: string, sent: Sent, at: number) => harness().register.settleText(key, sent, at);
  const stateOf = async (key: string) =>
    (await harness().database.query('select state, due_at, attempts, gateway_id, reason from texts_out where key = $1', [key]))[0];

  describe(`texts to send in ${store}`, () => {
    beforeEach(async () => {
      await harness().database.query(`update texts_out set state = 'sent' where state = 'due'`);
    });

    it('are claimed urgent ones first, then in the order they were queued', async () => {
      const keys = await record({ at: noon + 2 }, { at: noon + 1 }, { at: noon + 4, urgent: true }, { at: noon + 3, urgent: true });
      const claimed = await claim(noon + 10);
      expect(claimed.map(({ key }) => key)).toEqual([keys[3], keys[2], keys[1], keys[0]]);
    });

    it('are handed over whole', async () => {
      const [key] = await record({ to: '+254700000009', text: 'The words', urgent: true });
      expect(await claim(noon)).toStrictEqual([{ key, to: '+254700000009', text: 'The words', urgent: true, attempts: 1 }]);
    });

    it('are claimed no more at a time than asked for, urgent ones first', async () => {
      const keys = await record({}, {}, { urgent: true });
      expect((await claim(noon, 1)).map(({ key }) => key)).toEqual([keys[2]]);
      expect(await claim(noon, 1)).toHaveLength(1);
      expect(await claim(noon, 5)).toHaveLength(1);
    });

    it('are not due before their time', async () => {
      await record({ at: noon + 1 });
      expect(await claim(noon)).toEqual([]);
      expect(await claim(noon + 1)).toHaveLength(1);
    });

    it('are not claimed again while a claim lasts, and are when it ran out without news', async () => {
      const [key] = await record({});
      await claim(noon);
      expect(await claim(noon + CLAIM - 1)).toEqual([]);
      expect(await claim(noon + CLAIM)).toMatchObject([{ key, attempts: 2 }]);
    });

    it('are never held by two of four senders', async () => {
      const keys = await record(...Array.from({ length: 40 }, () => ({})));
      const drain = async (): Promise<TextOut[]> => {
        const claimed = await claim(noon, 3);
        return claimed.length === 0 ? [] : [...claimed, ...(await drain())];
      };
      const held = (await Promise.all([drain(), drain(), drain(), drain()])).flat().map(({ key }) => key);
      expect(held.sort()).toEqual([...keys].sort());
    });

    it('once sent are not sent again, and no later news changes that', async () => {
      const [key = ''] = await record({ urgent: true });
      await claim(noon);
      await settle(key, { kind: 'sent', gatewayId: 'SM1' }, noon);
      await settle(key, { kind: 'failed', reason: 'late news' }, noon);
      await settle(key, { kind: 'unknown' }, noon);
      expect(await stateOf(key)).toMatchObject({ state: 'sent', gateway_id: 'SM1', reason: null });
      expect(await claim(NEVER)).toEqual([]);
    });

    it.each([
      { urgent: true, sent: { kind: 'failed', reason: 'no route' }, pauses: testResending.urgentPausesMilliseconds },
      { urgent: false, sent: { kind: 'failed', reason: 'no route' }, pauses: testResending.otherPausesMilliseconds },
      { urgent: true, sent: { kind: 'unknown' }, pauses: testResending.urgentPausesMilliseconds },
    ] as const)('urgent $urgent, $sent.kind: due again after each pause, then given up', async ({ urgent, sent, pauses }) => {
      const [key = ''] = await record({ urgent });
      let at = noon;
      for (const pause of pauses) {
        expect(await claim(at)).toMatchObject([{ key }]);
        await settle(key, sent, at);
        expect(await claim(at + pause - 1)).toEqual([]);
        at += pause;
      }
      expect(await claim(at)).toMatchObject([{ key, attempts: pauses.length + 1 }]);
      await settle(key, sent, at);
      expect(await stateOf(key)).toMatchObject({ state: 'given-up', reason: sent.kind === 'failed' ? 'no route' : null });
      expect(await claim(NEVER)).toEqual([]);
    });

    it('whose fate is unknown are not sent again when they are not urgent', async () => {
      const [key = ''] = await record({});
      await claim(noon);
      await settle(key, { kind: 'unknown' }, noon);
      expect(await stateOf(key)).toMatchObject({ state: 'unknown' });
      expect(await claim(NEVER)).toEqual([]);
    });

    it('that are not urgent are not claimed again once their sending has begun, unless it failed', async () => {
      const [key = '', urgent = ''] = await record({}, { urgent: true });
      await claim(noon);
      expect(await Promise.all([key, urgent].map((one) => harness().register.beginSending(one, noon)))).toEqual([true, true]);
      expect(await harness().register.beginSending(key, noon)).toBe(false);
      expect(await claim(noon + CLAIM)).toMatchObject([{ key: urgent, attempts: 2 }]);
      await settle(key, { kind: 'failed', reason: 'no route' }, noon + CLAIM);
      expect(await claim(NEVER)).toContainEqual(expect.objectContaining({ key, attempts: 2 }));
    });

    it('once sent are not begun again', async () => {
      const [key = ''] = await record({});
      await claim(noon);
      await harness().register.beginSending(key, noon);
      await settle(key, { kind: 'sent', gatewayId: 'SM1' }, noon + 1);
      expect(await stateOf(key)).toMatchObject({ state: 'sent', gateway_id: 'SM1' });
      expect(await harness().register.beginSending(key, noon + 2)).toBe(false);
    });

    it('whose fate was unknown are due again when the gateway says that they failed', async () => {
      const [key = ''] = await record({});
      await claim(noon);
      await settle(key, { kind: 'unknown' }, noon);
      await settle(key, { kind: 'failed', reason: 'no route' }, noon + 5);
      expect(await claim(noon + 5 + (testResending.otherPausesMilliseconds[0] ?? NEVER))).toMatchObject([{ key }]);
    });

    it('that kill every sender are given up in the end', async () => {
      const [key = ''] = await record({});
      let [at, claims] = [noon, 0];
      for (; (await claim(at)).length > 0 && claims < 20; at += CLAIM) claims += 1;
      expect(claims).toBe(testResending.otherPausesMilliseconds.length + 1);
      expect(await stateOf(key)).toMatchObject({ state: 'given-up' });
    });

    it('that nobody queued are settled without harm', async () => {
      await expect(settle('no-such-text', { kind: 'unknown' }, noon)).resolves.toBeUndefined();
    });

    it('that are urgent and were given up are told of once, with what is written for them; others are not', async () => {
      const [given, other, reported, sent] = await record({ urgent: true }, {}, { urgent: true }, { urgent: true });
      const tell = async (at: number): Promise<string[]> => {
        const told: string[] = [];
        await harness().register.tellOfLost(at, 100, ({ key }) => {
          told.push(key);
          return [text({ key: `lost:${key}`, urgent: true, at })];
        });
        return told;
      };
      await tell(noon);
      const end = (state: string, keys: readonly (string | undefined)[]) =>
        harness().database.query('update texts_out set state = $2 where key = any($1)', [keys, state]);
      await end('given-up', [given, other]);
      await end('undelivered', [reported]);
      await end('delivered', [sent]);
      const [once, twice] = await Promise.all([tell(noon + 1), tell(noon + 1)]);
      expect([...once, ...twice].sort()).toEqual([given, reported].sort());
      expect(await tell(noon + 2)).toEqual([]);
      // What tells of a lost text is sent like any other, and when it is lost too there is nobody left to tell.
      expect(await stateOf(`lost:${given}`)).toMatchObject({ state: 'due' });
      await end('given-up', [`lost:${given}`]);
      expect(await tell(noon + 3)).toEqual([]);
    });

    it('that are lost are told of later where telling breaks', async () => {
      const [key] = await record({ urgent: true });
      await harness().database.query(`update texts_out set state = 'given-up' where key = $1`, [key]);
      const broken = harness().register.tellOfLost(noon, 100, () => {
        throw new Error('broken on purpose');
      });
      await expect(broken).rejects.toThrow('broken on purpose');
      const told: string[] = [];
      await harness().register.tellOfLost(noon, 100, (lost) => {
        told.push(lost.key);
        return [];
      });
      expect(told).toContain(key);
    });
  });
}
