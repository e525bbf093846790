// The SMS gateway of these tests: it signs with the gateway's own package, and reads TwiML back with a reader that shares
// nothing with the writer.

import { getExpectedTwilioSignature } from 'twilio/lib/webhooks/webhooks.js';
import { type Answer, AUTH_TOKEN, PUBLIC_URL, postForm, WORKER } from './channel-doors.ts';

export const EMPTY_REPLY = '<?xml version="1.0" encoding="UTF-8"?><Response/>';

/** The fields of an inbound text, with some that we do not read. */
export function inboundSms(fields: Readonly<Record<string, string>> = {}): Record<string, string> {
  return {
    MessageSid: 'SM00000000000000000000000000000001',
    AccountSid: 'AC00000000000000000000000000000000',
    From: WORKER,
    To: '+254700000999',
    NumMedia: '0',
    Body: '1',
    ...fields,
  };
}

export function sign(form: Readonly<Record<string, unknown>>, url = `${PUBLIC_URL}/sms`, authToken = AUTH_TOKEN): string {
  return getExpectedTwilioSignature(authToken, url, form);
}

/** Posts a text to the SMS door with the signature of the configured account. */
export function postSms(doorsUrl: string, fields: Readonly<Record<string, string>> = {}): Promise<Answer> {
  const form = inboundSms(fields);
  return postForm(`${doorsUrl}/sms`, form, { 'x-twilio-signature': sign(form) });
}

/** Posts pairs, so that a field may come twice, signed as the gateway signs repeated fields. */
export function postSmsPairs(doorsUrl: string, pairs: readonly (readonly [string, string])[]): Promise<Answer> {
  const form: Record<string, string[]> = {};
  for (const [name, value] of pairs) form[name] = [...(form[name] ?? []), value];
  return postForm(`${doorsUrl}/sms`, pairs, { 'x-twilio-signature': sign(form) });
}

const CHARACTERS: Readonly<Record<string, string>> = { amp: '&', lt: '<', gt: '>', quot: '"', apos: "'" };

/** The text of the one message in a TwiML reply; undefined when there is none. Fails on anything else. */
export function readTwiml(xml: string): string | undefined {
  if (xml === EMPTY_REPLY) return undefined;
  const message = /^<\?xml version="1\.0" encoding="UTF-8"\?><Response><Message>([^<>]*)<\/Message><\/Response>$/u.exec(xml)?.[1];
  if (message === undefined) throw new Error(`not a reply of one message: ${xml}`);
  return message.replace(/&([^;&]*);?/g, (entity, name: string) => {
    const character = CHARACTERS[name];
    if (character === undefined || !entity.endsWith(';')) throw new Error(`not an entity of XML: ${entity}`);
    return character;
  });
}
