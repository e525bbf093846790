// The database of the register, opened and brought up to date: for a process that stays, or for one command of a coordinator.
// Next: application.ts, roster.ts, export.ts.

import type { Database } from '../register/database.ts';
import { migrate } from '../register/migrate.ts';
import { openEmbedded } from '../register/pglite.ts';
import { openPostgres } from '../register/postgres.ts';
import type { SealingKeys } from '../register/sealing/keys.ts';
import { sealedDatabase } from '../register/sealing/sealed-database.ts';
import type { Config } from './config.ts';

export interface DatabasePlace {
  readonly databaseUrl?: string | undefined;
  /** Folder of the embedded database, or `memory`. */
  readonly data: string;
  /** Left out: nothing is sealed, and nothing sealed can be read. */
  readonly keys?: SealingKeys | undefined;
}

/** Errors: the database is away, or another process holds the embedded one; each says what to do, and nothing stays open. */
export async function openRegisterDatabase({ databaseUrl, data, keys }: DatabasePlace): Promise<Database> {
  const database = databaseUrl === undefined ? await openEmbedded(data) : openPostgres(databaseUrl);
  try {
    await migrate(database);
    return sealedDatabase(database, keys ?? null);
  } catch (error) {
    await database.close();
    throw error;
  }
}

/** Lends the database to one command. Errors: those of openRegisterDatabase. */
export async function withRegister<T>(
  config: Pick<Config, 'DATABASE_URL' | 'PIPIT_DATA' | 'PIPIT_KEYS'>,
  work: (database: Database) => Promise<T>,
): Promise<T> {
  const database = await openRegisterDatabase({ databaseUrl: config.DATABASE_URL, data: config.PIPIT_DATA, keys: config.PIPIT_KEYS });
  try {
    return await work(database);
  } finally {
    await database.close();
  }
}
