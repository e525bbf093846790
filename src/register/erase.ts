// Erases a baby: who it is, what was found, and what was written about it are gone from every table. What was counted of it stays
// counted: examinations, urgencies, minutes, contacts, what was not assessed, texts and their segments. What was said of it before
// and comes later is not written (erased-babies.ts). A phone's own session keeps its last babies until it runs out; a baby that is
// examined again from there is a new record, and can be erased again. Next: src/cli/erase.ts.

import { createHash } from 'node:crypto';
import { measure } from '../messages/segments.ts';
import { recordAudit } from './audit.ts';
import type { Database, Sql } from './database.ts';
import { storableJson, storableText } from './storable.ts';

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

/**
 * `open`: an alert or a referral of it is not closed; somebody is still to help this baby, and nothing was erased.
 * `busy`: something is being written of it at this moment, and nothing was erased.
 */
export type Erased = 'erased' | 'open' | 'busy' | 'unknown';

const mostTries = 20;
/** Shorter than the pause after which the server ends one of two that wait crosswise: it is this one that gives way. */
const patience = "set local lock_timeout = '200ms'";
const gaveWay = new Set(['55P03', '40P01']);

/** Takes  by: who asked for it, for the audit trail. */
export async function eraseBaby(database: Database, id: string, by: string, at: number): Promise<Erased> {
  for (let tries = 0; tries < mostTries; tries += 1) {
    try {
      return await database.transaction((sql) => eraseOnce(sql, id, by, at));
    } catch (cause) {
      if (!gaveWay.has((cause as { code?: string }).code ?? '')) throw cause;
    }
  }
  return 'busy';
}

async function eraseOnce(sql: Sql, id: string, by: string, at: number): Promise<Erased> {
  await sql.script(patience);
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
    `update babies set status = 'erased', erased_at = $2, code = '', sex = null, born_at = null, gestation_days = null,
       birth_weight_grams = null, card = null where id = $1`,
    [baby, at],
  );
  await sql.query(
    `update due_work set state = case state when 'pending' then 'void' else state end, settled_at = coalesce(settled_at, $2),
       body = case work when 'contact' then jsonb_build_object('from', body -> 'from', 'to', body -> 'to') else 'null' end where baby = $1`,
    [baby, at],
  );
  // Ids of findings, without what was found.
  await sql.query(
    `update examinations set code = '', facts = null,
       body = jsonb_build_object('interpretation', jsonb_build_object('missing', coalesce(body #> '{interpretation,missing}', '[]')))
      where baby = $1`,
    [baby],
  );
  await sql.query(`update alerts set code = '', body = '{}' where baby = $1`, [baby]);
  await sql.query(`update alert_news set body = '{}' where alert in (select key from alerts where baby = $1)`, [baby]);
  await sql.query(`update referrals set code = '', body = '{}' where baby = $1`, [baby]);
  await eraseTexts(sql, baby, found.first_at, at);
  // The trail says that and where, and no more of whom than a digest: whoever asked can be shown that it was done.
  const about = createHash('sha256').update(id).digest('hex');
  await recordAudit(sql, [
    { kind: 'audit', key: `erased:${about}:${at}`, by, what: 'baby-erased', about, at, body: { facility: found.facility } },
  ]);
  return 'erased';
}

/** A text goes out before the examination ends in which it was raised; none is older than this. */
const longestExaminationMilliseconds = 31 * 86_400_000;

/** What waits is not sent any more. That a text went out and what it cost stays. */
async function eraseTexts(sql: Sql, baby: string, firstAt: number, at: number): Promise<void> {
  const texts = await sql.query<{ key: string; text: string }>(
    `select key, text from texts_out where text <> '' and at >= $2
       and (baby = $1 or (baby is null and strpos(key || ':', ':' || $1 || ':') > 0)) order by key for update`,
    [baby, firstAt - longestExaminationMilliseconds],
  );
  await sql.query(
    `update texts_out set text = '', segments = measured.segments, lost_told_at = coalesce(lost_told_at, $2),
       reason = case when state = 'due' then 'erased' else reason end,
       settled_at = case when state = 'due' then $2 else settled_at end,
       state = case when state = 'due' then 'given-up' else state end
     from jsonb_to_recordset($1::jsonb) as measured (key text, segments smallint) where texts_out.key = measured.key`,
    [storableJson(texts.map(({ key, text }) => ({ key, segments: measure(text).segments }))), at],
  );
}
