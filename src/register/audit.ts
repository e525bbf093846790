// The audit trail: who changed what, append-only. Next: entries.ts.

import type { AuditEntry } from '../conversation/records.ts';
import type { Sql } from './database.ts';
import { storableJson } from './storable.ts';

/** Leaves a known line as it is. */
export async function recordAudit(sql: Sql, entries: readonly AuditEntry[]): Promise<void> {
  if (entries.length === 0) return;
  await sql.query(
    `insert into audit (key, by, what, about, at, body)
       select key, by, what, about, at, coalesce(body, 'null')
       from jsonb_to_recordset($1::jsonb) as line (key text, by text, what text, about text, at bigint, body jsonb)
     on conflict do nothing`,
    [storableJson(entries)],
  );
}
