// Delivery reports of Kannel. Source of the numbers: Kannel user guide, "Delivery reports" (1 delivered to phone, 2 non-delivered to
// phone, 4 queued, 8 delivered to the centre, 16 refused by it).

import { expect, test } from 'vitest';
import type { DeliveryReport } from '../../../src/conversation/records.ts';
import { textReference } from '../../../src/conversation/text-reference.ts';
import { fromKannel, openKannelDoors } from '../../support/channel-kannel.ts';

const reference = textReference('nurse:alert:+254700000321-1');

async function openStatusDoor(report?: () => Promise<void>) {
  const told: (readonly [string, DeliveryReport])[] = [];
  const doors = await openKannelDoors({
    report: async (of, what) => {
      await report?.();
      told.push([of, what]);
    },
  });
  const bring = (query: string, headers = {}) => fromKannel(doors, { method: 'GET', path: `/kannel/status?${query}`, headers });
  return { told, bring, doors };
}

test.each([
  ['1', { kind: 'delivered', gatewayId: 's-1' }],
  ['2', { kind: 'failed', reason: 'undelivered', gatewayId: 's-1' }],
  ['8', { kind: 'sent', gatewayId: 's-1' }],
  ['16', { kind: 'failed', reason: 'rejected', gatewayId: 's-1' }],
])('kind %s is told of the sending in its address', async (kind, report) => {
  const { told, bring } = await openStatusDoor();
  expect((await bring(`text=${reference}&sending=s-1&type=${kind}`)).status).toBe(200);
  expect(told).toEqual([[reference, report]]);
});

test('a text that is queued is still on its way', async () => {
  const { told, bring } = await openStatusDoor();
  expect((await bring(`text=${reference}&sending=s-1&type=4`)).status).toBe(200);
  expect(told).toEqual([]);
});

test.each([
  ['no text', 'sending=s-1&type=1', {}, 400],
  ['a text that is no reference', 'text=__proto__&sending=s-1&type=1', {}, 400],
  ['no sending', `text=${reference}&type=1`, {}, 400],
  ['a kind that Kannel left as it stood', `text=${reference}&sending=s-1&type=%25d`, {}, 400],
  ['two kinds', `text=${reference}&sending=s-1&type=1&type=2`, {}, 400],
  ['no secret', `text=${reference}&sending=s-1&type=1`, { authorization: undefined }, 403],
])('%s is turned away', async (_name, query, headers, status) => {
  const { told, bring } = await openStatusDoor();
  expect((await bring(query, headers)).status).toBe(status);
  expect(told).toEqual([]);
});

test('one that cannot be written is to be brought again', async () => {
  const { bring } = await openStatusDoor(() => Promise.reject(new Error('away')));
  expect((await bring(`text=${reference}&sending=s-1&type=1`)).status).toBe(503);
});
