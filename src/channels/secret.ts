// A secret that a gateway shows where it can sign nothing, and how it is compared. Where it stands in a request is each door's own
// file. Next: ussd/webhook.ts, kannel/proof.ts.

import { createHash, timingSafeEqual } from 'node:crypto';

const SHORTEST_SECRET = 16;

/** How such a gateway proves itself. Off is for development, and has to be said. */
export type SecretProof = { readonly verifySecret: true; readonly secret: string } | { readonly verifySecret: false };

/** Whether one of the offered secrets is ours. Takes as long for a near miss as for a far one. */
export function isSecret(offered: readonly (string | undefined)[], secret: string): boolean {
  const expected = digest(secret);
  // Digests, because the comparison wants equal lengths and the length of a secret is a secret too.
  return offered.map((one) => one !== undefined && timingSafeEqual(digest(one), expected)).includes(true);
}

function digest(text: string): Buffer {
  return createHash('sha256').update(text).digest();
}

/** Stops the start when the secret could be guessed. Takes whose: "USSD", for the message. */
export function checkSecretProof(proof: SecretProof, whose: string): void {
  if (proof.verifySecret && proof.secret.length < SHORTEST_SECRET) {
    throw new Error(
      `The ${whose} secret has fewer than ${SHORTEST_SECRET} characters and could be guessed. Make one with: openssl rand -hex 24`,
    );
  }
}
