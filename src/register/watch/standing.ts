// How things stand, in a few numbers, for whoever watches the server and not the babies: every one from an index.
// Next: src/channels/watching/measures.ts, which shows them.

import type { Standing } from '../../conversation/watch.ts';
import type { Sql } from '../database.ts';

export async function standing(sql: Sql, now: number): Promise<Standing> {
  const [row] = await sql.query<Standing>(
    `select
      (select count(*)::integer from alerts where state = 'open') as "alertsOpen",
      (select min(at) from alerts where state = 'open') as "alertOpenSince",
      (select count(*)::integer from alerts where state = 'taken') as "alertsTaken",
      (select count(*)::integer from texts_out where state = 'due') as "textsDue",
      (select min(at) from texts_out where state = 'due') as "textDueSince",
      (select count(*)::integer from texts_out
        where urgent and state in ('given-up', 'undelivered') and lost_told_at is null) as "urgentTextsLost",
      (select min(due_at) from due_work where state = 'pending' and due_at <= $1) as "workDueSince"`,
    [now],
  );
  if (row === undefined) throw new Error('The register gave no line for how things stand. This is a fault of the program; report it.');
  return row;
}
