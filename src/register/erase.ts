// Erases a baby: who it is, what was found, and what was written about it are gone from every table; that it was examined, when,
// where, how urgent it was and how fast it was helped stays counted; contacts and findings do not. What is still to be told of an erased baby
// is never written (entries.ts). A phone's own session keeps its last babies until it runs out. Next: src/cli/erase.ts.

import { createHash } from 'node:crypto';
import { recordAudit } from './audit.ts';
import type { Database, Sql } from './database.ts';
import { storableText } from './storable.ts';

export interface Erasable {
  readonly id: string;
  readonly code: string;
  readonly facility: string;
  readonly status: string;
  /** When it was seen last, in epoch milliseconds. */
  readonly seenAt: number;
}

const erasable = `select id, code, facility, status, coalesce(last_at, first_at) as "seenAt" from babies where status <> 'erased'`;

/** With this code at a facility, followed or not; newest first. */
export function findByCode(sql: Sql, facility: string, code: string): Promise<Erasable[]> {
  return sql.query(`${erasable} and facility = $1 and code = $2 order by first_at desc, id`, [facility, code].map(storableText));
}

export function findById(sql: Sql, id: string): Promise<Erasable[]> {
  return sql.query(`${erasable} and id = $1`, [storableText(id)]);
}

/** Seen last before then, with nothing open; oldest first. */
export function findSeenBefore(sql: Sql, before: number, limit: number): Promise<Erasable[]> {
  return sql.query(
    `${erasable} and coalesce(last_at, first_at) < $1
       and not exists (select from alerts where baby = babies.id and state <> 'closed')
       and not exists (select from referrals where baby = babies.id and state <> 'closed')
     order by coalesce(last_at, first_at), id limit $2`,
    [before, limit],
  );
}

/** `open`: an alert or a referral of it is not closed; somebody is still to help this baby, and nothing was erased. */
export type Erased = 'erased' | 'open' | 'unknown';

/** Takes  by: who asked for it, for the audit trail. */
export function eraseBaby(database: Database, id: string, by: string, at: number): Promise<Erased> {
  return database.transaction(async (sql) => {
    const baby = storableText(id);
    const [found] = await sql.query<{ facility: string; first_at: number; status: string }>(
      'select facility, first_at, status from babies where id = $1 for update',
      [baby],
    );
    if (found === undefined || found.status === 'erased') return 'unknown';
    const open = await sql.query(
      `select from alerts where baby = $1 and state <> 'closed' union all select from referrals where baby = $1 and state <> 'closed'`,
      [baby],
    );
    if (open.length > 0) return 'open';
    await sql.query(
      `update babies set status = 'erased', code = '', sex = null, born_at = null, gestation_days = null, birth_weight_grams = null,
         card = null where id = $1`,
      [baby],
    );
    await sql.query(
      `update due_work set state = case when state in ('pending', 'missed') then 'void' else state end, body = 'null' where baby = $1`,
      [baby],
    );
    await sql.query(`update examinations set code = '', facts = null, body = '{}' where baby = $1`, [baby]);
    await sql.query(`update alerts set code = '', body = '{}' where baby = $1`, [baby]);
    await sql.query(`update alert_news set body = '{}' where alert in (select key from alerts where baby = $1)`, [baby]);
    await sql.query(`update referrals set code = '', body = '{}' where baby = $1`, [baby]);
    await eraseTexts(sql, baby, found.first_at, at);
    // The trail says that and where, and no more of whom than a digest: whoever asked can be shown that it was done.
    const about = createHash('sha256').update(id).digest('hex');
    await recordAudit(sql, [
      { kind: 'audit', key: `erased:${about}`, by, what: 'baby-erased', about, at, body: { facility: found.facility } },
    ]);
    return 'erased';
  });
}

/** A text goes out before the examination ends in which it was raised; none is older than this. */
const longestExaminationMilliseconds = 31 * 86_400_000;

/** What waits is not sent any more. That a text went out stays, and what it cost is forgotten with its words. */
async function eraseTexts(sql: Sql, baby: string, firstAt: number, at: number): Promise<void> {
  await sql.query(
    `update texts_out set text = '', lost_told_at = coalesce(lost_told_at, $3),
       reason = case when state = 'due' then 'erased' else reason end,
       settled_at = case when state = 'due' then $3 else settled_at end,
       state = case when state = 'due' then 'given-up' else state end
     where at >= $2 and (baby = $1 or strpos(key || ':', ':' || $1 || ':') > 0)`,
    [baby, firstAt - longestExaminationMilliseconds, at],
  );
}
