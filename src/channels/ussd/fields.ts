// The fields of a USSD post, in the common dialect: a form with all that was keyed since the dial, joined by `*`. The text
// is not taken apart here, for `36*8` may be one answer. Next: webhook.ts.

import { createHash } from 'node:crypto';
import { z } from 'zod';
import type { Form } from '../form.ts';

const requestFields = z.object({
  sessionId: z.string().regex(/^[\x21-\x7e]{1,128}$/),
  phoneNumber: z.string().min(1),
  serviceCode: z.string().optional(),
  networkCode: z.string().optional(),
  text: z.string().default(''),
});

/** The gateway tells us afterwards that a call is over, and how long it took. Nobody sees an answer to this. */
const endFields = z.object({ status: z.string(), durationInMillis: z.string() });

export type UssdFields = z.infer<typeof requestFields>;

export type ReadUssd =
  | { readonly kind: 'read'; readonly fields: UssdFields }
  | { readonly kind: 'call-ended' }
  /** Names of the fields that are missing, sent twice or malformed; never what was in them. */
  | { readonly kind: 'refused'; readonly fields: readonly string[] };

export function readUssdFields(form: Form): ReadUssd {
  if (endFields.safeParse(form).success) return { kind: 'call-ended' };
  const parsed = requestFields.safeParse(form);
  if (parsed.success) return { kind: 'read', fields: parsed.data };
  return { kind: 'refused', fields: parsed.error.issues.map((issue) => issue.path.join('.')) };
}

const DIGEST_LENGTH = 16;

/** The same call with the same keys pressed is the same message, delivered again. */
export function ussdMessageId(fields: Pick<UssdFields, 'sessionId' | 'text'>): string {
  const digest = createHash('sha256').update(fields.text).digest('hex').slice(0, DIGEST_LENGTH);
  return `ussd:${fields.sessionId}:${digest}`;
}
