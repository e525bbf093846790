// The roster in the register: read whole, imported whole or not at all, each changed line in the audit trail with before and after.
// Every import that changes something has a number, by which a process sees that its roster is old. Next: roster-rows.ts,
// roster-changes.ts.

import type { AuditEntry } from '../conversation/records.ts';
import type { RosterData } from '../conversation/roster.ts';
import { withHashedPins } from '../conversation/roster-pins.ts';
import { recordAudit } from './audit.ts';
import type { Database, Sql } from './database.ts';
import { changesBetween, type RosterChange } from './roster-changes.ts';
import { readRosterRows, writeRosterRows } from './roster-rows.ts';

export interface StoredRoster {
  /** Number of the last import; 0 before the first. */
  readonly number: number;
  readonly data: RosterData;
}

export interface RosterStore {
  /** Number of the last import that changed something; 0 before the first. */
  lastImport(): Promise<number>;
  read(): Promise<StoredRoster>;
  /** Puts this roster in place of the one there is; what changed. Nothing is written when nothing does. */
  import(data: RosterData, by: string, at: number): Promise<readonly RosterChange[]>;
  /** The same, unless there was an import after the one that was seen; null: there was. */
  importAfter(seen: number, data: RosterData, by: string, at: number): Promise<readonly RosterChange[] | null>;
  /** The same, unless somebody is on the roster already; true when it was done. Of several processes one does it. */
  importFirst(data: RosterData, by: string, at: number): Promise<boolean>;
}

export function rosterStoreIn(database: Database): RosterStore {
  const read = (): Promise<StoredRoster> =>
    database.transaction(async (sql) => {
      // The number and the rows are of one import, whatever is written beside.
      await sql.script('set transaction isolation level repeatable read');
      return { number: await lastImport(sql), data: await readRosterRows(sql) };
    });
  /** Hashes take their time: they are made before anything is locked. */
  const locked = async <T>(written: RosterData, work: (sql: Sql, data: RosterData) => Promise<T>): Promise<T> => {
    const data = await withHashedPins(written, (await read()).data);
    return database.transaction(async (sql) => {
      await lockRoster(sql);
      return work(sql, data);
    });
  };
  return {
    lastImport: () => lastImport(database),
    read,
    import: (written, by, at) => locked(written, (sql, data) => importInto(sql, data, by, at)),
    importAfter: (seen, written, by, at) =>
      locked(written, async (sql, data) => ((await lastImport(sql)) === seen ? importInto(sql, data, by, at) : null)),
    importFirst: (written, by, at) =>
      locked(written, async (sql, data) => {
        const [someone] = await sql.query('select phone from people limit 1');
        if (someone !== undefined) return false;
        await importInto(sql, data, by, at);
        return true;
      }),
  };
}

async function importInto(sql: Sql, data: RosterData, by: string, at: number): Promise<readonly RosterChange[]> {
  const before = await readRosterRows(sql);
  const changes = changesBetween(before, data);
  // Lines in another order are no change of anybody's, and still hers to have back.
  await writeRosterRows(sql, data);
  if (changes.length === 0) return changes;
  const number = (await lastImport(sql)) + 1;
  await sql.query('insert into roster_imports (number, by, at) values ($1, $2, $3)', [number, by, at]);
  await recordAudit(
    sql,
    changes.map(
      ({ kind, about, change, before: was, after }): AuditEntry => ({
        kind: 'audit',
        key: `roster:${number}:${kind}:${about}`,
        by,
        what: `${kind}-${change}`,
        about,
        at,
        body: { before: auditedLine(sql, kind, was, null), after: auditedLine(sql, kind, after, was) },
      }),
    ),
  );
  return changes;
}

/** What names a person stands in the trail as it stands in the roster; of her PIN only that she has one, or another. */
function auditedLine(sql: Sql, kind: RosterChange['kind'], line: object | null, before: object | null): object | null {
  if (kind !== 'person' || line === null || !('name' in line)) return line;
  const named = { ...line, name: sql.seal(String(line.name)) };
  if (!('pin' in line)) return named;
  const isAnother = before !== null && 'pin' in before && before.pin !== line.pin;
  return { ...named, pin: isAnother ? 'changed' : 'set' };
}

async function lastImport(sql: Sql): Promise<number> {
  const [row] = await sql.query<{ number: number }>('select coalesce(max(number), 0) as number from roster_imports');
  return row?.number ?? 0;
}

/** One import at a time; readers see the roster before it until it is whole. */
async function lockRoster(sql: Sql): Promise<void> {
  await sql.query('lock table roster_imports in share row exclusive mode');
}
