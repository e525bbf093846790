// A USSD gateway signs nothing, so it proves itself with a secret that both sides know: in the path it was given, or in a
// header. Next: webhook.ts.

import { createHash, timingSafeEqual } from 'node:crypto';

export const SECRET_HEADER = 'x-gateway-secret';

const SHORTEST_SECRET = 16;

/** How the USSD gateway proves itself. Off is for development, and has to be said. */
export type UssdProof = { readonly verifySecret: true; readonly secret: string } | { readonly verifySecret: false };

/** Whether one of the offered secrets is ours. Takes as long for a near miss as for a far one. */
export function isSecret(offered: readonly (string | undefined)[], secret: string): boolean {
  const expected = digest(secret);
  // Digests, because the comparison wants equal lengths and the length of a secret is a secret too.
  return offered.map((one) => one !== undefined && timingSafeEqual(digest(one), expected)).includes(true);
}

function digest(text: string): Buffer {
  return createHash('sha256').update(text).digest();
}

/** Stops the start when the secret could be guessed. */
export function checkUssdProof(proof: UssdProof): void {
  if (proof.verifySecret && proof.secret.length < SHORTEST_SECRET) {
    throw new Error(
      `The USSD secret has fewer than ${SHORTEST_SECRET} characters and could be guessed. Make one with: openssl rand -hex 24`,
    );
  }
}
