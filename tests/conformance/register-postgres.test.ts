// The Register port in a PostgreSQL server.

import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { migrate, migrationNames } from '../../src/register/migrate.ts';
import { openPostgres } from '../../src/register/postgres.ts';
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
