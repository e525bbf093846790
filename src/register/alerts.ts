// The table of alerts and its append-only history. An alert moves by compare-and-set: of two nurses who take it at
// once, one has it. What must go with a move (texts) is written by register.ts in the same transaction.
// Next: register.ts.

import type { AlertRecord, AlertState, Entry } from '../conversation/ports.ts';
import type { Sql } from './database.ts';
import { storableJson, storableText } from './storable.ts';

export type AlertEntry = Extract<Entry, { kind: 'alert' }>;

interface AlertRow extends Omit<AlertRecord, 'takenBy'> {
  readonly taken_by: string | null;
  readonly moves: number;
}

const columns = 'key, code, worker, facility, nurse, at, state, taken_by, moves, body';

/** Raises an alert, with the first row of its history; leaves a known one as it is. */
export async function recordAlert(sql: Sql, entry: AlertEntry): Promise<void> {
  await sql.query(
    `with raised as (
       insert into alerts (key, worker, facility, nurse, code, at, body) values ($1, $2, $3, $4, $5, $6, $7)
         on conflict do nothing returning key, state, worker, at)
     insert into alert_history (alert, move, state_from, state_to, by, at)
       select key, 0, null, state, worker, at from raised`,
    [...[entry.key, entry.worker, entry.facility, entry.nurse, entry.code].map(storableText), entry.at, storableJson(entry.body)],
  );
}

/** Those with this code that are not closed, newest first. */
export async function findAlerts(sql: Sql, code: string): Promise<AlertRecord[]> {
  const rows = await sql.query<AlertRow>(`select ${columns} from alerts where code = $1 and state <> 'closed' order by at desc, key`, [
    storableText(code),
  ]);
  return rows.map(toRecord);
}

/** The alert after the move, which its history now tells; null when it was not in state `from`. */
export async function moveAlert(
  sql: Sql,
  key: string,
  from: AlertState,
  to: AlertState,
  by: string,
  at: number,
): Promise<AlertRecord | null> {
  const who = storableText(by);
  const [moved] = await sql.query<AlertRow>(
    `update alerts set state = $3, moves = moves + 1,
       taken_by = case $3 when 'open' then null when 'taken' then $4 else coalesce(taken_by, $4) end
      where key = $1 and state = $2 returning ${columns}`,
    [storableText(key), from, to, who],
  );
  if (!moved) return null;
  await sql.query('insert into alert_history (alert, move, state_from, state_to, by, at) values ($1, $2, $3, $4, $5, $6)', [
    moved.key,
    moved.moves,
    from,
    to,
    who,
    at,
  ]);
  return toRecord(moved);
}

function toRecord({ taken_by: takenBy, moves: _, ...row }: AlertRow): AlertRecord {
  return { ...row, takenBy };
}
