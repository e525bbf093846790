// Receipts. Source of states and words: SMPP 3.4, 5.2.28 and appendix B.

import { expect, test } from 'vitest';
import { readDelivered } from '../../../src/channels/smpp/fields.ts';
import { smpp } from '../../../src/channels/smpp/protocol.ts';
import { isReceipt, readReceipt } from '../../../src/channels/smpp/status-fields.ts';
import { textFrom } from '../../support/smsc.ts';

const words = (stat: string, err = '000') =>
  `id:A1b-2 sub:001 dlvrd:001 submit date:2611270801 done date:2611270802 stat:${stat} err:${err} text:URGENT girl 5 h`;
const delivered = (text: string, fields = {}) =>
  readDelivered(new smpp.PDU('deliver_sm', { ...textFrom('+254700000321', ''), short_message: Buffer.from(text), ...fields }));

test.each([
  ['DELIVRD', '000', { kind: 'report', report: { kind: 'delivered', gatewayId: 'A1b-2' } }],
  ['UNDELIV', '034', { kind: 'report', report: { kind: 'failed', reason: 'undeliv 034', gatewayId: 'A1b-2' } }],
  ['EXPIRED', '000', { kind: 'report', report: { kind: 'failed', reason: 'expired', gatewayId: 'A1b-2' } }],
  ['REJECTD', '1', { kind: 'report', report: { kind: 'failed', reason: 'rejectd 1', gatewayId: 'A1b-2' } }],
  ['DELETED', '000', { kind: 'report', report: { kind: 'failed', reason: 'deleted', gatewayId: 'A1b-2' } }],
  ['ACCEPTD', '000', { kind: 'on-its-way' }],
  ['UNKNOWN', '000', { kind: 'on-its-way' }],
  ['ENROUTE', '000', { kind: 'on-its-way' }],
])('%s %s in words', (stat, err, read) => {
  const receipt = delivered(words(stat, err), { esm_class: 0x04 });
  expect(isReceipt(receipt)).toBe(true);
  expect(readReceipt(receipt)).toEqual(read);
});

test.each([
  [2, { kind: 'report', report: { kind: 'delivered', gatewayId: '9f' } }],
  [5, { kind: 'report', report: { kind: 'failed', reason: 'undeliv', gatewayId: '9f' } }],
  [1, { kind: 'on-its-way' }],
  [99, { kind: 'refused' }],
])('state %i in optional parameters, which count more than words', (message_state, read) => {
  const receipt = delivered(words('EXPIRED'), { receipted_message_id: '9f', message_state });
  expect(isReceipt(receipt)).toBe(true);
  expect(readReceipt(receipt)).toEqual(read);
});

test('a receipt that does not say that it is one is no text of a worker', () => {
  expect(isReceipt(delivered(words('DELIVRD')))).toBe(true);
  expect(isReceipt(delivered('id: 12 stat: well'))).toBe(false);
});

test.each(['', 'id:', 'stat:DELIVRD', 'x'.repeat(200)])('"%s" tells nothing', (text) => {
  expect(readReceipt(delivered(text, { esm_class: 0x04 }))).toEqual({ kind: 'refused' });
});
