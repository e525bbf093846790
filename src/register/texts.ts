// The table of texts to send: claimed by one sender at a time, urgent ones first, sent again after growing pauses.
// A sender that dies lets its claim run out, and its texts are due again: twice is better than never.
// Next: register.ts.

import type { Entry, Sent, TextOut } from '../conversation/ports.ts';
import type { Sql } from './database.ts';
import { storableText } from './storable.ts';

export type TextEntry = Extract<Entry, { kind: 'text' }>;

/** The pause after the first failed attempt, after the second, and so on; a text that fails once more is given up. */
export interface Resending {
  readonly urgentPausesMilliseconds: readonly number[];
  readonly otherPausesMilliseconds: readonly number[];
}

const SECOND = 1_000;
const MINUTE = 60 * SECOND;

export const usualResending: Resending = {
  urgentPausesMilliseconds: [10 * SECOND, 20 * SECOND, 40 * SECOND, MINUTE, 2 * MINUTE, 5 * MINUTE, 10 * MINUTE, 20 * MINUTE],
  otherPausesMilliseconds: [MINUTE, 5 * MINUTE, 20 * MINUTE, 60 * MINUTE, 240 * MINUTE],
};

/** Queues a text, due at once; leaves a known one as it is. */
export async function recordText(sql: Sql, entry: TextEntry): Promise<void> {
  await sql.query(
    `insert into texts_out (key, recipient, text, urgent, at, due_at) values ($1, $2, $3, $4, $5, $5)
      on conflict do nothing`,
    [...[entry.key, entry.to, entry.text].map(storableText), entry.urgent, entry.at],
  );
}

/** Due texts, each claimed until `at + claimMilliseconds`, urgent ones first and then in the order they were queued. */
export async function claimTexts(sql: Sql, at: number, limit: number, claimMilliseconds: number, resending: Resending): Promise<TextOut[]> {
  // Past its last attempt and still due: its senders died with it, every time. It may be the text that kills them.
  await sql.query(
    `with spent as materialized (
       select key from texts_out where state = 'due' and due_at <= $1
         and attempts > case when urgent then $2::integer else $3::integer end for update skip locked)
     update texts_out set state = 'given-up', reason = 'sender-lost', settled_at = $1
       from spent where texts_out.key = spent.key`,
    [at, resending.urgentPausesMilliseconds.length, resending.otherPausesMilliseconds.length],
  );
  // Picked once and for all before the update: as a subquery the planner may run it again and pick more.
  return sql.query<TextOut>(
    `with picked as materialized (
       select key from texts_out where state = 'due' and due_at <= $1
         order by urgent desc, at, key limit $2 for update skip locked),
     claimed as (
       update texts_out set attempts = attempts + 1, due_at = $3 from picked where texts_out.key = picked.key
         returning texts_out.*)
     select key, recipient as "to", text, urgent, attempts from claimed order by urgent desc, at, key`,
    [at, limit, at + claimMilliseconds],
  );
}

/** Writes down what became of a text. News of one that was sent already changes nothing: sent is final. */
export async function settleText(sql: Sql, key: string, sent: Sent, at: number, resending: Resending): Promise<void> {
  const [text] = await sql.query<{ urgent: boolean; attempts: number }>(
    `select urgent, attempts from texts_out where key = $1 and state <> 'sent' for update`,
    [storableText(key)],
  );
  if (!text) return;
  const next = outcomeOf(sent, text, at, resending);
  await sql.query(
    `update texts_out set state = $2, due_at = coalesce($3, due_at), gateway_id = $4, reason = $5, settled_at = $6 where key = $1`,
    [
      storableText(key),
      next.state,
      next.dueAt,
      sent.kind === 'sent' ? storableText(sent.gatewayId) : null,
      sent.kind === 'failed' ? storableText(sent.reason) : null,
      at,
    ],
  );
}

interface Outcome {
  readonly state: 'due' | 'sent' | 'unknown' | 'given-up';
  /** Null: stays as it is. */
  readonly dueAt: number | null;
}

/**
 * Sent is sent. When nobody knows, an urgent text goes out again, since a nurse who reads it twice loses nothing;
 * any other does not, since each costs money. A failed one is due again after its pause, while it has one left.
 */
export function outcomeOf(sent: Sent, text: { urgent: boolean; attempts: number }, at: number, resending: Resending): Outcome {
  if (sent.kind === 'sent') return { state: 'sent', dueAt: null };
  if (sent.kind === 'unknown' && !text.urgent) return { state: 'unknown', dueAt: null };
  const pauses = text.urgent ? resending.urgentPausesMilliseconds : resending.otherPausesMilliseconds;
  const pause = pauses[Math.max(text.attempts, 1) - 1];
  return pause === undefined ? { state: 'given-up', dueAt: null } : { state: 'due', dueAt: at + pause };
}
