// Database in this process: PostgreSQL compiled to WebAssembly, on a folder or in memory. For trying, teaching and one
// desk. It takes no lock (lock-file.ts does) and never waits for the disk: a killed process loses nothing, a power cut may.
// Whether production may use it is for the command line's configuration to say. Next: postgres.ts.

import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type { PGlite, Transaction } from '@electric-sql/pglite';
import type { Database, Sql } from './database.ts';
import { lockFolder } from './lock-file.ts';

/**
 * The database in `folder`, made there at the first opening; or one that lasts as long as the process.
 *
 * Errors   a second process on the same folder is refused, by an error that names the first and the remedy.
 */
export async function openEmbedded(folder: string | 'memory'): Promise<Database> {
  if (folder === 'memory') return databaseOver(await start('memory://'));

  mkdirSync(folder, { recursive: true });
  const unlock = lockFolder(folder);
  try {
    return databaseOver(await start(join(folder, 'postgres')), unlock);
  } catch (cause) {
    unlock();
    throw new Error(
      `The embedded database in ${folder} would not open. Check that this user may write there and that the disk is not full; ` +
        'if it still fails, put the folder aside and restore a copy of it.',
      { cause },
    );
  }
}

/** Loaded only when asked for: a process with a real PostgreSQL never pays for the WebAssembly. */
async function start(place: string): Promise<PGlite> {
  const { PGlite } = await import('@electric-sql/pglite');
  return PGlite.create(place);
}

/** A database over one that is open already; `closed` is called once after it is closed. */
export function databaseOver(pglite: PGlite, closed: () => void = () => {}): Database {
  let closing: Promise<void> | undefined;
  return {
    ...through(pglite),
    transaction: (work) => pglite.transaction((transaction) => work(through(transaction))),
    close: () => (closing ??= pglite.close().finally(closed)),
  };
}

function through(connection: PGlite | Transaction): Sql {
  return {
    query: async <Row>(text: string, values: readonly unknown[] = []) => (await connection.query<Row>(text, [...values])).rows,
    script: async (text) => void (await connection.exec(text)),
    seal: (text) => text,
  };
}
