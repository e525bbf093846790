// Reads the month of a facility from the register, as it stands at one instant. A piece of work is a baby's by its key.
// Next: month.ts, which says what is read.

import type { Database, Sql } from '../database.ts';
import { storableText } from '../storable.ts';
import type {
  ExportedAlert,
  ExportedBaby,
  ExportedExamination,
  ExportedReferral,
  ExportedText,
  ExportedWork,
  RegisterMonth,
} from './month.ts';

type Rows = Pick<RegisterMonth, 'babies' | 'examinations' | 'alerts' | 'referrals' | 'texts' | 'work'>;

export interface Span {
  readonly from: number;
  readonly until: number;
}

/** Examinations that ended within the span, alerts of those that never ended, and all that the register holds of their babies. */
export function readMonth(database: Database, facility: string, { from, until }: Span): Promise<Rows> {
  return database.transaction(async (sql) => {
    // All rows as of one instant, whatever is written beside.
    await sql.script('set transaction isolation level repeatable read');
    const examinations = await sql.query<ExportedExamination>(
      `select key, baby, nullif(code, '') as code, nullif(worker, '') as worker, flow, coalesce(urgency, 'incomplete') as urgency, version, at,
         true as "isFinished", ${found}
         from examinations where facility = $1 and at >= $2 and at < $3 and baby is not null
       union all
       -- Urgent, and the examination was not finished since, as when the baby was taken away at once.
       select key, baby, nullif(code, ''), nullif(worker, ''), null, 'urgent', body ->> 'version', at, false, ${found}
         from alerts where facility = $1 and at >= $2 and at < $3 and baby is not null
           and not exists (select from examinations as later where later.baby = alerts.baby and later.at >= alerts.at)
       order by at, key`,
      [storableText(facility), from, until],
    );
    const babies = [...new Set(examinations.map(({ baby }) => baby))];
    return {
      examinations,
      babies: await sql.query<ExportedBaby>(
        `select id, nullif(code, '') as code, sex, born_at as "bornAt", gestation_days as "gestationDays",
           birth_weight_grams as "birthWeightGrams", card, status = 'died' as "hasDied" from babies where id = any($1) order by first_at, id`,
        [babies],
      ),
      alerts: await sql.query<ExportedAlert>(
        `select key, baby, at, state,
           (select min(at) from alert_history where alert = alerts.key and state_to = 'taken') as "takenAt"
           from alerts where baby = any($1) order by at, key`,
        [babies],
      ),
      referrals: await sql.query<ExportedReferral>(
        `select key, baby, urgency, receiving, at, state, left_at as "leftAt", arrived_at as "arrivedAt", outcome, reason
           from referrals where baby = any($1) order by at, key`,
        [babies],
      ),
      texts: await textsOf(sql, babies, from),
      work: await sql.query<ExportedWork>(
        `select key, baby, examination, work, due_at as "dueAt", state from due_work where baby = any($1) order by due_at, key`,
        [babies],
      ),
    };
  });
}

const found = `case when body ? 'interpretation' and body ? 'case'
  then jsonb_build_object('case', body -> 'case', 'interpretation', body -> 'interpretation') end as found`;

/** Texts of the babies; of those from before it was noted, the key tells. A reply that went straight back to a phone is in no table. */
function textsOf(sql: Sql, babies: readonly string[], from: number): Promise<ExportedText[]> {
  return sql.query<ExportedText>(
    `select texts_out.key, of.id as baby, at, urgent, state, recipient, nullif(text, '') as text
       from texts_out join unnest($1::text[]) as of (id)
         on texts_out.baby = of.id or (texts_out.baby is null and strpos(texts_out.key || ':', ':' || of.id || ':') > 0)
       where at >= $2 order by at, texts_out.key`,
    [babies, from - longestExamination],
  );
}

/** An alert's texts go out before the examination ends in which it was raised; a session lasts no longer than this. */
const longestExamination = 7 * 24 * 60 * 60 * 1_000;
