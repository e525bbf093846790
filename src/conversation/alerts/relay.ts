// Words of a worker to the nurse who has the alert of her baby: the code and what she wants to say. While nobody has taken it
// they go to whoever is asked. What cannot be passed on is never dropped in silence. The other way: nurse.ts.

import { type FollowUpParts, recipient, textTo } from '../follow-up-parts.ts';
import type { Person, Register } from '../ports.ts';
import { keyTo, nameOf, whoHearsOf } from './alert-chain.ts';
import { alertCodeIn } from './nurse.ts';

export type RelayParts = FollowUpParts & { readonly register: Pick<Register, 'findAlerts' | 'record'> };

/** The answer to the worker; null when no alert of this code that is not closed is hers or her facility's. */
export async function relayToNurse(
  worker: Person,
  text: string,
  messageId: string,
  now: number,
  parts: RelayParts,
): Promise<string | null> {
  const said = alertCodeIn(text);
  if (said === null || said.words === '') return null;
  const near = (await parts.register.findAlerts(said.code)).filter(({ facility }) => facility === worker.facility);
  const alert = near.find((one) => one.worker === worker.phone) ?? near[0];
  if (alert === undefined) return null;
  const to = alert.takenBy ?? alert.nurse;
  const values = { code: alert.code, worker: worker.phone, text: said.words };
  const texts = whoHearsOf(alert).map((phone) => {
    const about = { key: keyTo(phone, to, `relay:${messageId}`), at: now, urgent: true, baby: alert.baby };
    return textTo(recipient(phone, parts), about, 'alert.from-worker', values, parts);
  });
  await parts.register.record(texts);
  const key = alert.takenBy === null ? 'alert.sent-not-taken' : 'alert.sent-to-nurse';
  return parts.speak(worker.language, key, { code: alert.code, nurse: nameOf(to, parts.roster), phone: to });
}
