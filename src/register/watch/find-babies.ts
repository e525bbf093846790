// Babies by the beginning of their code, followed or not: a nurse has a code from a text, and perhaps not all of it.
// Next: baby-course.ts, which shows the one that is meant.

import type { FoundBaby, Scope } from '../../conversation/watch.ts';
import type { Sql } from '../database.ts';
import { storableText } from '../storable.ts';
import { inScope, scopeOf } from './fragments.ts';

/** None for an empty text: this is no list of all babies. */
export async function findBabiesBySearch(sql: Sql, facilities: Scope, text: string, limit: number): Promise<FoundBaby[]> {
  const code = storableText(text).normalize('NFKC').trim().toUpperCase();
  if (code === '') return [];
  return sql.query(
    `select babies.id, babies.code, babies.facility, babies.worker, babies.status, babies.sex, babies.born_at as "bornAt",
        babies.gestation_days as "gestationDays", babies.birth_weight_grams as "birthWeightGrams", babies.card,
        coalesce(babies.last_at, babies.first_at) as "seenAt",
        (select urgency from examinations where key = babies.last_examination) as urgency,
        exists (select from alerts where baby = babies.id and state <> 'closed') as "hasOpenAlert",
        exists (select from referrals where baby = babies.id and state <> 'closed') as "hasOpenReferral"
       from babies where babies.code like $2 and babies.status <> 'erased' and ${inScope('babies.facility', '$1')}
       order by coalesce(babies.last_at, babies.first_at) desc, babies.id limit $3`,
    [scopeOf(facilities), `${code.replace(/[\\%_]/g, '\\$&')}%`, limit],
  );
}
