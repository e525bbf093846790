// The Register port in a PostgreSQL server.

import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { migrate, migrationNames } from '../../src/register/migrate.ts';
import { openPostgres, usualPoolLimits } from '../../src/register/postgres.ts';
import { registerIn } from '../../src/register/register.ts';
import { type PostgresServer, startPostgresServer } from '../support/postgres-server.ts';
import { databaseConformance } from './database.ts';
import type { RegisterHarness } from './register.ts';
import { registerConformance } from './register-suites.ts';
import { testResending } from './register-texts.ts';

let server: PostgresServer;
let harness: RegisterHarness;

beforeAll(async () => {
  server = await startPostgresServer();
  const database = openPostgres(server.url);
  await migrate(database);
  harness = { database, register: registerIn(database, testResending) };
});

afterAll(async () => {
  await harness?.register.end();
  await server?.stop();
});

databaseConformance('PostgreSQL', () => harness.database);
registerConformance('PostgreSQL', () => harness);

describe('a transaction in PostgreSQL', () => {
  it('has what it sends again prepared once, and goes on in a connection that has prepared nothing', async () => {
    const database = openPostgres(server.url, { ...usualPoolLimits, connections: 1 });
    const text = 'select $1::integer as given';
    const given = (value: number) => database.transaction((sql) => sql.query(text, [value]));
    expect(await given(1)).toEqual([{ given: 1 }]);
    expect(await given(2)).toEqual([{ given: 2 }]);
    expect(await database.query('select name from pg_prepared_statements where statement = $1', [text])).toHaveLength(1);
    await database.query('select pg_terminate_backend(pg_backend_pid())').catch(() => {});
    await expect.poll(() => given(3).catch(() => null), { timeout: 30_000 }).toEqual([{ given: 3 }]);
    await database.close();
  });
});

describe('migrations in PostgreSQL', () => {
  it('are applied by one of several processes that start at once', async () => {
    await harness.database.query('create database started_at_once');
    const url = server.url.replace(/postgres$/, 'started_at_once');
    const processes = Array.from({ length: 4 }, () => openPostgres(url));
    const applied = await Promise.all(processes.map(migrate));
    await Promise.all(processes.map((process) => process.close()));
    expect(applied.filter((names) => names.length > 0)).toEqual([migrationNames()]);
  });
});
