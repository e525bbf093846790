// How a text is spoken of to a gateway: its key holds a phone's number, so the gateway is given a digest of it.
// Next: send-due.ts, and the register, which finds a text by it.

import { createHash } from 'node:crypto';

/** 32 hex digits, always the same for one key. Not a secret: the gateway's signature is what proves a report. */
export function textReference(key: string): string {
  return createHash('md5').update(key).digest('hex');
}
