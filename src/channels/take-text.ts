// What every door for texts does with one, whatever gateway brought it: words that the carrier answers are let be, the phone is
// looked at, the message is handed on. The door says it in its gateway's form. Next: caller.ts, carrier-keywords.ts.

import { admitCaller } from './caller.ts';
import { readCarrierKeyword } from './carrier-keywords.ts';
import type { Door, Gateway } from './door.ts';
import { describeFault } from './fault.ts';
import { maskPhone } from './mask.ts';
import { toPlainText } from './plain-text.ts';

export interface TextIn {
  readonly gateway: Gateway;
  /** As the gateway wrote it. */
  readonly from: string;
  /** The same id is the same message, however often it is delivered. */
  readonly id: string;
  readonly text: string;
  /** What the gateway itself says it did with an opt-out, if it does. */
  readonly optOutType?: string | undefined;
}

export type TextTaken =
  /** Empty: nothing is sent back. */
  | { readonly kind: 'answered'; readonly text: string; readonly to: string }
  /** Our own fault or a crowd, logged: the gateway should bring it again. */
  | { readonly kind: 'failed' };

/** The answer to one text. Never throws. */
export async function takeText(door: Door, { gateway, from, id, text: raw, optOutType }: TextIn): Promise<TextTaken> {
  const text = toPlainText(raw);
  const silence = { kind: 'answered', text: '', to: from } as const;
  const keyword = readCarrierKeyword(text, optOutType);
  if (keyword !== undefined) {
    // After an opt-out no alert reaches this phone, so somebody should hear of it.
    door.log.warn({ from: maskPhone(from), keyword }, 'a carrier keyword; the carrier answers it');
    return silence;
  }
  const caller = await admitCaller(door, gateway, from);
  if (caller.kind === 'crowded') return { kind: 'failed' };
  if (caller.kind !== 'admitted') return silence;
  try {
    const outgoing = await door.receive({ channel: 'sms', from: caller.from, id, text });
    return { kind: 'answered', text: outgoing.text, to: caller.from };
  } catch (error) {
    door.log.error({ from: maskPhone(caller.from), id, fault: describeFault(error) }, 'an SMS could not be answered');
    return { kind: 'failed' };
  }
}
