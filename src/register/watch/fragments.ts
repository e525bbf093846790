// Pieces of SQL that the watching queries share: a baby as one jsonb, what was found, and whose facilities. Reading only; nothing
// of an erased baby goes out. Next: open-alerts.ts.

import type { Scope } from '../../conversation/watch.ts';
import { storableText } from '../storable.ts';

/**
 * A WatchedBaby of the row of `babies` that is joined to the table under that name. Where there is none yet the table's own
 * columns stand in: an alert must not go unseen for want of a row beside it.
 */
export const babyJson = (table: string): string => `jsonb_build_object(
    'id', coalesce(${table}.baby, ''), 'code', coalesce(babies.code, ${table}.code),
    'facility', coalesce(babies.facility, ${table}.facility), 'worker', coalesce(babies.worker, ${table}.worker),
    'status', coalesce(babies.status, 'followed'), 'sex', babies.sex, 'bornAt', babies.born_at, 'gestationDays', babies.gestation_days,
    'birthWeightGrams', babies.birth_weight_grams, 'card', babies.card)`;

/** Classifications of a body, each with its id, urgency and reasons; a body of another shape has none. */
export const foundIn = (body: string): string =>
  `(select coalesce(jsonb_agg(jsonb_build_object('id', one -> 'id', 'urgency', one -> 'urgency', 'because', coalesce(one -> 'because', '[]'))
      order by place), '[]')
    from jsonb_array_elements(case jsonb_typeof(${body} #> '{interpretation,classifications}')
      when 'array' then ${body} #> '{interpretation,classifications}' else '[]' end) with ordinality as given (one, place))`;

/** Null: all facilities. */
export const scopeOf = (facilities: Scope): string[] | null => (facilities === null ? null : facilities.map(storableText));

export const inScope = (column: string, parameter: string): string => `(${parameter}::text[] is null or ${column} = any(${parameter}))`;

export const notErased = `coalesce(babies.status, 'followed') <> 'erased'`;
