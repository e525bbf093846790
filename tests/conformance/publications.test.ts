// Publications in the register, in both databases.

import { afterAll, beforeAll } from 'vitest';
import type { Database } from '../../src/register/database.ts';
import { migrate } from '../../src/register/migrate.ts';
import { openEmbedded } from '../../src/register/pglite.ts';
import { openPostgres } from '../../src/register/postgres.ts';
import { type PostgresServer, startPostgresServer } from '../support/postgres-server.ts';
import { publicationsConformance } from './publications.ts';

let server: PostgresServer;
let postgres: Database;
let embedded: Database;

beforeAll(async () => {
  server = await startPostgresServer();
  postgres = openPostgres(server.url);
  embedded = await openEmbedded('memory');
  await migrate(postgres);
  await migrate(embedded);
});

afterAll(async () => {
  await embedded?.close();
  await postgres?.close();
  await server?.stop();
});

publicationsConformance('PostgreSQL', () => postgres);
publicationsConformance('the embedded database', () => embedded);
