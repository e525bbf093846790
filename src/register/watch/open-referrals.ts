// Referrals as those who send and those who receive watch them: has she left, has she arrived. Next: closed-lately.ts.

import type { Scope, WatchedReferral } from '../../conversation/watch.ts';
import type { Sql } from '../database.ts';
import { babyJson, foundIn, inScope, notErased, scopeOf } from './fragments.ts';

/** Columns of a WatchedReferral. */
export const referralColumns = `referrals.key, ${babyJson('referrals')} as baby, referrals.code, referrals.facility as "from",
  referrals.receiving, referrals.worker, referrals.urgency, referrals.at, referrals.state, referrals.left_at as "leftAt",
  referrals.arrived_at as "arrivedAt", referrals.closed_at as "closedAt", referrals.outcome, referrals.reason,
  ${foundIn('referrals.body')} as found`;

export const referralsWithBaby = 'referrals left join babies on babies.id = referrals.baby';

export const sentOrReceivedIn = (parameter: string): string =>
  `(${inScope('referrals.facility', parameter)} or ${inScope('referrals.receiving', parameter)})`;

export function openReferrals(sql: Sql, facilities: Scope, limit: number): Promise<WatchedReferral[]> {
  return sql.query(
    `select ${referralColumns} from ${referralsWithBaby}
      where referrals.state <> 'closed' and ${sentOrReceivedIn('$1')} and ${notErased}
      order by referrals.urgency desc, referrals.at, referrals.key limit $2`,
    [scopeOf(facilities), limit],
  );
}
