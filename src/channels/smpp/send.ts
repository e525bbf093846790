// Texts out as submits. A long text goes as one submit whose message_payload the centre cuts: so it is taken whole or not at all, has
// one id, and one receipt speaks of all of it. Cut here, it would have as many of each as parts, any of which could fail alone.
// Next: window.ts; text-coding.ts.

import type { SendText } from '../../conversation/ports.ts';
import { NPI, TON } from './protocol.ts';
import { DATA_CODING, encodeText } from './text-coding.ts';
import type { Submit } from './window.ts';

/** Octets that the centre can put into one segment. */
const longestShort = { [DATA_CODING.gsm7]: 160, [DATA_CODING.ucs2]: 140 } as const;
const RECEIPT_AT_THE_END = 1;

/**
 * Sends texts through the centre, each with a receipt.
 *
 * Returns  sent: taken, with the centre's id. failed: refused with its status, also when it stayed throttled; or nothing left this
 *          machine. unknown: the link was lost, or no answer came. Never throws.
 */
export function smppSender(submit: Submit, from: string): SendText {
  return async ({ to, text }) => {
    const submitted = await submit(textFields(from, to, text, RECEIPT_AT_THE_END));
    switch (submitted.kind) {
      case 'taken':
        // Without an id no receipt finds it, but it went out.
        return submitted.messageId === '' ? { kind: 'unknown' } : { kind: 'sent', gatewayId: submitted.messageId };
      case 'refused':
        return { kind: 'failed', reason: `smpp status ${submitted.status}` };
      case 'not-sent':
        return { kind: 'failed', reason: 'gateway not reached' };
      case 'unknown':
        return submitted;
    }
  };
}

/** The fields of one text. Takes to: E.164. receipt: 0 for a reply, which is not followed. */
export function textFields(from: string, to: string, text: string, receipt: 0 | 1 = 0): Readonly<Record<string, unknown>> {
  const { coding, bytes } = encodeText(text);
  const isShort = bytes.length <= longestShort[coding];
  return {
    ...sourceOf(from),
    ...destinationOf(to),
    registered_delivery: receipt,
    data_coding: coding,
    ...(isShort ? { short_message: bytes } : { short_message: Buffer.alloc(0), message_payload: bytes }),
  };
}

export function sourceOf(from: string): Readonly<Record<string, unknown>> {
  if (/^\+\d+$/.test(from)) return { source_addr_ton: TON.international, source_addr_npi: NPI.isdn, source_addr: from.slice(1) };
  // A short code is the centre's own; a name has letters.
  const source_addr_ton = /^\d+$/.test(from) ? TON.unknown : TON.alphanumeric;
  return { source_addr_ton, source_addr_npi: NPI.unknown, source_addr: from };
}

export function destinationOf(to: string): Readonly<Record<string, unknown>> {
  return { dest_addr_ton: TON.international, dest_addr_npi: NPI.isdn, destination_addr: to.replace(/^\+/, '') };
}
