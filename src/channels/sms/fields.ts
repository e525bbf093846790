// The fields of an inbound SMS that we read. Others are let be: gateways add fields without notice. Next: webhook.ts.

import { z } from 'zod';
import type { Form } from '../form.ts';

// A field sent twice is an array, which is not a string, and so is refused: which of the two was meant?
const smsFields = z.object({
  MessageSid: z.string().regex(/^[\x21-\x7e]{1,64}$/),
  From: z.string().min(1),
  Body: z.string().default(''),
  OptOutType: z.string().optional(),
});

export type SmsFields = z.infer<typeof smsFields>;

export type ReadFields<Fields> =
  | { readonly kind: 'read'; readonly fields: Fields }
  /** Names of the fields that are missing, sent twice or malformed; never what was in them. */
  | { readonly kind: 'refused'; readonly fields: readonly string[] };

export function readSmsFields(form: Form): ReadFields<SmsFields> {
  const parsed = smsFields.safeParse(form);
  if (parsed.success) return { kind: 'read', fields: parsed.data };
  return { kind: 'refused', fields: parsed.error.issues.map((issue) => issue.path.join('.')) };
}
