// The little that the register needs of a database. Two files fit it: postgres.ts and pglite.ts.
// The SQL is one and the same for both, and keeps to what PostgreSQL 15 accepts.

export interface Sql {
  /** Rows of one statement. An int8 comes back as a number, a jsonb parsed, a bytea as bytes. */
  query<Row = unknown>(text: string, values?: readonly unknown[]): Promise<Row[]>;
  /** Runs several statements that take no values. */
  script(text: string): Promise<void>;
  /** A name or a card number as it is to stand in the register; every row that is read has it opened again (sealing/). */
  seal(text: string): string;
}

export interface Database extends Sql {
  /**
   * Commits what `work` did, or nothing of it when `work` throws.
   * Inside, use only the `sql` handed in: the embedded database has one connection, and waits for ever for itself.
   */
  transaction<T>(work: (sql: Sql) => Promise<T>): Promise<T>;
  /** Closing twice is harmless. */
  close(): Promise<void>;
}
