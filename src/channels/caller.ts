// Who rings: the number in one form, and whether it may come in now. Whether it belongs to a worker is the roster's
// business, not ours. Next: door.ts for what is asked here, sms/webhook.ts for what is done with the answer.

import { type CountryCode, parsePhoneNumberFromString } from 'libphonenumber-js';
import type { Door, Gateway } from './door.ts';
import { describeFault } from './fault.ts';
import { maskPhone } from './mask.ts';

const LONGEST_NUMBER = 32;

export type Caller =
  | { readonly kind: 'admitted'; readonly from: string }
  | { readonly kind: 'over-limit'; readonly from: string }
  /** Its gateway brings more than is answered; not the phone's fault, so the message is wanted, later. */
  | { readonly kind: 'crowded'; readonly from: string }
  /** A short code, a sender's name, or nothing that can be rung. */
  | { readonly kind: 'not-a-number' };

/**
 * The number in E.164, or undefined when it is not one.
 *
 * Takes    raw: with `+`, with `00`, without either, or with the space that an unescaped `+` turns into.
 *          defaultCountry: read national numbers as this country's.
 */
export function toE164(raw: string, defaultCountry?: CountryCode): string | undefined {
  if (raw.length > longestRemembered) return read(raw, defaultCountry);
  const key = `${defaultCountry ?? ''} ${raw}`;
  const known = remembered.get(key);
  if (known !== undefined) return known.number;
  if (remembered.size >= mostRemembered) remembered.clear();
  const number = read(raw, defaultCountry);
  remembered.set(key, { number });
  return number;
}

/** The same phones write all day, and to read a number costs as much as to check a signature. */
const remembered = new Map<string, { readonly number: string | undefined }>();
const mostRemembered = 10_000;
const longestRemembered = 2 * LONGEST_NUMBER;

function read(raw: string, defaultCountry: CountryCode | undefined): string | undefined {
  const written = raw.trim();
  if (written.length > LONGEST_NUMBER) return undefined;
  if (written.startsWith('+')) return parse(written);
  // The phone library reads 00254… as +2540254…, so the prefix goes first.
  if (written.startsWith('00')) return parse(`+${written.slice(2)}`);
  const national = defaultCountry === undefined ? undefined : parse(written, defaultCountry);
  return national ?? parse(`+${written}`);
}

function parse(written: string, country?: CountryCode): string | undefined {
  const options = country === undefined ? { extract: false } : { extract: false, defaultCountry: country };
  const number = parsePhoneNumberFromString(written, options);
  return number?.isValid() ? number.number : undefined;
}

/** Puts the number into E.164 and asks the rate limits. A limit that cannot be asked keeps nobody out: advice goes first. */
export async function admitCaller(door: Door, gateway: Gateway, raw: string): Promise<Caller> {
  const from = toE164(raw, door.defaultCountry);
  if (from === undefined) {
    door.log.warn('a message came from something that is not a phone number; it is not answered');
    return { kind: 'not-a-number' };
  }
  try {
    if (await door.isOverLimit?.(from)) {
      door.log.warn({ from: maskPhone(from) }, 'over the rate limit; the message is not passed on');
      return { kind: 'over-limit', from };
    }
    if (await door.isGatewayOverLimit?.(gateway)) {
      door.log.warn({ from: maskPhone(from), gateway }, 'the gateway brings more than is answered; the message is to be brought again');
      return { kind: 'crowded', from };
    }
  } catch (error) {
    door.log.error({ from: maskPhone(from), fault: describeFault(error) }, 'the rate limit could not be asked; the message goes on');
  }
  return { kind: 'admitted', from };
}
