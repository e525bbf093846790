// Passwords and PINs as they are kept: scrypt (RFC 7914) with a salt of its own, its costs beside the hash so that they can be raised.
// Computed beside the event loop. Next: roster-pins.ts, and src/console/access/gate.ts.

import { randomBytes, type ScryptOptions, scrypt, timingSafeEqual } from 'node:crypto';

const costs = { N: 2 ** 15, r: 8, p: 3 };
const keyBytes = 32;
const saltBytes = 16;
export const shortestPassword = 12;

/** `scrypt$N$r$p$salt$key`, the last two in base64. */
export async function hashPassword(password: string): Promise<string> {
  const salt = randomBytes(saltBytes);
  const key = await derive(password, salt, costs);
  return ['scrypt', costs.N, costs.r, costs.p, salt.toString('base64'), key.toString('base64')].join('$');
}

/** Takes as long for a hash that is null, of an account that there is not. */
export async function isPassword(password: string, hash: string | null): Promise<boolean> {
  const [kind, n, r, p, salt = '', key = ''] = (hash ?? `scrypt$${costs.N}$${costs.r}$${costs.p}$$`).split('$');
  const expected = Buffer.from(key, 'base64');
  const derived = await derive(password, Buffer.from(salt, 'base64'), { N: Number(n), r: Number(r), p: Number(p) });
  return kind === 'scrypt' && expected.length === derived.length && timingSafeEqual(expected, derived);
}

function derive(password: string, salt: Buffer, { N, r, p }: typeof costs): Promise<Buffer> {
  const options: ScryptOptions = { N, r, p, maxmem: 256 * N * r };
  return new Promise((resolve, reject) => {
    scrypt(password.normalize('NFKC'), salt, keyBytes, options, (error, key) => (error === null ? resolve(key) : reject(error)));
  });
}
