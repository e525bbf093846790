// What the door for delivery reports takes, and what it turns away. The words for the state of a text are those of the gateway's
// published interface (its list of message statuses), from memory.

import { describe, expect, test } from 'vitest';
import { statusAddress } from '../../../src/channels/sms/status.ts';
import type { DeliveryReport } from '../../../src/conversation/records.ts';
import { textReference } from '../../../src/conversation/text-reference.ts';
import { openDoors, PUBLIC_URL, postForm } from '../../support/channel-doors.ts';
import { sign } from '../../support/channel-sms.ts';

const reference = textReference('nurse:alert:+254700000321-SM1');
const address = statusAddress(PUBLIC_URL, reference);

async function openStatusDoor(report?: () => Promise<void>) {
  const told: (readonly [string, DeliveryReport])[] = [];
  const doors = await openDoors({
    report: async (of, what) => {
      await report?.();
      told.push([of, what]);
    },
  });
  const post = (form: Readonly<Record<string, string>>, url = address, signature = sign(form, url)) =>
    postForm(`${doors.url}${url.slice(PUBLIC_URL.length)}`, form, { 'x-twilio-signature': signature });
  return { told, post, doors };
}

describe('a delivery report', () => {
  test.each([
    ['sent', {}, { kind: 'sent', gatewayId: 'SM42' }],
    ['delivered', {}, { kind: 'delivered', gatewayId: 'SM42' }],
    ['undelivered', { ErrorCode: '30003' }, { kind: 'failed', reason: 'undelivered 30003', gatewayId: 'SM42' }],
    ['failed', {}, { kind: 'failed', reason: 'failed', gatewayId: 'SM42' }],
  ])('"%s" is told of the text in its address', async (MessageStatus, more, report) => {
    const { told, post } = await openStatusDoor();
    expect((await post({ MessageSid: 'SM42', MessageStatus, ...more })).status).toBe(204);
    expect(told).toEqual([[reference, report]]);
  });

  test.each(['accepted', 'queued', 'sending', 'a-word-of-tomorrow'])('"%s" says nothing yet', async (MessageStatus) => {
    const { told, post } = await openStatusDoor();
    expect((await post({ MessageSid: 'SM42', MessageStatus })).status).toBe(204);
    expect(told).toEqual([]);
  });

  test.each([
    ['a forged signature', { MessageSid: 'SM42', MessageStatus: 'delivered' }, address, 'forged', 403],
    [
      'the signature of another text',
      { MessageSid: 'SM42', MessageStatus: 'delivered' },
      `${PUBLIC_URL}/sms/status?text=${'0'.repeat(32)}`,
      sign({ MessageSid: 'SM42', MessageStatus: 'delivered' }, address),
      403,
    ],
    ['no text in its address', { MessageSid: 'SM42', MessageStatus: 'delivered' }, `${PUBLIC_URL}/sms/status`, undefined, 400],
    [
      'a reference that is none',
      { MessageSid: 'SM42', MessageStatus: 'delivered' },
      `${PUBLIC_URL}/sms/status?text=__proto__`,
      undefined,
      400,
    ],
    ['no state', { MessageSid: 'SM42' }, address, undefined, 400],
    ['an error code that is no number', { MessageSid: 'SM42', MessageStatus: 'failed', ErrorCode: '<script>' }, address, undefined, 400],
  ])('with %s is refused', async (_, form, url, signature, status) => {
    const { told, post } = await openStatusDoor();
    expect((await post(form as Record<string, string>, url, signature)).status).toBe(status);
    expect(told).toEqual([]);
  });

  test('that cannot be written is asked for again, and logged without the reference', async () => {
    const { post, doors } = await openStatusDoor(() => Promise.reject(new Error('away')));
    expect((await post({ MessageSid: 'SM42', MessageStatus: 'delivered' })).status).toBe(500);
    expect(doors.logged.join('')).not.toContain(reference);
  });

  test('names a text without the number in its key', () => {
    expect(reference).toMatch(/^[0-9a-f]{32}$/);
    expect(address).not.toContain('254700000321');
  });
});
