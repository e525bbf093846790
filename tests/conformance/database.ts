// What both databases promise beneath the register: transactions, the types of values, migrations that run once.
// Next: register-pglite.test.ts, register-postgres.test.ts.

import { describe, expect, it } from 'vitest';
import type { Database } from '../../src/register/database.ts';
import { migrate, migrationNames } from '../../src/register/migrate.ts';

export function databaseConformance(name: string, database: () => Database): void {
  describe(`a database in ${name}`, () => {
    it('reads back an instant as a number, jsonb parsed, bytea as bytes', async () => {
      const [row] = await database().query<{ at: number; body: unknown; bytes: Uint8Array }>(
        'select $1::bigint as at, $2::jsonb as body, $3::bytea as bytes',
        [1_795_521_600_123, '{"a":[1]}', Buffer.from([0, 255])],
      );
      expect(row).toMatchObject({ at: 1_795_521_600_123, body: { a: [1] } });
      expect([...(row?.bytes ?? [])]).toEqual([0, 255]);
    });

    it('keeps nothing of a transaction that throws, and goes on', async () => {
      const broken = database().transaction(async (sql) => {
        await sql.script('create table never_there (n integer)');
        throw new Error('broken on purpose');
      });
      await expect(broken).rejects.toThrow('broken on purpose');
      expect(await database().query(`select to_regclass('never_there') as found`)).toEqual([{ found: null }]);
    });

    it('says which statement is wrong, and goes on', async () => {
      await expect(database().query('select no_such_column')).rejects.toThrow('no_such_column');
      expect(await database().query('select 1 as one')).toEqual([{ one: 1 }]);
    });

    it('is migrated a second time without harm', async () => {
      expect(await migrate(database())).toEqual([]);
      expect(await database().query('select name from migrations order by name')).toEqual(migrationNames().map((file) => ({ name: file })));
    });

    it('that a newer program has migrated is left alone', async () => {
      await database().query(`insert into migrations (name) values ('9999-from-the-future.sql')`);
      await expect(migrate(database())).rejects.toThrow('Start the newer program');
      await database().query(`delete from migrations where name = '9999-from-the-future.sql'`);
    });
  });
}
