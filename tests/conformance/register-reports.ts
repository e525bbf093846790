// What every register promises of delivery reports: they come twice, late, out of order, and before the answer to the sending.
// Each row of the table is a text's life, told from its first claim. Next: register-texts.ts.

import { describe, expect, it } from 'vitest';
import type { DeliveryReport, Sent } from '../../src/conversation/records.ts';
import { textReference } from '../../src/conversation/text-reference.ts';
import { noon, text } from './entries.ts';
import type { RegisterHarness } from './register.ts';
import { testResending } from './register-texts.ts';

const HOUR = 3_600_000;
const NEVER = 1e15;

type Step = 'claim' | { readonly settle: Sent } | { readonly report: DeliveryReport };

const claim: Step = 'claim';
const sent = (gatewayId: string): Step => ({ settle: { kind: 'sent', gatewayId } });
const unknown: Step = { settle: { kind: 'unknown' } };
const refused: Step = { settle: { kind: 'failed', reason: 'no route' } };
const reports = (kind: 'sent' | 'delivered', gatewayId?: string): Step => ({ report: { kind, ...(gatewayId ? { gatewayId } : {}) } });
const reportsFailed = (gatewayId?: string): Step => ({ report: { kind: 'failed', reason: '30003', ...(gatewayId ? { gatewayId } : {}) } });

const lives: readonly { readonly life: string; readonly urgent?: true; readonly steps: readonly Step[]; readonly ends: string }[] = [
  { life: 'sent and delivered', steps: [claim, sent('1'), reports('sent', '1'), reports('delivered', '1')], ends: 'delivered' },
  {
    life: 'delivered, and then said to be sent, failed and unknown',
    steps: [claim, sent('1'), reports('delivered', '1'), reports('sent', '1'), reportsFailed('1'), unknown],
    ends: 'delivered',
  },
  { life: 'delivered before the answer to the sending', steps: [claim, reports('delivered', '1'), sent('1')], ends: 'delivered' },
  { life: 'delivered, although the sending failed', steps: [claim, refused, reports('delivered', '1')], ends: 'delivered' },
  { life: 'whose answer was lost, then said to be sent', steps: [claim, unknown, reports('sent', '1')], ends: 'sent' },
  {
    life: 'urgent, whose answer was lost, then said to be sent',
    urgent: true,
    steps: [claim, unknown, reports('sent', '1')],
    ends: 'sent',
  },
  { life: 'said to be sent before its lost answer', steps: [claim, reports('sent', '1'), unknown], ends: 'sent' },
  { life: 'whose answer was lost, then said to have failed', steps: [claim, unknown, reportsFailed('1')], ends: 'due' },
  { life: 'sent, then said to have failed', steps: [claim, sent('1'), reportsFailed('1')], ends: 'due' },
  { life: 'sent, then said to have failed, without an id', steps: [claim, sent('1'), reportsFailed()], ends: 'due' },
  { life: 'said to have failed before the answer to the sending', steps: [claim, reportsFailed('1'), sent('1')], ends: 'due' },
  { life: 'said to have failed before the answer, without an id', steps: [claim, reportsFailed(), sent('1')], ends: 'due' },
  { life: 'said to have failed before its answer was lost', steps: [claim, reportsFailed('1'), unknown], ends: 'due' },
  {
    life: 'failed, sent again, and the first failure told again',
    steps: [claim, sent('1'), reportsFailed('1'), claim, sent('2'), reportsFailed('1')],
    ends: 'sent',
  },
  {
    life: 'failed, and told again while it is sent again',
    steps: [claim, sent('1'), reportsFailed('1'), claim, reportsFailed('1'), sent('2')],
    ends: 'sent',
  },
  {
    life: 'failed, its second sending not answered, the first said late to have been sent',
    steps: [claim, sent('1'), reportsFailed('1'), claim, unknown, reports('sent', '1')],
    ends: 'unknown',
  },
  {
    life: 'failed, told again while it is sent again, and that sending not answered',
    steps: [claim, sent('1'), reportsFailed('1'), claim, reportsFailed('1'), unknown],
    ends: 'unknown',
  },
  { life: 'failed, then said late to have been sent', steps: [claim, sent('1'), reportsFailed('1'), reports('sent', '1')], ends: 'due' },
  {
    life: 'failed, sent again, the first said late to have been sent, the second failing',
    steps: [claim, sent('1'), reportsFailed('1'), claim, reports('sent', '1'), refused],
    ends: 'due',
  },
  {
    life: 'failed without an id, then said late to have been sent',
    steps: [claim, sent('1'), reportsFailed(), reports('sent')],
    ends: 'due',
  },
  {
    life: 'failed each time',
    steps: [claim, sent('1'), reportsFailed('1'), claim, sent('2'), reportsFailed('2'), claim, sent('3'), reportsFailed('3')],
    ends: 'undelivered',
  },
  {
    life: 'not delivered in the end, and told so again',
    steps: [
      claim,
      sent('1'),
      reportsFailed('1'),
      claim,
      sent('2'),
      reportsFailed('2'),
      claim,
      sent('3'),
      reportsFailed('3'),
      reportsFailed('3'),
      sent('3'),
      reports('sent', '3'),
    ],
    ends: 'undelivered',
  },
  {
    life: 'not delivered in the end, as it seemed, and delivered after all',
    steps: [
      claim,
      sent('1'),
      reportsFailed('1'),
      claim,
      sent('2'),
      reportsFailed('2'),
      claim,
      sent('3'),
      reportsFailed('3'),
      reports('delivered', '1'),
    ],
    ends: 'delivered',
  },
  {
    life: 'given up, and said late to have been sent',
    steps: [claim, refused, claim, refused, claim, refused, reports('sent', '1')],
    ends: 'sent',
  },
  {
    life: 'given up, and said to have failed',
    steps: [claim, refused, claim, refused, claim, refused, reportsFailed('1')],
    ends: 'given-up',
  },
  { life: 'reported before anybody sent it', steps: [reportsFailed('1')], ends: 'due' },
];

