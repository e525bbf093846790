// The Sessions port in SQL, for a desk without Redis: the same promises as scripts/*.lua, one transaction each, with
// expiry judged by the caller's `now`. Its tables stand in the register's migrations, since both share one database.
// Texts are kept as bytes: a session comes back exactly as it went in, NUL included. Next: redis.ts.

import { createHash, randomUUID } from 'node:crypto';
import type { Held, Opened, Sessions, Waiting } from '../conversation/ports.ts';
import { type Lifetimes, usualLifetimes } from './lifetimes.ts';

interface Sql {
  query<Row>(text: string, values: readonly unknown[]): Promise<Row[]>;
}

/** What this store needs of a database; the register's fits. */
export interface SessionDatabase {
  transaction<T>(work: (sql: Sql) => Promise<T>): Promise<T>;
}

/** Sessions in a migrated database, which belongs to the caller: `end` leaves it open. */
export function embeddedSessions(database: SessionDatabase, options: Partial<Lifetimes> = {}): Sessions {
  const lifetimes = { ...usualLifetimes, ...options };

  return {
    open: (phone, messageId, now, like) =>
      database.transaction(async (sql): Promise<Opened> => {
        // The lock first, and only then the memory: a close that ran beside us has committed by now and is seen.
        const held = await takeLock(sql, phone, now, now + lifetimes.lockMilliseconds);
        const own = await findReply(sql, phone, messageId, now);
        const alike = own === undefined && like !== undefined ? await findReply(sql, phone, aliasOf(like), now) : undefined;
        if (alike !== undefined) await remember(sql, phone, messageId, alike, now + lifetimes.replyMilliseconds);
        const reply = own ?? alike;
        if (reply !== undefined) {
          if (held) await dropLock(sql, held);
          return { kind: 'repeated', reply };
        }
        return held ? { kind: 'held', held } : { kind: 'busy' };
      }),

    close: (held, messageId, session, reply, now, like) =>
      database.transaction(async (sql) => {
        const written = await sql.query(
          `update sessions set session = $3, expires_at = $4, lock_token = null, locked_until = null
            where phone = $1 and lock_token = $2 and locked_until > $5 returning phone`,
          [held.phone, held.token, toBytes(session), now + lifetimes.sessionMilliseconds, now],
        );
        if (written.length === 0) return false;
        // Each phone sweeps its own memory, so it stays small and no two sweeps meet.
        await sql.query('delete from answered_messages where phone = $1 and expires_at <= $2', [held.phone, now]);
        await remember(sql, held.phone, messageId, reply, now + lifetimes.replyMilliseconds);
        if (like !== undefined) await remember(sql, held.phone, aliasOf(like.by), reply, now + like.milliseconds);
        return true;
      }),

    release: (held) => database.transaction((sql) => dropLock(sql, held)),

    keep: (waiting) =>
      database.transaction(async (sql) => {
        const insert = 'insert into kept_entries (key, entry) values ($1, $2) on conflict do nothing';
        for (const entry of waiting) await sql.query(insert, [digest(entry.key), toBytes(JSON.stringify(entry))]);
      }),

    kept: (limit) =>
      database.transaction(async (sql) => {
        const rows = await sql.query<{ entry: Uint8Array }>('select entry from kept_entries order by place limit $1', [limit]);
        return rows.map(({ entry }) => JSON.parse(toText(entry)) as Waiting);
      }),

    letGo: (keys) =>
      database.transaction(async (sql) => {
        for (const key of keys) await sql.query('delete from kept_entries where key = $1', [digest(key)]);
      }),

    answers: () => database.transaction(async (sql) => void (await sql.query('select 1', []))),

    end: async () => {},
  };
}

/** Nothing when another token holds the phone's lock. An expired session is loaded as none. */
async function takeLock(sql: Sql, phone: string, now: number, until: number): Promise<Held | undefined> {
  const token = randomUUID();
  const [row] = await sql.query<{ session: Uint8Array | null }>(
    `insert into sessions as s (phone, lock_token, locked_until) values ($1, $2, $3)
      on conflict (phone) do update set lock_token = excluded.lock_token, locked_until = excluded.locked_until
        where s.locked_until is null or s.locked_until <= $4
      returning case when expires_at > $4 then session end as session`,
    [phone, token, until, now],
  );
  return row && { phone, token, session: row.session && toText(row.session) };
}

async function dropLock(sql: Sql, held: Held): Promise<void> {
  await sql.query('update sessions set lock_token = null, locked_until = null where phone = $1 and lock_token = $2', [
    held.phone,
    held.token,
  ]);
}

async function findReply(sql: Sql, phone: string, messageId: string, now: number): Promise<string | undefined> {
  const [row] = await sql.query<{ reply: Uint8Array }>(
    'select reply from answered_messages where phone = $1 and message = $2 and expires_at > $3',
    [phone, digest(messageId), now],
  );
  return row && toText(row.reply);
}

async function remember(sql: Sql, phone: string, messageId: string, reply: string, until: number): Promise<void> {
  await sql.query(
    `insert into answered_messages (phone, message, reply, expires_at) values ($1, $2, $3, $4)
       on conflict (phone, message) do update set reply = excluded.reply, expires_at = excluded.expires_at`,
    [phone, digest(messageId), toBytes(reply), until],
  );
}

/** Stands beside the ids of messages; no gateway's id begins so. */
const aliasOf = (like: string): string => `alike ${like}`;

/** A message's id or an entry's key at a fixed length: gateways put no bound on their ids, an index row has one. */
const digest = (id: string): Uint8Array => createHash('sha256').update(id).digest();
const toBytes = (text: string): Uint8Array => Buffer.from(text, 'utf8');
const toText = (bytes: Uint8Array): string => Buffer.from(bytes).toString('utf8');
