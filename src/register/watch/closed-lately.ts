// What was closed since an instant, so that somebody who comes on duty reads what was done. Next: open-alerts.ts, open-referrals.ts.

import type { Closed, Scope, WatchedAlert, WatchedReferral } from '../../conversation/watch.ts';
import type { Sql } from '../database.ts';
import { inScope, notErased, scopeOf } from './fragments.ts';
import { alertColumns, alertsWithBaby } from './open-alerts.ts';
import { referralColumns, referralsWithBaby, sentOrReceivedIn } from './open-referrals.ts';

export async function closedLately(sql: Sql, facilities: Scope, since: number, limit: number): Promise<Closed> {
  const values = [scopeOf(facilities), since, limit];
  return {
    alerts: await sql.query<WatchedAlert>(
      `select ${alertColumns}
         from alert_history as closing join ${alertsWithBaby} on alerts.key = closing.alert
        where closing.state_to = 'closed' and closing.at >= $2 and alerts.state = 'closed' and ${inScope('alerts.facility', '$1')} and ${notErased}
        order by closing.at desc, closing.alert desc limit $3`,
      values,
    ),
    referrals: await sql.query<WatchedReferral>(
      `select ${referralColumns} from ${referralsWithBaby}
        where referrals.state = 'closed' and referrals.closed_at >= $2 and ${sentOrReceivedIn('$1')} and ${notErased}
        order by referrals.closed_at desc, referrals.key desc limit $3`,
      values,
    ),
  };
}
