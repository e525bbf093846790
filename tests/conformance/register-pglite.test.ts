// The Register port in the embedded database.

import { afterAll, beforeAll } from 'vitest';
import { migrate } from '../../src/register/migrate.ts';
import { openEmbedded } from '../../src/register/pglite.ts';
import { registerIn } from '../../src/register/register.ts';
import { databaseConformance } from './database.ts';
import type { RegisterHarness } from './register.ts';
import { registerConformance } from './register-suites.ts';
import { testResending } from './register-texts.ts';

let harness: RegisterHarness;

beforeAll(async () => {
  const database = await openEmbedded('memory');
  await migrate(database);
  harness = { database, register: registerIn(database, testResending) };
});

afterAll(() => harness?.register.end());

databaseConformance('the embedded database', () => harness.database);
registerConformance('the embedded database', () => harness);
