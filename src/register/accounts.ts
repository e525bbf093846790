// The tables of accounts and their sessions. Passwords come hashed; tokens are kept as a hash. Next: migrations/0012-accounts.sql,
// src/console/access/ for what a password must be.

import { createHash } from 'node:crypto';
import type { Account, AccountSession, Accounts, StoredAccount } from '../conversation/accounts.ts';
import { recordAudit } from './audit.ts';
import type { Database, Sql } from './database.ts';

const idleMilliseconds = 8 * 3_600_000;
const longestMilliseconds = 24 * 3_600_000;
const triesBeforeWait = 5;
const waitMilliseconds = 15 * 60_000;

const hashed = (token: string): Buffer => createHash('sha256').update(token).digest();

export function accountsIn(database: Database): Accounts {
  return {
    find: async (name) => {
      const [row] = await database.query<StoredAccount>(
        'select name, role, phone, password_hash as "passwordHash", waits_until as "waitsUntil" from accounts where name = $1',
        [name],
      );
      return row ?? null;
    },
    list: () => database.query<Account>('select name, role, phone from accounts order by name'),
    save: ({ name, role, phone, passwordHash }, by, at) =>
      database.transaction(async (sql) => {
        await sql.query(
          `insert into accounts (name, role, phone, password_hash) values ($1, $2, $3, $4)
             on conflict (name) do update set role = $2, phone = $3, password_hash = $4, wrong_tries = 0, waits_until = 0`,
          [name, role, phone, passwordHash],
        );
        await sql.query('delete from account_sessions where account = $1', [name]);
        await audit(sql, 'account-saved', name, by, at, { role, phone });
      }),
    setPassword: (name, passwordHash, at) =>
      database.transaction(async (sql) => {
        await sql.query('update accounts set password_hash = $2 where name = $1', [name, passwordHash]);
        await audit(sql, 'account-password', name, name, at, null);
      }),
    remove: (name, by, at) =>
      database.transaction(async (sql) => {
        const gone = await sql.query('delete from accounts where name = $1 returning name', [name]);
        if (gone.length > 0) await audit(sql, 'account-removed', name, by, at, null);
        return gone.length > 0;
      }),
    noteTry: async (name, right, at) => {
      await database.query(
        `update accounts set wrong_tries = case when $2 then 0 else (wrong_tries + 1) % $3::integer end,
           waits_until = case when $2 then 0 when wrong_tries + 1 >= $3::integer then $4::bigint else waits_until end
         where name = $1`,
        [name, right, triesBeforeWait, at + waitMilliseconds],
      );
    },
    begin: (name, token, formToken, at) =>
      database.transaction(async (sql) => {
        await sql.query('delete from account_sessions where seen_at < $1 or begun_at < $2', [
          at - idleMilliseconds,
          at - longestMilliseconds,
        ]);
        await sql.query('insert into account_sessions (token, account, form_token, begun_at, seen_at) values ($1, $2, $3, $4, $4)', [
          hashed(token),
          name,
          formToken,
          at,
        ]);
        await audit(sql, 'signed-in', name, name, at, null);
      }),
    session: async (token, at) => {
      const [row] = await database.query<Account & Pick<AccountSession, 'formToken'>>(
        `update account_sessions set seen_at = greatest(seen_at, $2) from accounts
           where token = $1 and accounts.name = account and seen_at > $3 and begun_at > $4
           returning name, role, phone, form_token as "formToken"`,
        [hashed(token), at, at - idleMilliseconds, at - longestMilliseconds],
      );
      if (row === undefined) return null;
      const { formToken, ...account } = row;
      return { account, formToken };
    },
    end: async (token) => void (await database.query('delete from account_sessions where token = $1', [hashed(token)])),
    endOthers: async (name, token) =>
      void (await database.query('delete from account_sessions where account = $1 and token <> $2', [name, hashed(token)])),
  };
}

function audit(sql: Sql, what: string, about: string, by: string, at: number, body: object | null): Promise<void> {
  return recordAudit(sql, [{ kind: 'audit', key: `${what}:${about}:${at}`, by, what, about, at, body }]);
}
