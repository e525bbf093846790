// The Sessions port in SQL: in the embedded database, and in a PostgreSQL server where transactions truly overlap.

import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Database } from '../../src/register/database.ts';
import { migrate } from '../../src/register/migrate.ts';
import { openEmbedded } from '../../src/register/pglite.ts';
import { openPostgres } from '../../src/register/postgres.ts';
import { embeddedSessions } from '../../src/sessions/embedded.ts';
import { freshPhone } from '../support/fresh-phone.ts';
import { type PostgresServer, startPostgresServer } from '../support/postgres-server.ts';
import { openHeld, type SessionsHarness, sessionsConformance, testLifetimes } from './sessions.ts';

let server: PostgresServer;
let embedded: Database;
let postgres: Database;
let harness: SessionsHarness;
let postgresHarness: SessionsHarness;

beforeAll(async () => {
  server = await startPostgresServer();
  embedded = await openEmbedded('memory');
  postgres = openPostgres(server.url);
  await migrate(embedded);
  await migrate(postgres);
  harness = harnessOver(embedded);
  postgresHarness = harnessOver(postgres);
});

afterAll(async () => {
  await Promise.all([embedded?.close(), postgres?.close()]);
  await server?.stop();
});

sessionsConformance('the embedded database', () => harness);
sessionsConformance('PostgreSQL', () => postgresHarness);

describe('sessions in the embedded database', () => {
  it("sweeps a phone's replies whose time is over", async () => {
    const phone = freshPhone();
    const { sessions, now, runOut } = harness;
    for (const id of ['m1', 'm2']) {
      await sessions.close(await openHeld(harness, phone, id), id, 's', 'r', now());
    }
    await runOut('reply', phone, 'm2');
    await sessions.close(await openHeld(harness, phone, 'm3'), 'm3', 's', 'r', now());
    expect(await embedded.query('select 1 from answered_messages where phone = $1', [phone])).toHaveLength(1);
  });

  it('leaves the database open for the register that shares it', async () => {
    await embeddedSessions(embedded).end();
    expect(await embedded.query('select 1 as one')).toEqual([{ one: 1 }]);
  });
});

/** Time is an argument: what is named has run out at the moment its lifetime is over. */
function harnessOver(database: Database): SessionsHarness {
  let now = Date.UTC(2026, 0, 1);
  return {
    sessions: embeddedSessions(database, testLifetimes),
    now: () => now,
    async runOut(what) {
      now += testLifetimes[`${what}Milliseconds`];
    },
  };
}
