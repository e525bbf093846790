// The register from the lines of a backup, whole or not at all: in one transaction its tables are made as they were when it was copied,
// filled, and brought to the shape that this program needs. Next: backup.ts.

import type { BackupHead } from './backup.ts';
import type { Database, Sql } from './database.ts';
import { migrateIn, migrationNames, tablesOfRegister } from './migrate.ts';

const batch = 500;

/**
 * Returns  how many rows came back, and of which instant they are.
 *
 * Takes    over: true lets what is in the register now be lost.
 * Errors   the register holds something; the lines are no backup, were cut off, or come from a newer program. Nothing is changed then.
 */
export function restoreBackup(
  database: Database,
  lines: AsyncIterable<string>,
  over: boolean,
): Promise<{ readonly rows: number; readonly at: number }> {
  return database.transaction(async (sql) => {
    const reader = lines[Symbol.asyncIterator]();
    const head = readHead((await reader.next()).value);
    if (!over) await refuseUnlessEmpty(sql);
    const tables = tablesOfRegister();
    await sql.script(['migrations', ...tables].map((table) => `drop table if exists ${table} cascade;`).join('\n'));
    await sql.script('drop function if exists refuse_change() cascade');
    await migrateIn(sql, head.migrations.at(-1));
    const rows = await fill(sql, reader, new Set(tables));
    await sql.query(`select setval(pg_get_serial_sequence('kept_entries', 'place'), coalesce(max(place), 0) + 1, false) from kept_entries`);
    await migrateIn(sql);
    return { rows, at: head.at };
  });
}

function readHead(line: string | undefined): BackupHead {
  const head = line === undefined ? undefined : (parsed(line) as Partial<BackupHead> | undefined);
  if (head?.backup !== 1 || !Array.isArray(head.migrations) || typeof head.at !== 'number')
    throw new Error('This is no backup of a register. Give a file that pipit backup wrote.');
  const newer = head.migrations.find((name) => !migrationNames().includes(name));
  if (newer !== undefined)
    throw new Error(`The backup has the migration ${newer}, which this program does not. Restore it with the newer program that made it.`);
  return head as BackupHead;
}

async function refuseUnlessEmpty(sql: Sql): Promise<void> {
  for (const table of tablesOfRegister()) {
    const [held] = await sql.query(`select 1 from ${table} limit 1`);
    if (held !== undefined)
      throw new Error(`The register is not empty: "${table}" has rows. Name an empty database, or give --over to lose what is there now.`);
  }
}

/** Lines up to the last one, which says how many rows there are. */
async function fill(sql: Sql, reader: AsyncIterator<string>, tables: ReadonlySet<string>): Promise<number> {
  let [table, rows] = ['', 0];
  let waiting: string[] = [];
  const put = async (): Promise<void> => {
    if (waiting.length === 0) return;
    // Rows that refer to others of their table stand in one statement with them: what refers is looked at when it ends.
    await sql.query(`insert into ${table} select * from jsonb_populate_recordset(null::${table}, $1::text::jsonb)`, [
      `[${waiting.join(',')}]`,
    ]);
    rows += waiting.length;
    waiting = [];
  };
  for (;;) {
    const { value, done } = await reader.next();
    if (done === true) throw new Error('The backup was cut off: its last line is missing. Nothing was restored.');
    const line = value as string;
    if (!marks.test(line)) {
      waiting.push(line);
      if (waiting.length >= batch && !refersToItself.has(table)) await put();
      continue;
    }
    await put();
    const mark = parsed(line) as { readonly table?: string; readonly rows?: number };
    if (mark.table === undefined) {
      if (mark.rows !== rows) throw new Error(`The backup should hold ${mark.rows} rows and holds ${rows}. Nothing was restored.`);
      return rows;
    }
    if (!tables.has(mark.table))
      throw new Error(`The backup has a table "${mark.table}", which this program does not. Nothing was restored.`);
    ({ table } = mark as { table: string });
  }
}

const refersToItself: ReadonlySet<string> = new Set(['facilities', 'people', 'publications']);

/** A row comes from the database, which writes a space behind the colon. */
const marks = /^\{"(?:table":"|rows":\d)/;

function parsed(line: string): unknown {
  try {
    return JSON.parse(line);
  } catch {
    return undefined;
  }
}
