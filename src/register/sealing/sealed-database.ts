// A database that seals what names a person, and opens it in every row that it reads: whoever has the files of the register, or a copy,
// reads no name and no card number. What is sealed says who writes it (`sql.seal`). Next: seal.ts, reseal.ts.

import type { Database, Sql } from '../database.ts';
import type { SealingKeys } from './keys.ts';
import { seal, unsealed } from './seal.ts';

/** Takes  keys: null seals nothing, and fails on what is sealed already. */
export function sealedDatabase(database: Database, keys: SealingKeys | null): Database {
  const over = (sql: Sql): Sql => ({
    query: async <Row>(text: string, values?: readonly unknown[]) => {
      const rows = await sql.query<Row>(text, values);
      return rows.map((row) => unsealed(row, keys));
    },
    script: (text) => sql.script(text),
    seal: (text) => (keys === null ? text : seal(text, keys[0])),
  });
  return {
    ...over(database),
    transaction: (work) => database.transaction((sql) => work(over(sql))),
    close: () => database.close(),
  };
}
