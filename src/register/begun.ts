// The table of examinations that were begun. One is over when it is in the register, or given up; somebody looks once it has had
// the time to end. Next: src/conversation/given-up.ts, which looks.

import type { BegunEntry, BegunLook, BegunRecord } from '../conversation/records.ts';
import type { Sql } from './database.ts';
import { storableText } from './storable.ts';

/** Leaves a known one as it is. */
export async function recordBegun(sql: Sql, { key, examination, flow, worker, facility, at, lookAt }: BegunEntry): Promise<void> {
  await sql.query(
    `insert into begun (key, examination, flow, worker, facility, at, look_at) values ($1, $2, $3, $4, $5, $6, $7) on conflict do nothing`,
    [...[key, examination, flow, worker, facility].map(storableText), at, lookAt],
  );
}

/** Those to look at by then that have not ended, oldest first. */
export async function begunDue(sql: Sql, at: number, limit: number): Promise<BegunRecord[]> {
  const due = await sql.query<BegunRecord>(
    `select key, examination, flow, worker, facility, at from begun where state = 'open' and look_at <= $1 order by look_at, key limit $2`,
    [at, limit],
  );
  if (due.length === 0) return [];
  const ended = await sql.query<{ key: string }>(
    `update begun set state = 'ended' where key = any($1) and state = 'open'
       and exists (select from examinations where examinations.key = begun.examination) returning key`,
    [due.map(({ key }) => key)],
  );
  return due.filter(({ key }) => !ended.some((one) => one.key === key));
}

export async function settleBegun(sql: Sql, key: string, look: BegunLook): Promise<void> {
  if (look.kind === 'again') {
    await sql.query(`update begun set look_at = $2 where key = $1 and state = 'open'`, [storableText(key), look.at]);
    return;
  }
  const step = look.step === null ? null : storableText(look.step);
  await sql.query(`update begun set state = 'given-up', step = $2 where key = $1 and state = 'open'`, [storableText(key), step]);
}