export function reportsConformance(store: string, harness: () => RegisterHarness): void {
  describe(`delivery reports in ${store}`, () => {
    it.each(lives)('a text $life: $ends', async ({ urgent = false, steps, ends }) => {
      await harness().database.query(`update texts_out set state = 'sent' where state = 'due'`);
      const entry = text({ urgent });
      await harness().register.record([entry]);
      let at = noon;
      for (const step of steps) {
        at += step === 'claim' ? HOUR : 1;
        if (step === 'claim') expect(await harness().register.claimTexts(at, 9, HOUR)).toMatchObject([{ key: entry.key }]);
        else if ('settle' in step) await harness().register.settleText(entry.key, step.settle, at);
        else await harness().register.reportText(textReference(entry.key), step.report, at);
      }
      expect(await harness().database.query('select state from texts_out where key = $1', [entry.key])).toEqual([{ state: ends }]);
      expect(await harness().register.claimTexts(NEVER, 9, HOUR)).toHaveLength(ends === 'due' ? 1 : 0);
    });

    it('a failed delivery is tried again after the pause of its attempt', async () => {
      await harness().database.query(`update texts_out set state = 'sent' where state = 'due'`);
      const entry = text({ urgent: true });
      const { register } = harness();
      await register.record([entry]);
      await register.claimTexts(noon, 1, HOUR);
      await register.settleText(entry.key, { kind: 'sent', gatewayId: '1' }, noon);
      await register.reportText(textReference(entry.key), { kind: 'failed', reason: '30003' }, noon + 500);
      const pause = testResending.urgentPausesMilliseconds[0] ?? NEVER;
      expect(await register.claimTexts(noon + 499 + pause, 1, HOUR)).toEqual([]);
      expect(await register.claimTexts(noon + 500 + pause, 1, HOUR)).toMatchObject([{ attempts: 2 }]);
      const [row] = await harness().database.query('select reason, reported_at from texts_out where key = $1', [entry.key]);
      expect(row).toEqual({ reason: '30003', reported_at: noon + 500 });
    });

    it('that name a text by the id of the gateway alone find it, at the phone that it went to', async () => {
      const [entry, other] = [text(), text({ to: '+254700000009' })];
      const { register } = harness();
      await register.record([entry, other]);
      for (const { key } of [entry, other]) await register.settleText(key, { kind: 'sent', gatewayId: 'the-same-id' }, noon);
      expect(await register.textSentAs('the-same-id', entry.to)).toBe(textReference(entry.key));
      expect(await register.textSentAs('the-same-id', other.to)).toBe(textReference(other.key));
      expect(await register.textSentAs('the-same-id', '+254700000010')).toBeNull();
      expect(await register.textSentAs('another-id\0', entry.to)).toBeNull();
    });

    it('of a text that nobody queued do no harm', async () => {
      await expect(harness().register.reportText(textReference('no-such-text'), { kind: 'delivered' }, noon)).resolves.toBeUndefined();
    });
  });

  describe(`texts that went out without ${store}`, () => {
    const stateOf = (key: string) => harness().database.query('select state, gateway_id from texts_out where key = $1', [key]);

    it('are written as sent, and never sent again', async () => {
      const entry = { ...text({ urgent: true }), gatewayId: 'SM1' };
      await harness().register.record([entry, text()]);
      expect(await stateOf(entry.key)).toEqual([{ state: 'sent', gateway_id: 'SM1' }]);
      expect((await harness().register.claimTexts(NEVER, 99, HOUR)).map(({ key }) => key)).not.toContain(entry.key);
    });

    it('are sent also when the register had taken them after all, and nobody had sent them yet', async () => {
      const entry = text({ urgent: true });
      await harness().register.record([entry]);
      await harness().register.record([{ ...entry, gatewayId: 'SM1' }]);
      expect(await stateOf(entry.key)).toEqual([{ state: 'sent', gateway_id: 'SM1' }]);
    });

    it('change nothing of what the gateway has reported', async () => {
      const entry = text({ urgent: true });
      await harness().register.record([entry]);
      await harness().register.reportText(textReference(entry.key), { kind: 'delivered', gatewayId: 'SM0' }, noon);
      await harness().register.record([{ ...entry, gatewayId: 'SM1' }]);
      expect(await stateOf(entry.key)).toEqual([{ state: 'delivered', gateway_id: 'SM0' }]);
    });
  });
}
