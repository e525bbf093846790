// Alerts as a nurse watches them: what is wrong, who was asked and when, who has it. Next: closed-lately.ts, open-referrals.ts.

import type { Scope, WatchedAlert } from '../../conversation/watch.ts';
import type { Sql } from '../database.ts';
import { babyJson, foundIn, inScope, notErased, scopeOf } from './fragments.ts';

/** Columns of a WatchedAlert. */
export const alertColumns = `alerts.key, ${babyJson('alerts')} as baby, alerts.code, alerts.facility, alerts.worker, alerts.at, alerts.state,
  alerts.taken_by as "takenBy",
  case when alerts.taken_by is not null then
    (select max(at) from alert_history where alert = alerts.key and state_to = 'taken') end as "takenAt",
  case when alerts.state = 'closed' then
    (select by from alert_history where alert = alerts.key and state_to = 'closed' order by move desc limit 1) end as "closedBy",
  case when alerts.state = 'closed' then
    (select max(at) from alert_history where alert = alerts.key and state_to = 'closed') end as "closedAt",
  ${foundIn('alerts.body')} as found,
  (select max(at) from alert_news where alert = alerts.key) as "joinedAt",
  (select coalesce(jsonb_agg(jsonb_build_object('nurse', nurse, 'why', why, 'at', at) order by step), '[]')
    from alert_asks where alert = alerts.key) as asked,
  case when alerts.state = 'open' then
    (select min(due_at) from due_work where baby = alerts.baby and alert = alerts.key and due_work.state = 'pending') end as "asksNextAt"`;

export const alertsWithBaby = 'alerts left join babies on babies.id = alerts.baby';

/** 'open' stands before 'taken' in every collation, so the index gives the order. */
export function openAlerts(sql: Sql, facilities: Scope, limit: number): Promise<WatchedAlert[]> {
  return sql.query(
    `select ${alertColumns} from ${alertsWithBaby}
      where alerts.state <> 'closed' and ${inScope('alerts.facility', '$1')} and ${notErased}
      order by alerts.state, alerts.at, alerts.key limit $2`,
    [scopeOf(facilities), limit],
  );
}
