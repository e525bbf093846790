// The table of texts to send: claimed by one sender at a time, urgent ones first, sent again after growing pauses.
// A sender that dies lets its claim run out, and its texts are due again. Of an urgent one twice is better than never; any other is
// marked before it goes out, and never goes out again unless it is known to have failed.
// Next: delivery.ts, what the gateway reports of them later; resending.ts.

import type { Waiting } from '../conversation/ports.ts';
import type { Sent, TextOut } from '../conversation/records.ts';
import type { Sql } from './database.ts';
import { outcomeOf, type Resending } from './resending.ts';
import { storableJson, storableText } from './storable.ts';

type WaitingText = Extract<Waiting, { kind: 'text' }>;

/** Queues texts, due at once; leaves known ones as they are. One that went out already is sent, known or not. */
export async function recordTexts(sql: Sql, entries: readonly WaitingText[]): Promise<void> {
  if (entries.length === 0) return;
  const rows = entries.map(({ key, to, text, urgent, at, baby, gatewayId }) => ({ key, to, text, urgent, at, baby, gatewayId }));
  await sql.query(
    `insert into texts_out (key, baby, recipient, text, urgent, at, due_at, state, attempts, gateway_id, settled_at)
       select key, baby, "to", text, urgent, at, at, case when "gatewayId" is null then 'due' else 'sent' end,
         case when "gatewayId" is null then 0 else 1 end, "gatewayId", case when "gatewayId" is not null then at end
       from jsonb_to_recordset($1::jsonb) as queued (key text, baby text, "to" text, text text, urgent boolean, at bigint, "gatewayId" text)
     on conflict (key) do update set state = 'sent', gateway_id = excluded.gateway_id, settled_at = excluded.settled_at
       where excluded.state = 'sent' and texts_out.state in ('due', 'unknown')`,
    [storableJson(rows)],
  );
}

/**
 * Due texts, each claimed until `at + claimMilliseconds`, urgent ones first and then in the order they were queued. One past its
 * last attempt and still due is given up: its senders died with it, every time, and it may be the text that kills them.
 */
export async function claimTexts(sql: Sql, at: number, limit: number, claimMilliseconds: number, resending: Resending): Promise<TextOut[]> {
  if ((await sql.query(`select from texts_out where state = 'due' and due_at <= $1 limit 1`, [at])).length === 0) return [];
  const last = 'case when urgent then $4::integer else $5::integer end';
  // Picked once and for all before the update: as a subquery the planner may run it again and pick more.
  return await sql.query<TextOut>(
    `with spent as materialized (
       select key from texts_out where state = 'due' and due_at <= $1 and attempts > ${last} for update skip locked),
     given_up as (
       update texts_out set state = 'given-up', reason = 'sender-lost', settled_at = $1 from spent where texts_out.key = spent.key),
     picked as materialized (
       select key from texts_out where state = 'due' and due_at <= $1 and attempts <= ${last}
         order by urgent desc, at, key limit $2 for update skip locked),
     claimed as (
       update texts_out set attempts = attempts + 1, due_at = $3 from picked where texts_out.key = picked.key
         returning texts_out.*)
     select key, recipient as "to", text, urgent, attempts from claimed order by urgent desc, at, key`,
    [at, limit, at + claimMilliseconds, resending.urgentPausesMilliseconds.length, resending.otherPausesMilliseconds.length],
  );
}

/** A text that is not urgent counts as perhaps sent from now on. False: it is due no more, and was not marked. */
export async function beginSending(sql: Sql, key: string, at: number): Promise<boolean> {
  const begun = await sql.query(
    `update texts_out set state = case when urgent then state else 'unknown' end, settled_at = case when urgent then settled_at else $2 end
      where key = $1 and state = 'due' returning key`,
    [storableText(key), at],
  );
  return begun.length > 0;
}

interface ClaimedRow {
  readonly state: string;
  readonly urgent: boolean;
  readonly attempts: number;
  readonly failed_attempt: number;
  readonly failed_ids: readonly string[];
  /** Its words are gone with the baby that they spoke of: it never goes out again. */
  readonly wordless: boolean;
}

/** Writes down what became of a text. What the gateway reported of it, and that it was sent, is final and stays. */
export async function settleText(sql: Sql, key: string, sent: Sent, at: number, resending: Resending): Promise<void> {
  const [text] = await sql.query<ClaimedRow>(
    `select state, urgent, attempts, failed_attempt, failed_ids, text = '' as wordless from texts_out where key = $1 for update`,
    [storableText(key)],
  );
  if (!text) return;
  const gatewayId = sent.kind === 'sent' ? storableText(sent.gatewayId) : null;
  if (isSettled(text, gatewayId)) {
    // The report was here before the gateway's own answer, which still tells the id.
    await sql.query('update texts_out set gateway_id = coalesce(gateway_id, $2) where key = $1', [storableText(key), gatewayId]);
    return;
  }
  const next = outcomeOf(sent, text, at, resending);
  await sql.query(
    `update texts_out set state = $2, due_at = coalesce($3, due_at), gateway_id = coalesce($4, gateway_id), reason = $5, settled_at = $6
      where key = $1`,
    [storableText(key), next.state, next.dueAt, gatewayId, sent.kind === 'failed' ? storableText(sent.reason) : null, at],
  );
}

function isSettled({ state, attempts, failed_attempt, failed_ids }: ClaimedRow, gatewayId: string | null): boolean {
  if (state === 'sent' || state === 'delivered' || state === 'undelivered') return true;
  if (gatewayId !== null && failed_ids.length > 0) return failed_ids.includes(gatewayId);
  return attempts > 0 && failed_attempt === attempts;
}
