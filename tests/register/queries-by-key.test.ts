// What the register asks often is answered by an index, in a PostgreSQL with as many rows as a district has in a year: seen in
// the server's own plans of the very statements that the register sends.

import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Database } from '../../src/register/database.ts';
import { migrate } from '../../src/register/migrate.ts';
import { openPostgres } from '../../src/register/postgres.ts';
import { registerIn } from '../../src/register/register.ts';
import { type PostgresServer, startPostgresServer } from '../support/postgres-server.ts';
import { planNodes, readWhole } from '../support/query-plans.ts';

const rows = 10_000;
const now = Date.UTC(2026, 10, 24, 12);

let server: PostgresServer;
let database: Database;

beforeAll(async () => {
  server = await startPostgresServer();
  database = openPostgres(server.url);
  await migrate(database);
  await database.script(`
    insert into babies (id, code, facility, worker, last_examination, last_at, first_at)
      select 'baby-' || n, 'code-' || n % 5000, 'facility-' || n % 20, 'worker-' || n % 120, 'examination-' || n, n, n from generate_series(1, ${rows}) as n;
    insert into examinations (key, baby, worker, facility, code, at, body)
      select 'examination-' || n, 'baby-' || n, 'worker-' || n % 120, 'facility-' || n % 20, 'code-' || n % 5000, n,
        jsonb_build_object('answers', (select string_agg(md5(n || '-' || part), '') from generate_series(1, 40) as part)) from generate_series(1, ${rows}) as n;
    insert into due_work (key, work, baby, due_at, state, body)
      select 'due-' || n, 'recheck', 'baby-' || n, case when n % 100 = 0 then ${now} - n else ${now} + 86400000 end,
        case when n % 2 = 0 then 'pending' else 'done' end, '{}' from generate_series(1, ${rows}) as n;
    insert into referrals (key, baby, worker, facility, code, urgency, at, state, body)
      select 'referral-' || n, 'baby-' || n, 'worker-' || n % 120, 'facility-' || n % 20, 'code-' || n % 5000, 'refer', n,
        case when n % 50 = 0 then 'advised' else 'closed' end, '{}' from generate_series(1, ${rows}) as n;
    insert into alerts (key, baby, worker, facility, nurse, code, at, state, body)
      select 'alert-' || n, 'baby-' || n, 'worker-' || n % 120, 'facility-' || n % 20, 'nurse', 'code-' || n % 5000, n,
        case when n % 50 = 0 then 'open' else 'closed' end, '{}' from generate_series(1, ${rows}) as n;
    insert into alert_asks (alert, step, nurse, why, at) select key, 0, nurse, 'raised', at from alerts;
    insert into texts_out (key, recipient, text, urgent, at, due_at, state)
      select 'text-' || n, 'worker-' || n % 120, 'A text', n % 10 = 0, n, case when n % 100 = 0 then ${now} - n else ${now} + 86400000 end,
        case when n % 50 = 0 then 'due' else 'sent' end from generate_series(1, ${rows}) as n;
    analyze;
  `);
});

afterAll(async () => {
  await database?.close();
  await server?.stop();
});

const nodesOf = (ask: (register: ReturnType<typeof registerIn>) => Promise<unknown>) =>
  planNodes(database, (noting) => ask(registerIn(noting)));

const nothing = { entries: [], next: { kind: 'done' } } as const;

describe('with ten thousand babies', () => {
  it.each([
    {
      what: 'work that is due',
      index: 'due_work_pending',
      ask: (r) =>
        r.workDue(
          now,
          3,
          () => nothing,
          () => {},
        ),
    },
    { what: 'texts that are due', index: 'texts_out_due', ask: (r) => r.claimTexts(now, 10, 60_000) },
    { what: 'the babies of a worker', index: 'babies_followed_by_worker', ask: (r) => r.listBabies('worker-7', now, 30) },
    { what: 'what is due of them', index: 'due_work_open_by_baby', ask: (r) => r.listBabies('worker-7', now, 30) },
    { what: 'babies with a code', index: 'babies_followed_by_code', ask: (r) => r.findBabies('facility-7', 'worker-7', 'code-7') },
    { what: 'referrals with a code', index: 'referrals_not_closed_by_code', ask: (r) => r.findReferrals('code-7') },
    { what: 'alerts with a code', index: 'alerts_not_closed_by_code', ask: (r) => r.findAlerts('code-7') },
    { what: 'the alert of a baby', index: 'alerts_one_not_closed_a_baby', ask: (r) => r.alertOf('baby-50') },
  ] satisfies { what: string; index: string; ask: (register: ReturnType<typeof registerIn>) => Promise<unknown> }[])(
    '$what are found by $index, and no large table is read from end to end',
    async ({ index, ask }) => {
      const nodes = await nodesOf(ask);
      expect(nodes.map((node) => node['Index Name'])).toContain(index);
      expect(readWhole(nodes)).toEqual([]);
    },
  );

  it('a table without its index is read from end to end, and this test sees it', async () => {
    await database.script('drop index babies_followed_by_code, babies_by_code');
    const nodes = await nodesOf((register) => register.findBabies('facility-7', 'worker-7', 'code-7'));
    expect(readWhole(nodes)).toContain('babies');
  });
});
