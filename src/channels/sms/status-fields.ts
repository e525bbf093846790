// The fields of a delivery report that we read, and what they say of the text. Others are let be. Next: status.ts.

import { z } from 'zod';
import type { DeliveryReport } from '../../conversation/records.ts';
import type { Form } from '../form.ts';

const statusFields = z.object({
  MessageSid: z.string().regex(/^[\x21-\x7e]{1,64}$/),
  MessageStatus: z.string().min(1),
  ErrorCode: z
    .string()
    .regex(/^\d{1,9}$/)
    .optional(),
});

/** What the gateway's words for the state of a text mean. A word that is not here says nothing yet: it is still on its way. */
const meanings: ReadonlyMap<string, DeliveryReport['kind']> = new Map([
  ['sent', 'sent'],
  ['delivered', 'delivered'],
  ['read', 'delivered'],
  ['undelivered', 'failed'],
  ['failed', 'failed'],
  ['canceled', 'failed'],
]);

export type ReadReport =
  | { readonly kind: 'report'; readonly report: DeliveryReport }
  | { readonly kind: 'on-its-way' }
  /** Names of the fields that are missing, sent twice or malformed; never what was in them. */
  | { readonly kind: 'refused'; readonly fields: readonly string[] };

export function readReport(form: Form): ReadReport {
  const parsed = statusFields.safeParse(form);
  if (!parsed.success) return { kind: 'refused', fields: parsed.error.issues.map((issue) => issue.path.join('.')) };
  const { MessageSid: gatewayId, MessageStatus, ErrorCode } = parsed.data;
  const kind = meanings.get(MessageStatus.toLowerCase());
  if (kind === undefined) return { kind: 'on-its-way' };
  if (kind !== 'failed') return { kind: 'report', report: { kind, gatewayId } };
  const reason = ErrorCode === undefined ? MessageStatus.toLowerCase() : `${MessageStatus.toLowerCase()} ${ErrorCode}`;
  return { kind: 'report', report: { kind, reason, gatewayId } };
}
