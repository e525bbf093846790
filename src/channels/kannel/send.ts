// Texts out through Kannel's smsbox (`sendsms`), posted: in a query the text and the number would stand in its access log. Kannel gives
// no id, so each sending gets one of ours, which comes back in its delivery reports. Next: status-fields.ts, which reads those.

import type { SendText } from '../../conversation/ports.ts';
import type { Sent } from '../../conversation/records.ts';
import { alphabetOf } from '../../messages/gsm7.ts';
import { toPlainText } from '../plain-text.ts';
import { neverLeft } from '../sms/gateway-answer.ts';
import { KANNEL_STATUS_PATH } from './status.ts';
import { REPORTS_ASKED_FOR } from './status-fields.ts';

export interface KannelGateway {
  /** The whole address: http://127.0.0.1:13013/cgi-bin/sendsms */
  readonly url: string;
  readonly user: string;
  readonly password: string;
  /** The number or sender name that the text comes from. */
  readonly from: string;
  /** Where Kannel reaches us, and what it shows there; left out: it reports nothing. */
  readonly reports?: { readonly baseUrl: string; readonly secret: string; readonly reference: (key: string) => string };
  /** A new id of a sending, never given twice. */
  readonly newId: () => string;
  readonly timeoutMilliseconds: number;
  readonly fetch?: typeof fetch;
}

const TAKEN = 202;
/** Kannel took nothing and says so; its other 5xx may come after it took the text. */
const NOT_TAKEN_NOW = 503;

/**
 * A sender for one account (`sendsms-user`) of a smsbox.
 *
 * Returns  sent: taken, with our id of this sending. failed: refused (also 503), or nothing ever left this machine.
 *          unknown: another 5xx or 2xx, a timeout, a connection lost after it stood.
 * Errors   an address that is none stops the start; the sender itself never throws.
 */
export function kannelSender(gateway: KannelGateway): SendText {
  const send = gateway.fetch ?? fetch;
  if (!URL.canParse(gateway.url)) {
    throw new Error('The address of Kannel is not a URL. Write all of it, such as http://127.0.0.1:13013/cgi-bin/sendsms.');
  }
  return async ({ key, to, text }) => {
    const plain = toPlainText(text);
    const gatewayId = gateway.newId();
    try {
      const response = await send(gateway.url, {
        method: 'POST',
        headers: {
          'content-type': 'text/plain; charset=UTF-8',
          'x-kannel-username': gateway.user,
          'x-kannel-password': gateway.password,
          'x-kannel-from': gateway.from,
          'x-kannel-to': to,
          'x-kannel-coding': alphabetOf(plain) === 'ucs-2' ? '2' : '0',
          ...reportHeaders(gateway, key, gatewayId),
        },
        body: plain,
        // Followed, a redirect would carry the text, and the password, to a host nobody configured.
        redirect: 'manual',
        signal: AbortSignal.timeout(gateway.timeoutMilliseconds),
      });
      await response.body?.cancel();
      return sentBy(response.status, gatewayId);
    } catch (error) {
      return neverLeft(error) ? { kind: 'failed', reason: 'gateway not reached' } : { kind: 'unknown' };
    }
  };
}

function sentBy(status: number, gatewayId: string): Sent {
  if (status === TAKEN) return { kind: 'sent', gatewayId };
  // Another 2xx is some other server's page, or another version's word.
  if ((status >= 500 && status !== NOT_TAKEN_NOW) || (status >= 200 && status < 300)) return { kind: 'unknown' };
  return { kind: 'failed', reason: `http ${status}` };
}

function reportHeaders({ reports }: KannelGateway, key: string, sending: string): Record<string, string> {
  if (reports === undefined) return {};
  const address = new URL(`${reports.baseUrl.replace(/(?<!\/)\/+$/, '')}${KANNEL_STATUS_PATH}`);
  address.username = 'pipit';
  address.password = reports.secret;
  address.search = new URLSearchParams({ text: reports.reference(key), sending }).toString();
  // Kannel fills this in; encoded it would not.
  return { 'x-kannel-dlr-mask': String(REPORTS_ASKED_FOR), 'x-kannel-dlr-url': `${address.href}&type=%d` };
}
