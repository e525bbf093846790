// Kannel signs nothing. It proves itself with a secret that stands in the address it is given (http://pipit:SECRET@…), which it sends
// as the password of basic authorization: so the secret is in no path, and in no proxy's log. Next: webhook.ts, status.ts.

import type { Request } from 'express';
import type { DoorLog } from '../door.ts';
import { checkSecretProof, isSecret, type SecretProof } from '../secret.ts';

export type KannelProof = SecretProof;

/** Characters that mean the same in an address and in a header. */
const UNRESERVED = /^[A-Za-z0-9._~-]+$/;

/** Stops the start when the secret could be guessed, or when Kannel's address could not hold it. */
export function checkKannelProof(proof: KannelProof): void {
  checkSecretProof(proof, 'Kannel');
  if (proof.verifySecret && !UNRESERVED.test(proof.secret)) {
    throw new Error('The Kannel secret has characters that mean something else in an address. Make one with: openssl rand -hex 24');
  }
}

/** Whether this request may be taken. One that may not is logged, as is each that was not looked at. */
export function isFromKannel(request: Request, proof: KannelProof, log: DoorLog): boolean {
  if (!proof.verifySecret) {
    log.warn('a request of Kannel was taken without checking its secret');
    return true;
  }
  const known = isSecret([passwordOf(request.get('authorization'))], proof.secret);
  if (!known) log.warn('a request of Kannel was refused: its secret is missing or wrong');
  return known;
}

function passwordOf(authorization: string | undefined): string | undefined {
  const [, credentials] = /^Basic ([A-Za-z0-9+/=]+)$/i.exec(authorization ?? '') ?? [];
  if (credentials === undefined) return undefined;
  const [, password] = /^[^:]*:(.*)$/s.exec(Buffer.from(credentials, 'base64').toString('utf8')) ?? [];
  return password;
}
