// Seals anew, with the first key, all that was sealed with another or was written before there was one. Batch by batch, so that phones
// are answered beside it; begun again it goes on where it was. After it the older keys open nothing more. Next: src/cli/reseal.ts.

import type { Database, Sql } from '../database.ts';
import { storableJson } from '../storable.ts';
import type { SealingKeys } from './keys.ts';
import { withSealedCard } from './sealed-card.ts';
import { sealedDatabase } from './sealed-database.ts';

interface Place {
  readonly table: string;
  readonly key: string;
  readonly column: string;
  /** Which rows are still to do, in SQL. Takes the beginning of what is sealed with the first key. */
  readonly toDo: (sealed: string) => string;
  readonly anew: (value: unknown, sql: Sql) => unknown;
}

const text = (table: string, key: string, column: string): Place => ({
  ...{ table, key, column },
  toDo: (sealed) => `${column} <> '' and not starts_with(${column}, '${sealed}')`,
  anew: (value, sql) => sql.seal(String(value)),
});

const cards = (table: string, column: string): Place => ({
  ...{ table, key: 'key', column },
  toDo: (sealed) => `${column}::text ~ '"card": "(?!"|${sealed})'`,
  anew: (value, sql) => storableJson(withSealedCard(sql, value)),
});

const places: readonly Place[] = [
  text('people', 'phone', 'name'),
  text('people', 'phone', 'pin'),
  text('babies', 'id', 'card'),
  ...['facts', 'body'].map((column) => cards('examinations', column)),
  ...['alerts', 'alert_news', 'referrals', 'due_work'].map((table) => cards(table, 'body')),
  {
    ...{ table: 'audit', key: 'key', column: 'body' },
    toDo: (sealed) => `what like 'person-%' and body::text ~ '"name": "(?!"|${sealed})'`,
    anew: (value, sql) => storableJson(withSealedName(sql, value)),
  },
];

const batch = 500;

/** Returns  how many values were sealed anew, by table and column; those without any are left out. */
export async function reseal(database: Database, keys: SealingKeys): Promise<ReadonlyMap<string, number>> {
  const done = new Map<string, number>();
  const opened = sealedDatabase(database, keys);
  for (const place of places) {
    for (;;) {
      const count = await opened.transaction((sql) => resealBatch(sql, place, `sealed:${keys[0].id}:`));
      if (count === 0) break;
      const name = `${place.table}.${place.column}`;
      done.set(name, (done.get(name) ?? 0) + count);
    }
  }
  return done;
}

async function resealBatch(sql: Sql, { table, key, column, toDo, anew }: Place, sealed: string): Promise<number> {
  const rows = await sql.query<{ key: string; value: unknown }>(
    `select ${key} as key, ${column} as value from ${table} where ${toDo(sealed)} order by ${key} limit ${batch} for update`,
  );
  if (rows.length === 0) return 0;
  // The trail is never changed in what it says: only how the names in it are written.
  if (table === 'audit') await sql.script('alter table audit disable trigger audit_is_append_only');
  for (const row of rows) await sql.query(`update ${table} set ${column} = $2 where ${key} = $1`, [row.key, anew(row.value, sql)]);
  if (table === 'audit') await sql.script('alter table audit enable trigger audit_is_append_only');
  return rows.length;
}

/** The name of a person before and after an import, as src/register/roster.ts writes them. */
function withSealedName(sql: Pick<Sql, 'seal'>, body: unknown): unknown {
  return Object.fromEntries(
    Object.entries((body ?? {}) as Record<string, { readonly name?: string } | null>).map(([side, line]) => [
      side,
      typeof line?.name === 'string' ? { ...line, name: sql.seal(line.name) } : line,
    ]),
  );
}
