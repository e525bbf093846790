// The table of what falls due. Work stands only as long as what it follows from: a later examination, a death or a move makes it
// void. Work of an alert stands until its alert is closed, whatever becomes of the baby. Next: answer-due.ts.

import type { DueEntry } from '../conversation/records.ts';
import type { Sql } from './database.ts';
import { storableJson, storableText } from './storable.ts';

/** Leaves known work as it is. Of a baby that is followed no more it is void from the start. */
export async function recordDue(sql: Sql, entries: readonly DueEntry[]): Promise<void> {
  if (entries.length === 0) return;
  await sql.query(
    `insert into due_work (key, work, baby, examination, alert, referral, due_at, state, body)
       select key, work, baby, examination, alert, referral, "dueAt",
         case when alert is null and exists (select from babies where id = baby and status <> 'followed') then 'void' else 'pending' end,
         coalesce(body, 'null')
       from jsonb_to_recordset($1::jsonb) as due (key text, work text, baby text, examination text, alert text, referral text, "dueAt" bigint, body jsonb)
     on conflict do nothing`,
    [
      storableJson(
        entries.map(({ key, work, baby, examination, alert, referral, dueAt, body }) => ({
          key,
          work,
          baby,
          examination,
          alert,
          referral,
          dueAt,
          body,
        })),
      ),
    ],
  );
}

/** After a death or a move: nothing more is asked of the worker. */
export async function voidWorkOf(sql: Sql, baby: string, at: number): Promise<void> {
  await sql.query(
    `update due_work set state = 'void', settled_at = $2 where baby = $1 and state in ('pending', 'missed') and alert is null`,
    [storableText(baby), at],
  );
}

export interface DueRow {
  readonly key: string;
  readonly work: string;
  readonly baby: string;
  readonly examination: string | null;
  readonly alert: string | null;
  readonly referral: string | null;
  readonly dueAt: number;
  readonly times: number;
  readonly body: unknown;
}

/** Without a lock: spares a transaction when nothing is due, as most of the time. */
export async function hasDue(sql: Sql, at: number): Promise<boolean> {
  return (await sql.query(`select from due_work where state = 'pending' and due_at <= $1 limit 1`, [at])).length > 0;
}

/** The piece that is due longest, locked until the transaction ends; what another process holds is passed over. */
export async function lockDue(sql: Sql, at: number): Promise<DueRow | null> {
  const [row] = await sql.query<DueRow>(
    `select key, work, baby, examination, alert, referral, due_at as "dueAt", times, body
       from due_work where state = 'pending' and due_at <= $1 order by due_at, key limit 1 for update skip locked`,
    [at],
  );
  return row ?? null;
}

export async function settleDue(sql: Sql, key: string, state: 'done' | 'missed' | 'void', at: number): Promise<void> {
  await sql.query('update due_work set state = $2, settled_at = $3 where key = $1', [key, state, at]);
}

export async function dueAgain(sql: Sql, key: string, at: number): Promise<void> {
  await sql.query('update due_work set due_at = $2, times = times + 1, faults = 0 where key = $1', [key, at]);
}

/** Due later, as if it had never been due: it does not count as asked. */
export async function holdDue(sql: Sql, key: string, at: number): Promise<void> {
  await sql.query('update due_work set due_at = $2, faults = 0 where key = $1', [key, at]);
}

const SECOND = 1_000;
const firstPauseMilliseconds = 10 * SECOND;
/** Short enough for an alert that nobody has taken. */
const longestPauseMilliseconds = 10 * 60 * SECOND;

/** Work that could not be answered is due again after a pause that doubles; it does not count as asked. */
export async function postponeDue(sql: Sql, key: string, at: number): Promise<void> {
  await sql.query(
    `update due_work set due_at = $2::bigint + least($3 * (2 ^ least(faults, 20)), $4)::bigint, faults = faults + 1
      where key = $1 and state = 'pending'`,
    [key, at, firstPauseMilliseconds, longestPauseMilliseconds],
  );
}
