// The histories of one baby: its alerts and referrals with each move, what falls due or did, and what was heard of it. Each list
// oldest first, and the newest of it where it is very long. Next: baby-course.ts, which joins them.

import type { CourseAlert, CourseNews, CourseReferral, CourseWork } from '../../conversation/watch.ts';
import type { Sql } from '../database.ts';
import { alertColumns, alertsWithBaby } from './open-alerts.ts';
import { referralColumns, referralsWithBaby } from './open-referrals.ts';

const most = 200;

export async function alertsOf(sql: Sql, baby: string): Promise<CourseAlert[]> {
  const alerts = await sql.query<CourseAlert>(
    `select ${alertColumns},
        (select jsonb_agg(jsonb_build_object('from', state_from, 'to', state_to, 'by', by, 'at', at) order by move)
          from alert_history where alert = alerts.key) as history
       from ${alertsWithBaby} where alerts.baby = $1 order by alerts.at desc, alerts.key desc limit ${most}`,
    [baby],
  );
  return alerts.reverse();
}

export async function referralsOf(sql: Sql, baby: string): Promise<CourseReferral[]> {
  const referrals = await sql.query<CourseReferral>(
    `select ${referralColumns},
        (select coalesce(jsonb_agg(jsonb_build_object('news', news, 'reason', reason, 'by', by, 'at', at, 'from', state_from, 'to', state_to)
            order by at, key), '[]')
          from referral_history where referral = referrals.key) as history
       from ${referralsWithBaby} where referrals.baby = $1 order by referrals.at desc, referrals.key desc limit ${most}`,
    [baby],
  );
  return referrals.reverse();
}

/** Work is void as soon as it stands no more, although the register notes it only when it would be due (answer-due.ts). */
const stands = `case when due_work.alert is not null
    then exists (select from alerts where key = due_work.alert and state <> 'closed')
    else babies.status = 'followed' and (examination is null or examination = babies.last_examination) end`;

export async function workOf(sql: Sql, baby: string): Promise<CourseWork[]> {
  const work = await sql.query<CourseWork>(
    `select due_work.key, work, due_at as "dueAt", times, settled_at as "settledAt",
        case when state in ('pending', 'missed') and not ${stands} then 'void' else state end as state
       from due_work join babies on babies.id = due_work.baby
      where due_work.baby = $1 order by due_at desc, due_work.key desc limit ${most}`,
    [baby],
  );
  return work.reverse();
}

export async function newsOf(sql: Sql, baby: string): Promise<CourseNews[]> {
  const news = await sql.query<CourseNews>(
    `select news, to_worker as "to", by, at from baby_history where baby = $1 order by at desc, key desc limit ${most}`,
    [baby],
  );
  return news.reverse();
}
