// Database in a PostgreSQL server, through a pool. Fails fast, and names the remedy when the server is the trouble.
// No SQL of ours stands here. Next: migrate.ts; pglite.ts is the same without a server.

import pg from 'pg';
import type { Database, Sql } from './database.ts';

export interface PoolLimits {
  readonly connections: number;
  readonly connectMilliseconds: number;
  readonly statementMilliseconds: number;
  /** A connection that nobody used for so long is closed. */
  readonly idleMilliseconds: number;
}

/** Opening a connection, and preparing each statement in it, takes longer than all that an examination writes: they are kept for long. */
export const usualPoolLimits: PoolLimits = {
  connections: 10,
  connectMilliseconds: 3_000,
  statementMilliseconds: 10_000,
  idleMilliseconds: 30 * 60_000,
};

/** Opens no connection yet: the first query does. */
export function openPostgres(url: string, limits: PoolLimits = usualPoolLimits): Database {
  const pool = new pg.Pool({
    connectionString: url,
    max: limits.connections,
    connectionTimeoutMillis: limits.connectMilliseconds,
    idleTimeoutMillis: limits.idleMilliseconds,
    statement_timeout: limits.statementMilliseconds,
    // The client's own limit, for a server that has stopped answering at all.
    query_timeout: limits.statementMilliseconds + limits.connectMilliseconds,
    types: { getTypeParser: readType },
  });
  // A connection that breaks is replaced by the pool, and rejects the query that it had; without listeners the event itself would
  // end the process. It may break in the very message with which it opens, before anything of ours holds it.
  pool.on('error', () => {});
  pool.on('connect', (client) => void client.on('error', () => {}));
  let closing: Promise<void> | undefined;

  const connect = () => pool.connect().catch((cause: unknown) => Promise.reject(noConnection(url, cause)));

  /** Lends a connection to `work`, and throws it away when it cannot be trusted any more. */
  async function withConnection<T>(work: (client: pg.PoolClient) => Promise<T>): Promise<T> {
    const client = await connect();
    let broken: Error | undefined;
    try {
      return await work(client);
    } catch (cause) {
      // A refusal by the server carries an SQLSTATE and leaves the connection whole; anything else does not.
      if (!(cause instanceof pg.DatabaseError)) broken = cause instanceof Error ? cause : new Error(String(cause));
      throw cause;
    } finally {
      client.release(broken);
    }
  }

  return {
    query: (text, values) => withConnection((client) => through(client).query(text, values)),
    script: (text) => withConnection((client) => through(client).script(text)),
    seal: (text) => text,
    transaction: (work) =>
      withConnection(async (client) => {
        await client.query('begin');
        try {
          const result = await work(through(client, preparedName));
          await client.query('commit');
          return result;
        } catch (cause) {
          // When even the rollback fails the connection is gone, and the server has rolled back by itself.
          await client.query('rollback').catch(() => {});
          throw cause;
        }
      }),
    close: () => (closing ??= pool.end()),
  };
}

/** Takes    nameOf: a statement with a name and values is prepared once a connection, not each time. */
function through(client: pg.PoolClient, nameOf: (text: string) => string | undefined = () => undefined): Sql {
  return {
    query: async <Row>(text: string, values: readonly unknown[] = []) =>
      (await client.query({ text, values: [...values], ...(values.length === 0 ? {} : { name: nameOf(text) }) })).rows as Row[],
    script: async (text) => void (await client.query(text)),
    seal: (text) => text,
  };
}

const names = new Map<string, string>();

/** What transactions write, they write with the same few texts for ever: each has a name of its own, the same in every connection. */
function preparedName(text: string): string {
  const name = names.get(text) ?? `pipit_${names.size}`;
  names.set(text, name);
  return name;
}

/** The driver leaves int8 as text for fear of 2^53; ours are epoch milliseconds and counts, which stay far below it. */
const readType = ((oid: number, format?: 'text') =>
  oid === pg.types.builtins.INT8 ? Number : pg.types.getTypeParser(oid, format)) as typeof pg.types.getTypeParser;

function noConnection(url: string, cause: unknown): Error {
  const reason = cause instanceof Error ? cause.message || String((cause as NodeJS.ErrnoException).code) : String(cause);
  return new Error(
    `PostgreSQL at ${placeOf(url)} could not be reached: ${reason}. ` +
      'Check that it runs and can be reached from here, and that DATABASE_URL names it with its user, password and database.',
    { cause },
  );
}

/** Host and database, never the password. */
function placeOf(url: string): string {
  return URL.canParse(url) ? `${new URL(url).host}${new URL(url).pathname}` : 'DATABASE_URL';
}
