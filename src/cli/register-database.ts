// Opens the register for a coordinator's command: the database itself, brought up to date, closed when the work is done.

import type { Database } from '../register/database.ts';
import { migrate } from '../register/migrate.ts';
import { openEmbedded } from '../register/pglite.ts';
import { openPostgres } from '../register/postgres.ts';
import type { Config } from './config.ts';

/** Errors: the database is away, or another process holds the embedded one; each says what to do. */
export async function withRegister<T>(
  config: Pick<Config, 'DATABASE_URL' | 'PIPIT_DATA'>,
  work: (database: Database) => Promise<T>,
): Promise<T> {
  const database = config.DATABASE_URL === undefined ? await openEmbedded(config.PIPIT_DATA) : openPostgres(config.DATABASE_URL);
  try {
    await migrate(database);
    return await work(database);
  } finally {
    await database.close();
  }
}
