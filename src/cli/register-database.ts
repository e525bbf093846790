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
export async function openRegisterDatabase(place: DatabasePlace): Promise<Database> {
  return sealedDatabase(await openAsItStands(place), place.keys ?? null);
}

async function openAsItStands({ databaseUrl, data }: DatabasePlace): Promise<Database> {
  const database = databaseUrl === undefined ? await openEmbedded(data) : openPostgres(databaseUrl);
  try {
    await migrate(database);
    return database;
  } catch (error) {
    await database.close();
    throw error;
  }
}

type Places = Pick<Config, 'DATABASE_URL' | 'PIPIT_DATA'>;

/** Lends the database to one command. Errors: those of openRegisterDatabase. */
export function withRegister<T>(config: Places & Pick<Config, 'PIPIT_KEYS'>, work: (database: Database) => Promise<T>): Promise<T> {
  return lend(openRegisterDatabase({ ...placeIn(config), keys: config.PIPIT_KEYS }), work);
}

/** The same with what is sealed left sealed, for a copy of it. */
export function withRegisterAsItStands<T>(config: Places, work: (database: Database) => Promise<T>): Promise<T> {
  return lend(openAsItStands(placeIn(config)), work);
}

const placeIn = ({ DATABASE_URL: databaseUrl, PIPIT_DATA: data }: Places): DatabasePlace => ({ databaseUrl, data });

async function lend<T>(opening: Promise<Database>, work: (database: Database) => Promise<T>): Promise<T> {
  const database = await opening;
  try {
    return await work(database);
  } finally {
    await database.close();
  }
}
