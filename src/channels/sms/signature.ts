// Is this post really from the gateway? Only the signature says so. The URL that was signed is built from the configured
// public one: behind a proxy the Host header is the proxy's, and anyone can write it. Next: webhook.ts.

import type { Request } from 'express';
import { validateRequest } from 'twilio/lib/webhooks/webhooks.js';
import { type Form, formOf } from '../form.ts';

export const SIGNATURE_HEADER = 'x-twilio-signature';

/** How the SMS gateway proves itself. Off is for development, and has to be said. */
export type SmsProof =
  | { readonly verifySignature: true; readonly authToken: string; readonly publicUrl: string }
  | { readonly verifySignature: false };

export interface SignedPost {
  readonly signature: string | undefined;
  /** Path and query as they were asked for, from the slash on. */
  readonly target: string;
  /** All fields, also those we do not know: the signature covers them. */
  readonly form: Form;
}

/**
 * Whether the post carries the signature of the configured account. With and without the standard port are the same
 * URL; the comparison takes constant time (both by the gateway's own package).
 */
export function isSigned(post: SignedPost, proof: { readonly authToken: string; readonly publicUrl: string }): boolean {
  // An absolute request target ("POST http://elsewhere/sms") names a host of the sender's choosing.
  if (!post.signature || !post.target.startsWith('/')) return false;
  const url = proof.publicUrl.replace(/(?<!\/)\/+$/, '') + post.target;
  return validateRequest(proof.authToken, post.signature, url, post.form);
}

/** Whether this request may be taken: signed, or with signatures switched off. */
export function isProven(request: Request, proof: SmsProof): boolean {
  const post = { signature: request.get(SIGNATURE_HEADER), target: request.originalUrl, form: formOf(request) };
  return !proof.verifySignature || isSigned(post, proof);
}

/**
 * Stops the start when the settings could not keep anybody out.
 *
 * Errors   an empty token, or a public URL that is not http(s), with the remedy.
 */
export function checkSmsProof(proof: SmsProof): void {
  if (!proof.verifySignature) return;
  if (proof.authToken.trim() === '') {
    throw new Error('The SMS gateway has no auth token, so no signature can be checked. Set the token of the gateway account.');
  }
  const url = URL.canParse(proof.publicUrl) ? new URL(proof.publicUrl) : undefined;
  if (url === undefined || !/^https?:$/.test(url.protocol) || url.search !== '' || url.hash !== '') {
    throw new Error(
      `The public URL "${proof.publicUrl}" cannot be what the gateway signs. Write scheme and host (and the path in front of /sms, if a proxy strips one), such as https://pipit.example.org.`,
    );
  }
}
