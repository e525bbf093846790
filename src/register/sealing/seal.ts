// One value sealed, and opened again: AES-256 in Galois/Counter Mode (NIST SP 800-38D) with a nonce of its own, so that the same name
// never looks the same and a changed one does not open. As it stands in the register: `sealed:ID:` and nonce, text and tag in base64url.

import { createCipheriv, createDecipheriv, randomBytes } from 'node:crypto';
import type { SealingKey, SealingKeys } from './keys.ts';

const nonceBytes = 12;
const tagBytes = 16;
/** Longer than any card number, so that no phone can send what looks sealed. */
const sealed = /^sealed:([a-z0-9]{1,16}):([A-Za-z0-9_-]{38,})$/;

export const isSealed = (text: string): boolean => sealed.test(text);

/** What no key opens: it is of a key that is not set, or was changed by somebody. */
export class SealError extends Error {}

export function seal(text: string, { id, key }: SealingKey): string {
  const nonce = randomBytes(nonceBytes);
  const cipher = createCipheriv('aes-256-gcm', key, nonce);
  const parts = [nonce, cipher.update(text, 'utf8'), cipher.final(), cipher.getAuthTag()];
  return `sealed:${id}:${Buffer.concat(parts).toString('base64url')}`;
}

/** A text that is not sealed as it is: it was written before there was a key. Errors: SealError, with the remedy. */
export function unseal(text: string, keys: SealingKeys | null): string {
  const [, id, written] = sealed.exec(text) ?? [];
  if (id === undefined || written === undefined) return text;
  const key = keys?.find((one) => one.id === id)?.key;
  if (key === undefined)
    throw new SealError(
      `Something in the register is sealed with the key "${id}", which PIPIT_KEYS does not have. Add it behind the others.`,
    );
  const bytes = Buffer.from(written, 'base64url');
  const decipher = createDecipheriv('aes-256-gcm', key, bytes.subarray(0, nonceBytes), { authTagLength: tagBytes });
  decipher.setAuthTag(bytes.subarray(-tagBytes));
  try {
    return decipher.update(bytes.subarray(nonceBytes, -tagBytes), undefined, 'utf8') + decipher.final('utf8');
  } catch (cause) {
    throw new SealError(`A value that the key "${id}" sealed does not open. It was changed, or PIPIT_KEYS has another key by that name.`, {
      cause,
    });
  }
}

/** Every sealed text in a row, however deep. */
export function unsealed<Value>(value: Value, keys: SealingKeys | null): Value {
  if (typeof value === 'string') return (value.startsWith('sealed:') ? unseal(value, keys) : value) as Value;
  if (Array.isArray(value)) return value.map((one) => unsealed(one, keys)) as Value;
  if (value === null || typeof value !== 'object' || Object.getPrototypeOf(value) !== Object.prototype) return value;
  return Object.fromEntries(Object.entries(value).map(([name, one]) => [name, unsealed(one, keys)])) as Value;
}
