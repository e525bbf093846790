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
