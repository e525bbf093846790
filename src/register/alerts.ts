// The table of alerts, who was asked to take each, and its append-only history. An alert moves by compare-and-set: of two nurses
// who take it at once, one has it. A baby has one open alert at a time; what is found later joins it.
// Next: register.ts, which writes what goes with a move in the same transaction.

import type { AlertEntry, AlertRecord, AlertState, AskedEntry } from '../conversation/records.ts';
import type { Sql } from './database.ts';
import { storableJson, storableText } from './storable.ts';

interface AlertRow extends Omit<AlertRecord, 'takenBy'> {
  readonly taken_by: string | null;
}

const columns = `key, coalesce(baby, '') as baby, code, worker, facility, nurse,
  array(select nurse from alert_asks where alert = key order by step) as asked,
  array(select nurse from alert_asks as ask where alert = key and not exists
    (select from alert_asks as later where later.alert = ask.alert and later.step > ask.step and later.why <> 'beside')
    order by step) as "askedNow", at, state, taken_by, body`;

/** Joins the open alert of the baby, whose row is locked by now, or raises one; leaves a known one as it is. */
export async function recordAlert(sql: Sql, entry: AlertEntry): Promise<void> {
  const [key, baby, worker] = [entry.key, entry.baby, entry.worker].map(storableText);
  const known = await sql.query('select key from alerts where key = $1 union all select key from alert_news where key = $1', [key]);
  if (known.length > 0) return;
  const [open] = await sql.query<{ key: string }>(`select key from alerts where baby = $1 and state <> 'closed' for update`, [baby]);
  if (open !== undefined) {
    await sql.query(
      `with joined as (
         insert into alert_news (key, alert, worker, at, body) values ($1, $2, $3, $4, $5) returning alert, at, body)
       update alerts set body = joined.body from joined
         where alerts.key = joined.alert and alerts.at <= joined.at
           and not exists (select from alert_news as later where later.alert = joined.alert and later.at > joined.at)`,
      [key, open.key, worker, entry.at, storableJson(entry.body)],
    );
    return;
  }
  await sql.query(
    `with raised as (
       insert into alerts (key, baby, worker, facility, nurse, code, at, body) values ($1, $2, $3, $4, $5, $6, $7, $8)
         returning key, nurse, state, worker, at),
     asked as (
       insert into alert_asks (alert, step, nurse, why, at) select key, 0, nurse, 'raised', at from raised)
     insert into alert_history (alert, move, state_from, state_to, by, at) select key, 0, null, state, worker, at from raised`,
    [key, baby, worker, ...[entry.facility, entry.nurse, entry.code].map(storableText), entry.at, storableJson(entry.body)],
  );
}

/**
 * The alert now asks this nurse, unless a later one is asked already, or she is asked beside another. Of an alert that nobody raised,
 * nothing is written.
 */
export async function recordAsked(sql: Sql, { alert, step, nurse, why, at }: AskedEntry): Promise<void> {
  const key = storableText(alert);
  const raised = await sql.query('select from alerts where key = $1 for update', [key]);
  if (raised.length === 0) return;
  await sql.query(
    `with asked as (
       insert into alert_asks (alert, step, nurse, why, at) values ($1, $2, $3, $4, $5) on conflict do nothing returning alert, step, nurse)
     update alerts set nurse = asked.nurse from asked
       where alerts.key = asked.alert and $4 <> 'beside'
         and not exists (select from alert_asks as later where later.alert = $1 and later.step > $2 and later.why <> 'beside')`,
    [key, step, storableText(nurse), why, at],
  );
}

/** Those with this code that are not closed, newest first. */
export async function findAlerts(sql: Sql, code: string): Promise<AlertRecord[]> {
  const rows = await sql.query<AlertRow>(`select ${columns} from alerts where code = $1 and state <> 'closed' order by at desc, key`, [
    storableText(code),
  ]);
  return rows.map(toRecord);
}

export async function alertOf(sql: Sql, baby: string): Promise<AlertRecord | null> {
  const [row] = await sql.query<AlertRow>(`select ${columns} from alerts where baby = $1 and state <> 'closed'`, [storableText(baby)]);
  return row === undefined ? null : toRecord(row);
}

/** As it stands now; locked until the transaction ends. */
export async function lockAlert(sql: Sql, key: string): Promise<AlertRecord | null> {
  const [row] = await sql.query<AlertRow>(`select ${columns} from alerts where key = $1 for update`, [storableText(key)]);
  return row === undefined ? null : toRecord(row);
}

/** False: it was not in state `from`, or another person has it; nothing was written. */
export async function moveAlert(sql: Sql, key: string, from: AlertState, to: AlertState, by: string, at: number): Promise<boolean> {
  const moved = await sql.query(
    `with moved as (
       update alerts set state = $3, moves = moves + 1,
         taken_by = case $3 when 'open' then null when 'taken' then $4 else coalesce(taken_by, $4) end
        where key = $1 and state = $2 and ($3 <> 'taken' or taken_by is null or taken_by = $4) returning key, moves)
     insert into alert_history (alert, move, state_from, state_to, by, at)
       select key, moves, $2, $3, $4, $5::bigint from moved returning alert`,
    [storableText(key), from, to, storableText(by), at],
  );
  return moved.length > 0;
}

export async function closeAlertOf(sql: Sql, baby: string, by: string, at: number): Promise<void> {
  const [open] = await sql.query<{ key: string; state: AlertState }>(
    `select key, state from alerts where baby = $1 and state <> 'closed' for update`,
    [storableText(baby)],
  );
  if (open !== undefined) await moveAlert(sql, open.key, open.state, 'closed', by, at);
}

function toRecord({ taken_by: takenBy, ...row }: AlertRow): AlertRecord {
  return { ...row, takenBy };
}
