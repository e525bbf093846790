// The table of referrals, and the append-only history of what was heard of each. Where news leads is in src/on-call/referral.ts.
// A baby has one referral at a time that is not closed. Next: baby-records.ts, which reads them with their baby.

import type { ReferralEntry, ReferralNewsEntry, ReferralRecord } from '../conversation/records.ts';
import type { ReferralState } from '../on-call/referral.ts';
import { referralAfter } from '../on-call/referral.ts';
import type { Sql } from './database.ts';
import { storableJson, storableText } from './storable.ts';

/** A ReferralRecord as one jsonb, of the table under that name; null when there is none. */
export const referralJson = (table: string): string =>
  `case when ${table}.key is not null then jsonb_build_object(${[
    ['key', 'key'],
    ['baby', 'baby'],
    ['code', 'code'],
    ['worker', 'worker'],
    ['facility', 'facility'],
    ['receiving', 'receiving'],
    ['urgency', 'urgency'],
    ['at', 'at'],
    ['state', 'state'],
    ['leftAt', 'left_at'],
    ['arrivedAt', 'arrived_at'],
    ['outcome', 'outcome'],
    ['reason', 'reason'],
    ['body', 'body'],
  ]
    .map(([name, column]) => `'${name}', ${table}.${column}`)
    .join(', ')}) end`;

/**
 * Left out while the baby, whose row is locked by now, has another that is not closed; leaves a known one as it is. An urgent one
 * takes the place of one that is not, unless the baby has left on that: it has shorter limits, and a refusal is asked anew.
 */
export async function recordReferral(sql: Sql, entry: ReferralEntry): Promise<void> {
  const { key, baby, worker, facility, receiving, code, urgency, at, body } = entry;
  if (urgency === 'urgent') await overtakeLessUrgent(sql, entry);
  await sql.query(
    `insert into referrals (key, baby, worker, facility, code, receiving, urgency, at, body)
       select $1, $2, $3, $4, $5, $6, $7, $8::bigint, $9::jsonb
         where not exists (select from referrals where baby = $2 and state <> 'closed')
       on conflict do nothing`,
    [
      ...[key, baby, worker, facility, code].map(storableText),
      receiving === null ? null : storableText(receiving),
      urgency,
      at,
      storableJson(body),
    ],
  );
}

async function overtakeLessUrgent(sql: Sql, { key, baby, worker, at }: ReferralEntry): Promise<void> {
  const [open] = await sql.query<{ key: string }>(
    `select key from referrals where baby = $1 and state <> 'closed' and urgency = 'refer' and at <= $2
       and not exists (select from referrals as known where known.key = $3)`,
    [storableText(baby), at, storableText(key)],
  );
  if (open === undefined) return;
  const news = { kind: 'referral-news', referral: open.key, news: 'became-urgent', reason: null, by: worker, at } as const;
  await recordReferralNews(sql, { ...news, key: `became-urgent:${key}` });
}

/** Moves the referral if the news does. News that is known already, or of a referral that is not there, changes nothing. */
export async function recordReferralNews(sql: Sql, entry: ReferralNewsEntry): Promise<void> {
  const { key, news, at } = entry;
  const [referral, by] = [entry.referral, entry.by].map(storableText);
  const reason = entry.reason === null ? null : storableText(entry.reason);
  const [row] = await sql.query<{ state: ReferralState }>('select state from referrals where key = $1 for update', [referral]);
  if (row === undefined) return;
  const next = referralAfter(row.state, news);
  const written = await sql.query(
    `insert into referral_history (key, referral, news, reason, by, at, state_from, state_to)
       values ($1, $2, $3, $4, $5, $6, $7, $8) on conflict do nothing returning key`,
    [storableText(key), referral, news, reason, by, at, row.state, next],
  );
  if (written.length === 0) return;
  await sql.query(
    `update referrals set state = $2,
       left_at = case when $3 = 'left' then coalesce(left_at, $4) else left_at end,
       arrived_at = case when $3 in ('arrived', 'still-in-care') then coalesce(arrived_at, $4) else arrived_at end,
       reason = case when $3 = 'refused' then coalesce($5, reason) else reason end,
       outcome = case when $2 = 'closed' then coalesce(outcome, $3) else outcome end,
       closed_at = case when $2 = 'closed' then coalesce(closed_at, $4) else closed_at end
      where key = $1`,
    [referral, next, news, at, reason],
  );
}

/** Those with this code that are not closed, newest first. */
export async function findReferrals(sql: Sql, code: string): Promise<ReferralRecord[]> {
  const rows = await sql.query<{ referral: ReferralRecord }>(
    `select ${referralJson('referrals')} as referral from referrals where code = $1 and state <> 'closed' order by at desc, key`,
    [storableText(code)],
  );
  return rows.map(({ referral }) => referral);
}

/** Key of the one that is not closed. */
export async function referralOf(sql: Sql, baby: string): Promise<string | null> {
  const [row] = await sql.query<{ key: string }>(`select key from referrals where baby = $1 and state <> 'closed'`, [storableText(baby)]);
  return row?.key ?? null;
}

/** As it stands now; locked until the transaction ends. */
export async function lockReferral(sql: Sql, key: string): Promise<ReferralRecord | null> {
  const [row] = await sql.query<{ referral: ReferralRecord }>(
    `select ${referralJson('referrals')} as referral from referrals where key = $1 for update`,
    [storableText(key)],
  );
  return row?.referral ?? null;
}
