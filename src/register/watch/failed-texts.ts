// Texts that reached no phone, or of which nobody knows, with whom they were for and who was told. What was written is shown: who
// rings in its place needs it. Next: src/register/lost-texts.ts, which tells of the urgent ones; src/register/report/lost.ts.

import type { Days, FailedText, Scope } from '../../conversation/watch.ts';
import type { Sql } from '../database.ts';
import { aroundPeriod } from '../report/period.ts';
import { inScope, scopeOf } from './fragments.ts';

/** The texts that tell of a loss are written by the same process a moment after it is noted. */
const momentMilliseconds = 60_000;

const told = `array(select telling.recipient from texts_out as telling
  where failed.lost_told_at is not null and telling.at >= failed.lost_told_at - ${momentMilliseconds}
    and telling.at <= failed.lost_told_at + ${momentMilliseconds} and starts_with(telling.key, 'lost:' || failed.key || ':')
  order by telling.key)`;

/** Takes  days: each text counts on the day of its recipient's facility. */
export function failedTexts(sql: Sql, facilities: Scope, days: Days, limit: number): Promise<FailedText[]> {
  const { first, last } = aroundPeriod(days);
  return sql.query(
    `select failed.key, failed.at, failed.recipient, place.id as facility, failed.baby, failed.urgent, failed.state, failed.attempts,
        failed.reason, nullif(failed.text, '') as text, ${told} as told
       from texts_out as failed
       left join people on people.phone = failed.recipient
       left join lateral (
         select id, zone from facilities where id = people.facility or (people.facility is null and facilities.phone = failed.recipient)
           order by id limit 1) as place on true
      where failed.state in ('given-up', 'undelivered', 'unknown') and failed.at >= $2 and failed.at < $3
        and timezone(coalesce(place.zone, 'UTC'), to_timestamp(failed.at / 1000.0))::date between $4::date and $5::date
        and ${inScope('place.id', '$1')}
      order by failed.at desc, failed.key desc limit $6`,
    [scopeOf(facilities), first, last, days.from, days.until, limit],
  );
}
