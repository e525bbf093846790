// Reads babies as the conversation wants them: with their last examination, what is due from it, and the referral that is open;
// one statement each. Next: babies.ts, which writes them.

import type { BabyRecord } from '../conversation/records.ts';
import type { Sql } from './database.ts';
import { referralJson } from './referrals.ts';
import { storableText } from './storable.ts';

const babies = `select babies.id, babies.code, babies.facility, babies.worker, babies.status, babies.sex, babies.born_at as "bornAt",
    babies.gestation_days as "gestationDays", babies.birth_weight_grams as "birthWeightGrams", babies.card,
    case when last.key is not null
      then jsonb_build_object('key', last.key, 'at', last.at, 'urgency', coalesce(last.urgency, ''), 'body', last.body) end as last,
    coalesce(open_work.due, '[]') as due, ${referralJson('referral')} as referral
  from babies
  left join examinations as last on last.key = babies.last_examination
  left join referrals as referral on referral.baby = babies.id and referral.state <> 'closed'
  cross join lateral (
    select min(due_at) as soonest, bool_or(state = 'missed') as is_missed,
      jsonb_agg(jsonb_build_object('key', key, 'work', work, 'dueAt', due_at, 'state', state, 'body', body) order by due_at, key) as due
    from due_work
    where due_work.baby = babies.id and state in ('pending', 'missed')
      and (examination is null or examination = babies.last_examination)) as open_work`;

/** Babies with this code that are still followed, of a facility or by this worker wherever they were first seen; newest first. */
export function findBabies(sql: Sql, facility: string, worker: string, code: string): Promise<BabyRecord[]> {
  return sql.query(
    `${babies} where babies.id in (
         select id from babies where facility = $1 and code = $3 and status = 'followed'
         union select id from babies where worker = $2 and code = $3 and status = 'followed')
       order by babies.first_at desc, babies.id`,
    [facility, worker, code].map(storableText),
  );
}

/** Babies that this worker follows and for whom something is due by then, missed, or a referral is open; soonest first. */
export function listBabies(sql: Sql, worker: string, dueBy: number, limit: number): Promise<BabyRecord[]> {
  return sql.query(
    `${babies} where babies.worker = $1 and babies.status = 'followed'
       and (open_work.soonest <= $2 or open_work.is_missed or referral.key is not null)
     order by coalesce(open_work.soonest, referral.at), babies.id limit $3`,
    [storableText(worker), dueBy, limit],
  );
}

/** The baby as it stands, whether it is followed or not. */
export async function readBaby(sql: Sql, id: string): Promise<BabyRecord | null> {
  const [baby] = await sql.query<BabyRecord>(`${babies} where babies.id = $1`, [storableText(id)]);
  return baby ?? null;
}
