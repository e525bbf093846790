// What is watched is found by an index, in a PostgreSQL with as many rows as a district has in some years: seen in the server's
// own plans of the very statements that are sent. One refreshed page must not slow a worker's turn.

import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Watch } from '../../src/conversation/watch.ts';
import type { Database } from '../../src/register/database.ts';
import { migrate } from '../../src/register/migrate.ts';
import { openPostgres } from '../../src/register/postgres.ts';
import { watchIn } from '../../src/register/watch/watch.ts';
import { type PostgresServer, startPostgresServer } from '../support/postgres-server.ts';
import { planNodes, readWhole } from '../support/query-plans.ts';

const rows = 20_000;
const noon = Date.UTC(2026, 10, 24, 12);

let server: PostgresServer;
let database: Database;

beforeAll(async () => {
  server = await startPostgresServer();
  database = openPostgres(server.url);
  await migrate(database);
  const at = `${noon} - (${rows} - n) * 600000::bigint`;
  const named = `'baby-' || n, 'worker-' || n % 120, 'facility-' || n % 20, 'C' || n % 5000`;
  await database.script(`
    insert into babies (id, worker, facility, code, last_examination, last_at, first_at)
      select ${named}, 'examination-' || n, ${at}, ${at} from generate_series(1, ${rows}) as n;
    insert into examinations (key, baby, worker, facility, code, at, body)
      select 'examination-' || n, ${named}, ${at}, '{}' from generate_series(1, ${rows}) as n;
    insert into alerts (key, baby, worker, facility, code, nurse, at, state, body)
      select 'alert-' || n, ${named}, 'nurse', ${at}, case when n % 500 = 0 then 'open' else 'closed' end, '{}' from generate_series(1, ${rows}) as n;
    insert into alert_asks (alert, step, nurse, why, at) select key, 0, nurse, 'raised', at from alerts;
    insert into alert_history (alert, move, state_to, by, at)
      select key, 0, 'open', worker, at from alerts union all select key, 1, 'closed', nurse, at + 60000 from alerts where state = 'closed';
    insert into referrals (key, baby, worker, facility, code, receiving, urgency, at, state, closed_at, body)
      select 'referral-' || n, ${named}, 'facility-0', 'urgent', ${at}, case when n % 500 = 0 then 'left' else 'closed' end,
        case when n % 500 = 0 then null else ${at} end, '{}' from generate_series(1, ${rows}) as n;
    insert into due_work (key, work, baby, due_at, state, body)
      select 'due-' || n, 'contact', 'baby-' || n, ${at}, 'done', '{}' from generate_series(1, ${rows}) as n;
    insert into texts_out (key, recipient, text, urgent, at, due_at, lost_told_at, state)
      select 'text-' || n, 'worker-' || n % 120, 'A text', true, ${at}, ${at}, ${at},
        case when n % 100 = 0 then 'given-up' else 'sent' end from generate_series(1, ${rows}) as n;
    insert into audit (key, by, what, about, at, body) select 'audit-' || n, 'x', 'changed', 'x', ${at}, '{}' from generate_series(1, ${rows}) as n;
    insert into baby_history (key, baby, news, by, at) select 'news-' || n, 'baby-' || n, 'handed-over', 'x', ${at} from generate_series(1, ${rows}) as n;
    insert into alert_news (key, alert, worker, at, body) select 'news-' || n, 'alert-' || n, 'x', ${at}, '{}' from generate_series(1, ${rows}) as n;
    insert into referral_history (key, referral, news, by, at, state_from, state_to)
      select 'news-' || n, 'referral-' || n, 'left', 'x', ${at}, 'advised', 'left' from generate_series(1, ${rows}) as n;
    analyze;
  `);
});

afterAll(async () => {
  await database?.close();
  await server?.stop();
});

const hills = ['facility-3', 'facility-7'];
const lately = noon - 3 * 86_400_000;
const days = { from: '2026-11-20', until: '2026-11-24' };

/** The roster has few rows, and none here. */
const small = ['facilities', 'people'];

describe('with twenty thousand babies', () => {
  it.each<{ what: string; index: string; ask: (watch: Watch) => Promise<unknown> }>([
    { what: 'open alerts', index: 'alerts_watched', ask: (w) => w.openAlerts(null, 50) },
    { what: 'open alerts of two facilities', index: 'alerts_watched', ask: (w) => w.openAlerts(hills, 50) },
    { what: 'open referrals', index: 'referrals_watched', ask: (w) => w.openReferrals(null, 50) },
    { what: 'open referrals of two facilities', index: 'referrals_watched', ask: (w) => w.openReferrals(hills, 50) },
    { what: 'alerts closed lately', index: 'alert_history_closed', ask: (w) => w.closedLately(hills, lately, 50) },
    { what: 'referrals closed lately', index: 'referrals_closed', ask: (w) => w.closedLately(hills, lately, 50) },
    { what: 'the alerts of a baby', index: 'alerts_by_baby', ask: (w) => w.babyCourse('baby-77') },
    { what: 'the work of a baby', index: 'due_work_by_baby', ask: (w) => w.babyCourse('baby-77') },
    { what: 'babies by the beginning of a code', index: 'babies_by_code', ask: (w) => w.findBabiesBySearch(hills, 'C49', 20) },
    { what: 'texts that failed', index: 'texts_out_failed', ask: (w) => w.failedTexts(hills, days, 50) },
    { what: 'the audit trail', index: 'audit_by_time', ask: (w) => w.auditTrail({ limit: 50 }) },
    { what: 'its next page', index: 'audit_by_time', ask: (w) => w.auditTrail({ limit: 50, before: 'audit-9000' }) },
  ])('$what are found by $index, and no large table is read from end to end', async ({ index, ask }) => {
    const nodes = await planNodes(database, (noting) => ask(watchIn(noting)));
    expect(nodes.map((node) => node['Index Name'])).toContain(index);
    expect(readWhole(nodes).filter((table) => !small.includes(table))).toEqual([]);
  });

  it('a table without its index is read from end to end, and this test sees it', async () => {
    await database.script('drop index babies_by_code');
    const nodes = await planNodes(database, (noting) => watchIn(noting).findBabiesBySearch(null, 'C49', 20));
    expect(readWhole(nodes)).toContain('babies');
  });
});
