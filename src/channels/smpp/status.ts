// The door for receipts. A receipt names a text by the centre's id of it, so the register is asked which text that was, and whether it
// went to this phone: a centre that counts anew after a restart gives an id twice. The receipt may be faster than our own note of the
// id, so the register is asked again before the receipt is let go. Next: status-fields.ts.

import type { DoorLog } from '../door.ts';
import { describeFault } from '../fault.ts';
import type { StatusDoor } from '../sms/status.ts';
import { type Timing, wait } from '../timing.ts';
import type { Delivered } from './fields.ts';
import { STATUS } from './protocol.ts';
import { readReceipt } from './status-fields.ts';

export interface ReceiptDoor {
  readonly log: DoorLog;
  readonly report: StatusDoor['report'];
  /** The reference of the text that this gateway's id was given to; null: nobody queued one. */
  readonly textSentAs: (gatewayId: string, to: string) => Promise<string | null>;
  readonly toE164: (raw: string) => string | undefined;
  readonly timing: Timing;
}

const pausesMilliseconds = [500, 5_000] as const;

/** What the centre is answered. Never throws. */
export async function takeReceipt(door: ReceiptDoor, delivered: Delivered): Promise<number> {
  const read = readReceipt(delivered);
  if (read.kind === 'refused') {
    door.log.warn('a delivery receipt could not be read');
    return STATUS.ok;
  }
  if (read.kind === 'on-its-way') return STATUS.ok;
  try {
    const reference = await findReference(door, read.report.gatewayId, door.toE164(delivered.from) ?? delivered.from);
    // Replies are no texts of the register, and of those no receipt is asked for.
    if (reference === null) door.log.info('a delivery receipt speaks of a text that nobody queued');
    else await door.report(reference, read.report);
    return STATUS.ok;
  } catch (error) {
    door.log.error({ fault: describeFault(error) }, 'a delivery receipt could not be written');
    return STATUS.notNow;
  }
}

async function findReference(door: ReceiptDoor, gatewayId: string, to: string): Promise<string | null> {
  let reference = await door.textSentAs(gatewayId, to);
  for (const pause of pausesMilliseconds) {
    if (reference !== null) break;
    await wait(door.timing, pause);
    reference = await door.textSentAs(gatewayId, to);
  }
  return reference;
}
