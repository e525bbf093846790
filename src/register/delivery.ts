// What the gateway reports of a text after it was sent. Reports come twice, late, out of order, and before the answer to the
// sending itself; some come for a sending whose answer was lost. A report tells of one sending: news of an earlier one
// must neither stop nor repeat the one that followed it. Next: texts.ts.

import type { DeliveryReport } from '../conversation/records.ts';
import type { Sql } from './database.ts';
import { outcomeOfFailedDelivery, type Resending } from './resending.ts';
import { storableText } from './storable.ts';

interface ReportedRow {
  readonly key: string;
  readonly state: string;
  readonly urgent: boolean;
  readonly attempts: number;
  readonly gateway_id: string | null;
  readonly reason: string | null;
  readonly failed_attempt: number;
  readonly failed_ids: readonly string[];
  readonly wordless: boolean;
}

/** Of a text that nobody queued: nothing. Takes reference: that of src/conversation/text-reference.ts. */
export async function reportText(sql: Sql, reference: string, report: DeliveryReport, at: number, resending: Resending): Promise<void> {
  const [text] = await sql.query<ReportedRow>(
    `select key, state, urgent, attempts, gateway_id, reason, failed_attempt, failed_ids, text = '' as wordless from texts_out
      where md5(key) = $1 and state <> 'delivered' for update`,
    [reference],
  );
  if (text === undefined) return;
  const { key } = text;
  const gatewayId = report.gatewayId === undefined ? null : storableText(report.gatewayId);
  if (report.kind === 'delivered') await settle(sql, key, 'delivered', gatewayId, at);
  else if (report.kind === 'sent') {
    if (isNewsOfSent(text, gatewayId)) await settle(sql, key, 'sent', gatewayId, at);
  } else if (isNewsOfFailed(text, gatewayId)) await fail(sql, key, report.reason, gatewayId, text, at, resending);
}

/** The reference of the text to this phone that the gateway gave this id; null: of none. */
export async function textSentAs(sql: Sql, gatewayId: string, to: string): Promise<string | null> {
  const [text] = await sql.query<{ readonly reference: string }>(
    'select md5(key) as reference from texts_out where gateway_id = $1 and recipient = $2 order by settled_at desc limit 1',
    [storableText(gatewayId), storableText(to)],
  );
  return text?.reference ?? null;
}

function settle(sql: Sql, key: string, state: 'sent' | 'delivered', gatewayId: string | null, at: number): Promise<unknown> {
  return sql.query(
    `update texts_out set state = $2, gateway_id = coalesce(gateway_id, $3), reason = null, settled_at = $4, reported_at = $4 where key = $1`,
    [storableText(key), state, gatewayId, at],
  );
}

/** It went out, although nobody knew; said of a sending that failed since, it comes too late. */
function isNewsOfSent({ state, reason, failed_ids }: ReportedRow, gatewayId: string | null): boolean {
  if (gatewayId !== null && failed_ids.includes(gatewayId)) return false;
  return state === 'unknown' || state === 'given-up' || (state === 'due' && reason === null);
}

/** Each failure counts once, and only while the sending that it tells of is the last. */
function isNewsOfFailed(text: ReportedRow, gatewayId: string | null): boolean {
  if (text.state === 'undelivered' || text.state === 'given-up' || text.attempts === 0) return false;
  if (text.failed_attempt === text.attempts) return false;
  if (gatewayId === null) return true;
  if (text.failed_ids.includes(gatewayId)) return false;
  // While a sending is not answered its id is not known, and that of an earlier one may still stand here.
  return text.state === 'due' || text.gateway_id === null || text.gateway_id === gatewayId;
}

function fail(
  sql: Sql,
  key: string,
  reason: string,
  gatewayId: string | null,
  text: ReportedRow,
  at: number,
  resending: Resending,
): Promise<unknown> {
  const next = outcomeOfFailedDelivery(text, at, resending);
  return sql.query(
    `update texts_out set state = $2, due_at = coalesce($3, due_at), reason = $4, settled_at = $5, reported_at = $5,
       failed_attempt = attempts, failed_ids = case when $6::text is null then failed_ids else array_append(failed_ids, $6) end
      where key = $1`,
    [storableText(key), next.state, next.dueAt, storableText(reason), at, gatewayId],
  );
}
