// What a delivery report of Kannel says: it asks an address that send.ts gave it, with the kind of report (`%d`) filled in. Which
// text, and which sending of it, stand in the address. Its words (`%A`) are not asked for: they quote the text. Next: status.ts.

import { z } from 'zod';
import type { DeliveryReport } from '../../conversation/records.ts';

const statusFields = z.object({
  text: z.string().regex(/^[0-9a-f]{32}$/),
  sending: z.string().regex(/^[\x21-\x7e]{1,64}$/),
  type: z.string().regex(/^\d{1,3}$/),
});

/** The kinds that are asked for, by Kannel's number. Others say nothing yet: the text is still on its way. */
const meanings = new Map<string, (gatewayId: string) => DeliveryReport>([
  ['1', (gatewayId) => ({ kind: 'delivered', gatewayId })],
  ['2', (gatewayId) => ({ kind: 'failed', reason: 'undelivered', gatewayId })],
  ['8', (gatewayId) => ({ kind: 'sent', gatewayId })],
  ['16', (gatewayId) => ({ kind: 'failed', reason: 'rejected', gatewayId })],
]);

/** Which reports send.ts asks for: the kinds above, added up. */
export const REPORTS_ASKED_FOR = [...meanings.keys()].reduce((mask, kind) => mask + Number(kind), 0);

export type ReadReport =
  | { readonly kind: 'report'; readonly reference: string; readonly report: DeliveryReport }
  | { readonly kind: 'on-its-way' }
  /** Names of the fields that are missing, sent twice or malformed; never what was in them. */
  | { readonly kind: 'refused'; readonly fields: readonly string[] };

export function readKannelReport(query: Readonly<Record<string, unknown>>): ReadReport {
  const parsed = statusFields.safeParse(query);
  if (!parsed.success) return { kind: 'refused', fields: parsed.error.issues.map((issue) => issue.path.join('.')) };
  const { text: reference, sending, type } = parsed.data;
  const report = meanings.get(type)?.(sending);
  return report === undefined ? { kind: 'on-its-way' } : { kind: 'report', reference, report };
}
