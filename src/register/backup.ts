// The whole register as lines of text, of one instant, from either database and for either: a head that says which migrations it has,
// then each table with its rows as JSON, then how many rows there were, so that a copy that was cut off is known. Next: restore.ts.

import type { Database, Sql } from './database.ts';
import { tablesOfRegister } from './migrate.ts';

export interface BackupHead {
  readonly backup: 1;
  /** Epoch milliseconds. */
  readonly at: number;
  readonly migrations: readonly string[];
}

const batch = 500;

/** Hands each line to `write`. Returns  how many rows. */
export function writeBackup(database: Database, at: number, write: (line: string) => Promise<void>): Promise<number> {
  return database.transaction(async (sql) => {
    // Everything as it stood at one instant, whatever is written meanwhile.
    await sql.query('set transaction isolation level repeatable read, read only');
    const migrations = await sql.query<{ name: string }>('select name from migrations order by name');
    const head: BackupHead = { backup: 1, at, migrations: migrations.map(({ name }) => name) };
    await write(JSON.stringify(head));
    let rows = 0;
    for (const table of await inOrder(sql)) {
      await write(JSON.stringify({ table }));
      await sql.query(`declare copied no scroll cursor for select to_jsonb(t)::text as row from ${table} as t`);
      for (;;) {
        const fetched = await sql.query<{ row: string }>(`fetch ${batch} from copied`);
        for (const { row } of fetched) await write(row);
        rows += fetched.length;
        if (fetched.length < batch) break;
      }
      await sql.query('close copied');
    }
    await write(JSON.stringify({ rows }));
    return rows;
  });
}

/** The tables, each after those that its rows refer to. */
async function inOrder(sql: Sql): Promise<string[]> {
  const refers = await sql.query<{ from: string; to: string }>(
    `select conrelid::regclass::text as "from", confrelid::regclass::text as "to" from pg_constraint where contype = 'f' and conrelid <> confrelid`,
  );
  const waiting = new Set(tablesOfRegister());
  const ordered: string[] = [];
  while (waiting.size > 0) {
    const free = [...waiting].filter((table) => !refers.some(({ from, to }) => from === table && waiting.has(to)));
    if (free.length === 0) throw new Error(`The tables ${[...waiting].join(', ')} refer to each other in a circle, and cannot be copied.`);
    for (const table of free) {
      ordered.push(table);
      waiting.delete(table);
    }
  }
  return ordered;
}
