// What a receipt says of a text that was submitted: by its optional parameters, or in the words of appendix B of the specification,
// which most centres write. The words quote the text, and nothing else of them is kept. Next: status.ts.
//
// Source   SMPP 3.4, 5.2.28 message_state and appendix B.

import type { DeliveryReport } from '../../conversation/records.ts';
import type { Delivered } from './fields.ts';

const states: ReadonlyMap<number, string> = new Map([
  [1, 'enroute'],
  [2, 'delivrd'],
  [3, 'expired'],
  [4, 'deleted'],
  [5, 'undeliv'],
  [6, 'acceptd'],
  [7, 'unknown'],
  [8, 'rejectd'],
]);
const failures: ReadonlySet<string> = new Set(['expired', 'deleted', 'undeliv', 'rejectd']);

const WORDS = /^id:(\S{1,64}) .*?\bstat:([A-Za-z]{4,8})\b(?:.*?\berr:(\w{1,9})\b)?/is;
/** Sent without saying that it is a receipt, it must not be taken for a worker's text. */
const UNMISTAKABLE = /^id:\S{1,64} sub:\d{1,3} dlvrd:\d{1,3} submit date:\d+ done date:\d+ stat:[A-Z]+/i;

export type ReadReceipt =
  | { readonly kind: 'report'; readonly report: DeliveryReport & { readonly gatewayId: string } }
  | { readonly kind: 'on-its-way' }
  | { readonly kind: 'refused' };

export function isReceipt({ isReceipt: said, receipt, body }: Delivered): boolean {
  return said || (receipt.id !== undefined && receipt.state !== undefined) || UNMISTAKABLE.test(body.bytes.toString('latin1'));
}

export function readReceipt({ receipt, body }: Delivered): ReadReceipt {
  const [, writtenId, writtenState, error = '0'] = WORDS.exec(body.bytes.toString('latin1')) ?? [];
  const gatewayId = receipt.id ?? writtenId;
  const state = receipt.state === undefined ? writtenState?.toLowerCase() : states.get(receipt.state);
  if (gatewayId === undefined || state === undefined) return { kind: 'refused' };
  if (state === 'delivrd') return { kind: 'report', report: { kind: 'delivered', gatewayId } };
  if (!failures.has(state)) return { kind: 'on-its-way' };
  const reason = /^0*$/.test(error) ? state : `${state} ${error.toLowerCase()}`;
  return { kind: 'report', report: { kind: 'failed', reason, gatewayId } };
}
