// A register for tests of what stands above it: the real one, in an embedded database in memory that a file of tests starts once
// and empties for each register. Only the newest register of a file is in use. Held to tests/conformance as the database it is.

import type { Register } from '../../src/conversation/ports.ts';
import type { Database } from '../../src/register/database.ts';
import { registerIn } from '../../src/register/register.ts';
import { openMigrated } from './migrated-database.ts';

export type Row = Readonly<Record<string, unknown>>;

/** The register with a look at its tables, and a switch. */
export interface TestRegister extends Register {
  /** True: every call fails, as when the database is away. Looks at the tables never do. */
  isDown: boolean;
  rows(sql: string, values?: readonly unknown[]): Promise<Row[]>;
  /** How many rows each table holds; empty tables are left out. */
  counts(): Promise<Readonly<Record<string, number>>>;
  /** All rows of all tables, in one order, for comparing two registers. */
  dump(): Promise<Readonly<Record<string, readonly Row[]>>>;
}

interface Opened {
  readonly database: Database;
  readonly register: Register;
  readonly tables: readonly string[];
  /** One statement that empties all tables, whatever their triggers say. */
  readonly empty: string;
}

let opening: Promise<Opened> | undefined;

async function open(): Promise<Opened> {
  const database = await openMigrated();
  const rows = await database.query<{ name: string }>(
    `select tablename as name from pg_tables where schemaname = 'public' and tablename <> 'migrations' order by tablename`,
  );
  const tables = rows.map(({ name }) => name);
  // Deleting a few rows is thirty times as fast as truncating so many tables.
  const deletions = tables.map((table) => `delete from ${table};`).join('\n');
  const empty = `set session_replication_role = replica;\n${deletions}\nset session_replication_role = origin;`;
  return { database, register: registerIn(database), tables, empty };
}

/** Empty. Its first call waits for the database. */
export function openTestRegister(): TestRegister {
  opening ??= open();
  const ready = opening.then(async (opened) => {
    await opened.database.script(opened.empty);
    return opened;
  });
  const call =
    <Name extends keyof Register>(name: Name) =>
    async (...values: Parameters<Register[Name]>): Promise<never> => {
      const { register } = await ready;
      if (view.isDown) throw new Error('The register is down.');
      return (register[name] as (...values: Parameters<Register[Name]>) => Promise<never>)(...values);
    };
  const view: TestRegister = {
    isDown: false,
    record: call('record'),
    findAlerts: call('findAlerts'),
    alertOf: call('alertOf'),
    moveAlert: call('moveAlert'),
    findBabies: call('findBabies'),
    listBabies: call('listBabies'),
    findReferrals: call('findReferrals'),
    workDue: call('workDue'),
    claimTexts: call('claimTexts'),
    beginSending: call('beginSending'),
    settleText: call('settleText'),
    reportText: call('reportText'),
    textSentAs: call('textSentAs'),
    begunDue: call('begunDue'),
    settleBegun: call('settleBegun'),
    tellOfLost: call('tellOfLost'),
    end: async () => {},
    rows: async (sql, values) => (await ready).database.query<Row>(sql, values),
    async counts() {
      const { database, tables } = await ready;
      const parts = tables.map((table) => `select '${table}' as name, count(*)::integer as rows from ${table}`);
      const counted = await database.query<{ name: string; rows: number }>(parts.join(' union all '));
      return Object.fromEntries(counted.filter(({ rows }) => rows > 0).map(({ name, rows }) => [name, rows]));
    },
    async dump() {
      const { database, tables } = await ready;
      const parts = tables.map(
        (table) => `select '${table}' as name, coalesce(jsonb_agg(to_jsonb(t) order by t::text), '[]') as rows from ${table} as t`,
      );
      const dumped = await database.query<{ name: string; rows: Row[] }>(parts.join(' union all '));
      return Object.fromEntries(dumped.map(({ name, rows }) => [name, rows]));
    },
  };
  return view;
}
