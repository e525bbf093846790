// What a delivered message is: a text, a part of one, a receipt, a piece of a USSD call. Everything in it is the centre's word, so each
// field is looked at before it is used. Next: parts.ts, status-fields.ts, calls.ts.

import type { Pdu } from 'smpp';
import { ESM_CLASS, TON } from './protocol.ts';
import type { Coded } from './text-coding.ts';

export interface Part {
  readonly reference: number;
  readonly total: number;
  /** From 1. */
  readonly number: number;
}

export interface Delivered {
  /** As the centre writes it, with `+` where it says that it is international. */
  readonly from: string;
  readonly to: string;
  readonly body: Coded;
  /** Left out: all of the text is here. */
  readonly part?: Part;
  /** What the phone calls the message by; 0 or nothing when the centre does not pass it on. */
  readonly reference: number;
  readonly isReceipt: boolean;
  /** The text is still on its way; nothing follows from it. */
  readonly isIntermediate: boolean;
  readonly receipt: { readonly id?: string; readonly state?: number };
  readonly ussd?: { readonly operation: number; readonly session: Buffer };
}

export function readDelivered(pdu: Pdu): Delivered {
  const esm = byteOf(pdu.esm_class);
  const kind = esm & ESM_CLASS.kind;
  const payload = bytesOf(pdu.message_payload);
  const short = bytesOf(pdu.short_message);
  const whole = short.length === 0 ? payload : short;
  const { bytes, part } = (esm & ESM_CLASS.header) === 0 ? { bytes: whole, part: partOf(pdu) } : withoutHeader(whole);
  const operation = numberOf(pdu.ussd_service_op);
  const id = typeof pdu.receipted_message_id === 'string' && pdu.receipted_message_id !== '' ? pdu.receipted_message_id : undefined;
  const state = numberOf(pdu.message_state);
  return {
    from: addressOf(pdu.source_addr, pdu.source_addr_ton),
    to: typeof pdu.destination_addr === 'string' ? pdu.destination_addr : '',
    body: { coding: byteOf(pdu.data_coding), bytes },
    ...(part === undefined ? {} : { part }),
    reference: numberOf(pdu.user_message_reference) ?? 0,
    isReceipt: kind === ESM_CLASS.receipt,
    isIntermediate: kind === ESM_CLASS.intermediate,
    receipt: { ...(id === undefined ? {} : { id }), ...(state === undefined ? {} : { state }) },
    ...(operation === undefined ? {} : { ussd: { operation, session: bytesOf(pdu.its_session_info) } }),
  };
}

const numberOf = (value: unknown): number | undefined => (typeof value === 'number' ? value : undefined);
const byteOf = (value: unknown): number => numberOf(value) ?? 0;
const bytesOf = (value: unknown): Buffer => (Buffer.isBuffer(value) ? value : Buffer.alloc(0));

function addressOf(address: unknown, ton: unknown): string {
  const written = typeof address === 'string' ? address : '';
  return ton === TON.international && /^\d/.test(written) ? `+${written}` : written;
}

/** Said by optional parameters, where the centre takes the header off. */
function partOf(pdu: Pdu): Part | undefined {
  const [reference, total, number] = [pdu.sar_msg_ref_num, pdu.sar_total_segments, pdu.sar_segment_seqnum].map(numberOf);
  if (reference === undefined || total === undefined || number === undefined) return undefined;
  return partWith(reference, total, number);
}

/** A header that lies about its length has no part in it, and what follows is no text. */
function withoutHeader(whole: Buffer): { bytes: Buffer; part: Part | undefined } {
  const end = (whole[0] ?? 0) + 1;
  const header = whole.subarray(1, end);
  const bytes = whole.subarray(end);
  for (let at = 0; end <= whole.length && at + 2 <= header.length; ) {
    const length = header[at + 1] ?? 0;
    if (at + 2 + length > header.length) break;
    const element = header.subarray(at + 2, at + 2 + length);
    if (header[at] === 0x00 && element.length === 3) return { bytes, part: partWith(element[0], element[1], element[2]) };
    if (header[at] === 0x08 && element.length === 4) return { bytes, part: partWith(element.readUInt16BE(0), element[2], element[3]) };
    at += 2 + length;
  }
  return { bytes, part: undefined };
}

/** A number out of range makes the parts whole texts of their own, as 3GPP TS 23.040 9.2.3.24.1 has it. */
function partWith(reference = 0, total = 0, number = 0): Part | undefined {
  return total < 2 || number < 1 || number > total ? undefined : { reference, total, number };
}
