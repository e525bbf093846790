// The few numbers of SMPP 3.4 that are used, and the package as we use it: what is delivered comes as bytes. By itself the package
// decodes each part of a text apart, takes a malformed time for its own fault, and reads data_coding loosely. Next: text-coding.ts.
//
// Source   Short Message Peer to Peer Protocol Specification v3.4: 4.6.1 deliver_sm, 5.1.3 command_status, 5.2.12 esm_class,
//          5.3.2.36 message_state, 5.3.2.44 ussd_service_op.

import smpp from 'smpp';

const { int8, cstring, buffer, tlv } = smpp.types;
const [byte, text] = [{ type: int8 }, { type: cstring }];

smpp.addCommand('deliver_sm', {
  id: 0x0000_0005,
  params: {
    service_type: text,
    source_addr_ton: byte,
    source_addr_npi: byte,
    source_addr: text,
    dest_addr_ton: byte,
    dest_addr_npi: byte,
    destination_addr: text,
    esm_class: byte,
    protocol_id: byte,
    priority_flag: byte,
    schedule_delivery_time: text,
    validity_period: text,
    registered_delivery: byte,
    replace_if_present_flag: byte,
    data_coding: byte,
    sm_default_msg_id: byte,
    short_message: { type: buffer, default: Buffer.alloc(0) },
  },
});
smpp.addTLV('message_payload', { id: 0x0424, type: tlv.buffer });

export { smpp };

export const STATUS = {
  ok: 0x00,
  invalidCommand: 0x03,
  queueFull: 0x14,
  throttled: 0x58,
  /** "Not now; bring it again." */
  notNow: 0x64,
} as const;

export const ESM_CLASS = { kind: 0x3c, receipt: 0x04, intermediate: 0x20, header: 0x40 } as const;

export const USSD = { begins: 1, asks: 2, ends: 17, answers: 18 } as const;

/** Of an address: international, and what a centre makes of it by itself. */
export const TON = { unknown: 0, international: 1, alphanumeric: 5 } as const;
export const NPI = { unknown: 0, isdn: 1 } as const;
