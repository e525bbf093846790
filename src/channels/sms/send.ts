// Texts out, through any gateway that speaks the Twilio Messages API. Sending is not idempotent there, so the answer keeps
// apart what failed for certain (send again) from what nobody can know (a second text might be a second alarm).
// Next: gateway-answer.ts, which reads the answers; terminal.ts, the sender for a desk without a gateway.

import type { SendText } from '../../conversation/ports.ts';
import type { Sent } from '../../conversation/records.ts';
import { neverLeft, readSid, refusalReason } from './gateway-answer.ts';

export interface TwilioCompatibleGateway {
  /** Scheme and host, with a path if the gateway has one: https://api.twilio.com */
  readonly baseUrl: string;
  readonly accountSid: string;
  readonly authToken: string;
  /** The number or sender name that the text comes from. */
  readonly from: string;
  /** Where the gateway reports what became of the text with this key; left out: it does not. */
  readonly statusCallback?: (key: string) => string;
  readonly timeoutMilliseconds: number;
  readonly fetch?: typeof fetch;
}

/**
 * A sender for one account of a gateway.
 *
 * Returns  sent: 2xx with the gateway's id. failed: refused (3xx, 4xx, 429 as well), or nothing ever left this machine.
 *          unknown: 5xx, a timeout, a connection lost after it stood, a 2xx that names no message.
 * Errors   a base URL that is none stops the start; the sender itself never throws.
 */
export function twilioCompatibleSender(gateway: TwilioCompatibleGateway): SendText {
  const send = gateway.fetch ?? fetch;
  const url = messagesUrl(gateway);
  const authorization = `Basic ${Buffer.from(`${gateway.accountSid}:${gateway.authToken}`).toString('base64')}`;

  return async ({ key, to, text }) => {
    const form = new URLSearchParams({ To: to, From: gateway.from, Body: text });
    if (gateway.statusCallback !== undefined) form.set('StatusCallback', gateway.statusCallback(key));
    try {
      const response = await send(url, {
        method: 'POST',
        headers: { authorization, accept: 'application/json' },
        body: form,
        // Followed, a redirect would carry the text, and the credentials, to a host nobody configured.
        redirect: 'manual',
        signal: AbortSignal.timeout(gateway.timeoutMilliseconds),
      });
      return await readAnswer(response);
    } catch (error) {
      return neverLeft(error) ? { kind: 'failed', reason: 'gateway not reached' } : { kind: 'unknown' };
    }
  };
}

async function readAnswer(response: Response): Promise<Sent> {
  if (response.status >= 500) {
    await response.body?.cancel();
    return { kind: 'unknown' };
  }
  const answer = await response.text();
  if (!response.ok) return { kind: 'failed', reason: refusalReason(response.status, answer) };
  const gatewayId = readSid(answer);
  return gatewayId === undefined ? { kind: 'unknown' } : { kind: 'sent', gatewayId };
}

function messagesUrl(gateway: TwilioCompatibleGateway): string {
  if (!URL.canParse(gateway.baseUrl)) {
    throw new Error(`The gateway's address "${gateway.baseUrl}" is not a URL. Write scheme and host, such as https://api.twilio.com.`);
  }
  return `${gateway.baseUrl.replace(/(?<!\/)\/+$/, '')}/2010-04-01/Accounts/${encodeURIComponent(gateway.accountSid)}/Messages.json`;
}
