// The table of babies: who each is and who follows it. A row is what its examinations and its news say together, whatever order
// they came in, so that nothing depends on which arrived first. Next: baby-records.ts, which reads them.

import type { BabyNewsEntry, Entry } from '../conversation/records.ts';
import { closeAlertOf } from './alerts.ts';
import type { Sql } from './database.ts';
import { voidWorkOf } from './due-work.ts';
import { recordReferralNews, referralOf } from './referrals.ts';
import { storableJson, storableText } from './storable.ts';

/** Locks the babies that the entries speak of, in the order of their ids, and begins the rows of those not yet seen. */
export async function lockBabies(sql: Sql, entries: readonly Entry[]): Promise<void> {
  const seen = entries.filter((entry) => entry.kind === 'examination' || entry.kind === 'alert' || entry.kind === 'referral');
  if (seen.length > 0) {
    await sql.query(
      `insert into babies (id, code, facility, worker, first_at)
         select distinct on (baby) baby, code, facility, worker, at
           from jsonb_to_recordset($1::jsonb) as seen (baby text, code text, facility text, worker text, at bigint)
           order by baby, at
         on conflict (id) do update set first_at = least(babies.first_at, excluded.first_at)`,
      [storableJson(seen.map(({ baby, code, facility, worker, at }) => ({ baby, code, facility, worker, at })))],
    );
  }
  const told = entries.flatMap((entry) => (entry.kind === 'baby-news' ? [storableText(entry.baby)] : []));
  if (told.length > 0) await sql.query('select from babies where id = any($1) order by id for no key update', [told]);
}

/**
 * Leaves out what was said of a baby before it was erased, in whichever order the two came. What is said later is a new record
 * and brings the baby back. So does an alert that is not in the register yet: a worker was told that help was called, and it is.
 */
export async function withoutErased<One extends Entry>(sql: Sql, entries: readonly One[]): Promise<readonly One[]> {
  const erased = await lockErased(
    sql,
    [...new Set(entries.map(babyOf))].filter((baby) => baby !== null),
  );
  if (erased.size === 0) return entries;
  const known = await knownAlerts(sql, entries);
  const erasedAtOf = (entry: Entry): number | undefined => erased.get(babyOf(entry) ?? '');
  const bringsBack = (entry: One): boolean =>
    (entry.kind === 'alert' && !known.has(entry.key)) ||
    ((entry.kind === 'examination' || entry.kind === 'referral') && entry.at > (erasedAtOf(entry) ?? 0));
  const back = new Map(entries.filter((entry) => erasedAtOf(entry) !== undefined && bringsBack(entry)).map((one) => [babyOf(one), one]));
  await bringBack(sql, [...back.values()]);
  return entries.filter((entry) => {
    const erasedAt = erasedAtOf(entry);
    return erasedAt === undefined || (back.has(babyOf(entry)) && (entry.at > erasedAt || isOfAlert(entry)));
  });
}

function babyOf(entry: Entry): string | null {
  return 'baby' in entry && entry.baby !== undefined ? storableText(entry.baby) : null;
}

/** An alert, and what sees to it that somebody takes it. */
function isOfAlert(entry: Entry): boolean {
  return entry.kind === 'alert' || (entry.kind === 'text' && entry.urgent) || (entry.kind === 'due' && entry.alert !== undefined);
}

/** When each of them that is erased was; none of them can be erased until the transaction ends. */
async function lockErased(sql: Sql, babies: readonly string[]): Promise<ReadonlyMap<string, number>> {
  if (babies.length === 0) return new Map();
  const rows = await sql.query<{ id: string; status: string; erasedAt: number | null }>(
    'select id, status, erased_at as "erasedAt" from babies where id = any($1) order by id for key share',
    [babies],
  );
  return new Map(rows.filter(({ status }) => status === 'erased').map(({ id, erasedAt }) => [id, erasedAt ?? 0]));
}

async function knownAlerts(sql: Sql, entries: readonly Entry[]): Promise<ReadonlySet<string>> {
  const keys = entries.flatMap(({ kind, key }) => (kind === 'alert' ? [storableText(key)] : []));
  if (keys.length === 0) return new Set();
  const rows = await sql.query<{ key: string }>(
    'select key from alerts where key = any($1) union all select key from alert_news where key = any($1)',
    [keys],
  );
  return new Set(rows.map(({ key }) => key));
}

/** Followed again, under the code that it is spoken of now. */
async function bringBack(sql: Sql, entries: readonly Entry[]): Promise<void> {
  for (const entry of entries) {
    if (entry.kind !== 'examination' && entry.kind !== 'alert' && entry.kind !== 'referral') continue;
    await sql.query(`update babies set status = 'followed', code = $2, facility = $3, worker = $4 where id = $1`, [
      ...[entry.baby, entry.code, entry.facility, entry.worker].map(storableText),
    ]);
  }
}

/** Brings a locked baby's row to what is written of it; an erased one stays empty. */
export async function settleBaby(sql: Sql, baby: string): Promise<void> {
  await sql.query(
    `with examined as (
       select (array_agg(key order by at desc, key desc))[1] as last_key, max(at) as last_at,
              (array_agg(worker order by at, key))[1] as first_worker
         from examinations where baby = $1),
     known as (
       -- Of each fact the one that was heard last; what is not known hides nothing.
       select coalesce(jsonb_object_agg(name, value order by at, key), '{}') as facts
         from examinations, jsonb_each(facts) as fact (name, value) where baby = $1 and value <> 'null'),
     news as (
       select (array_agg(to_worker order by at desc, key desc) filter (where news = 'handed-over'))[1] as worker,
              bool_or(news = 'died') as has_died, max(at) filter (where news = 'moved') as moved_at
         from baby_history where baby = $1)
     update babies set
       sex = facts ->> 'sex',
       born_at = round((facts ->> 'bornAt')::numeric),
       gestation_days = round((facts ->> 'gestationDays')::numeric),
       birth_weight_grams = round((facts ->> 'birthWeightGrams')::numeric),
       card = facts ->> 'card',
       last_examination = last_key,
       last_at = examined.last_at,
       worker = coalesce(news.worker, first_worker, babies.worker),
       status = case when has_died then 'died' when moved_at >= coalesce(examined.last_at, moved_at) then 'moved' else 'followed' end
       from examined, known, news where id = $1 and status <> 'erased'`,
    [storableText(baby)],
  );
}

/** News that is known already changes nothing. A death ends all that was open of the baby; a move ends its reminders. */
export async function recordBabyNews(sql: Sql, entry: BabyNewsEntry): Promise<void> {
  const { key, baby, news, to, by, at } = entry;
  const written = await sql.query(
    `insert into baby_history (key, baby, news, to_worker, by, at) values ($1, $2, $3, $4, $5, $6) on conflict do nothing returning key`,
    [...[key, baby, news].map(storableText), to === null ? null : storableText(to), storableText(by), at],
  );
  if (written.length === 0) return;
  await settleBaby(sql, baby);
  if (news === 'handed-over') return;
  await voidWorkOf(sql, baby, at);
  if (news === 'moved') return;
  await closeAlertOf(sql, baby, by, at);
  const referral = await referralOf(sql, baby);
  if (referral !== null) await recordReferralNews(sql, { kind: 'referral-news', key, referral, news: 'died', reason: null, by, at });
}
