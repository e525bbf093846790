// The Register port over a database: joins the files of the tables, and draws the transactions around them.
// No SQL stands here. Next: entries.ts, and migrate.ts, which must have run before.

import type { Register } from '../conversation/ports.ts';
import { findAlerts, moveAlert } from './alerts.ts';
import type { Database } from './database.ts';
import { recordEntries } from './entries.ts';
import { claimTexts, type Resending, settleText, usualResending } from './texts.ts';

/** A register in a migrated database; `end` closes it. */
export function registerIn(database: Database, resending: Resending = usualResending): Register {
  return {
    record: (entries) => database.transaction((sql) => recordEntries(sql, entries)),
    findAlerts: (code) => findAlerts(database, code),
    moveAlert: (key, from, to, by, at, entries) =>
      database.transaction(async (sql) => {
        const moved = await moveAlert(sql, key, from, to, by, at);
        if (moved) await recordEntries(sql, entries);
        return moved;
      }),
    claimTexts: (at, limit, claimMilliseconds) => database.transaction((sql) => claimTexts(sql, at, limit, claimMilliseconds, resending)),
    settleText: (key, sent, at) => database.transaction((sql) => settleText(sql, key, sent, at, resending)),
    end: () => database.close(),
  };
}
