// Brings a database to the shape this program needs: the numbered files of migrations/, each once, in order.
// A file that has landed is never edited; what must change gets the next number. Next: migrations/.

import { readdirSync, readFileSync } from 'node:fs';
import type { Database, Sql } from './database.ts';

const folder = new URL('migrations/', import.meta.url);

/** Ours alone among the advisory locks of one database: the letters "pip" as a number. */
const MIGRATION_LOCK = 0x70_69_70;

/**
 * Applies the migrations that are missing, all or none, and returns their names. Run again, it applies none.
 *
 * Errors   the database holds a migration that this program has not: it was made by a newer one, and is left alone.
 */
export async function migrate(database: Database): Promise<string[]> {
  return database.transaction((sql) => migrateIn(sql));
}

/** The same within a transaction of the caller's. Takes  until: the last migration that is applied. */
export async function migrateIn(sql: Sql, until?: string): Promise<string[]> {
  const known = migrationNames();
  // Several processes start at once: the second waits here, and then finds the work done.
  await sql.query('select pg_advisory_xact_lock($1)', [MIGRATION_LOCK]);
  await sql.script('create table if not exists migrations (name text primary key, applied_at timestamptz not null default now())');
  const applied = (await sql.query<{ name: string }>('select name from migrations order by name')).map((row) => row.name);

  const foreign = applied.find((name) => !known.includes(name));
  if (foreign !== undefined) {
    throw new Error(
      `The database has the migration ${foreign}, which this program does not. Start the newer program that made it, or name another database.`,
    );
  }

  const missing = known.filter((name) => !applied.includes(name) && (until === undefined || name <= until));
  for (const name of missing) {
    await sql.script(readFileSync(new URL(name, folder), 'utf8'));
    await sql.query('insert into migrations (name) values ($1)', [name]);
  }
  return missing;
}

/** Every table that the migrations make. */
export function tablesOfRegister(): string[] {
  const made = /^create table (?:if not exists )?(\w+)/gim;
  return migrationNames().flatMap((name) => [...readFileSync(new URL(name, folder), 'utf8').matchAll(made)].map(([, table = '']) => table));
}

/** The files of migrations/ in the order of their numbers. */
export function migrationNames(): string[] {
  return readdirSync(folder)
    .filter((name) => /^\d{4}-[a-z-]+\.sql$/.test(name))
    .sort();
}
