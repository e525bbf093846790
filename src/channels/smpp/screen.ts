// A USSD screen as a submit: in the call it answers, asking for an answer or ending it. With nothing to show the call ends: an empty
// screen that waits would hold the phone. Next: door.ts.
//
// Source   SMPP 3.4, 5.3.2.44 ussd_service_op.

import type { Outgoing } from '../../conversation/ports.ts';
import type { Delivered } from './fields.ts';
import { USSD } from './protocol.ts';
import { destinationOf, sourceOf } from './send.ts';
import { encodeText } from './text-coding.ts';

const SERVICE = 'USSD';

export function screenFields({ from, to }: Delivered, session: Buffer, { text, ends }: Outgoing): Readonly<Record<string, unknown>> {
  const { coding, bytes } = encodeText(text);
  return {
    service_type: SERVICE,
    ...sourceOf(to),
    ...destinationOf(from),
    registered_delivery: 0,
    data_coding: coding,
    short_message: bytes,
    ussd_service_op: ends || text === '' ? USSD.ends : USSD.asks,
    ...(session.length === 0 ? {} : { its_session_info: session }),
  };
}
