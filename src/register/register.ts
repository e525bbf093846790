// The Register port over a database: joins the files of the tables, and draws the transactions around them.
// No SQL stands here. Next: entries.ts, answer-due.ts, and migrate.ts, which must have run before.

import type { Register } from '../conversation/ports.ts';
import { alertOf, findAlerts, lockAlert, moveAlert } from './alerts.ts';
import { answerDue } from './answer-due.ts';
import { lockBabies } from './babies.ts';
import { findBabies, listBabies } from './baby-records.ts';
import { begunDue, settleBegun } from './begun.ts';
import type { Database } from './database.ts';
import { reportText, textSentAs } from './delivery.ts';
import { recordEntries } from './entries.ts';
import { tellOfLost } from './lost-texts.ts';
import { findReferrals } from './referrals.ts';
import { type Resending, usualResending } from './resending.ts';
import { beginSending, claimTexts, settleText } from './texts.ts';

/** A register in a migrated database; `end` closes it. */
export function registerIn(database: Database, resending: Resending = usualResending): Register {
  return {
    record: async (entries) => {
      if (entries.length > 0) await database.transaction((sql) => recordEntries(sql, entries));
    },
    findAlerts: (code) => findAlerts(database, code),
    alertOf: (baby) => alertOf(database, baby),
    moveAlert: (key, from, to, by, at, entries) =>
      database.transaction(async (sql) => {
        await lockBabies(sql, entries);
        if (!(await moveAlert(sql, key, from, to, by, at))) return null;
        await recordEntries(sql, entries);
        return lockAlert(sql, key);
      }),
    findBabies: (facility, worker, code) => findBabies(database, facility, worker, code),
    listBabies: (worker, dueBy, limit) => listBabies(database, worker, dueBy, limit),
    findReferrals: (code) => findReferrals(database, code),
    workDue: (at, limit, answer, failed) => answerDue(database, at, limit, answer, failed),
    claimTexts: (at, limit, claimMilliseconds) => claimTexts(database, at, limit, claimMilliseconds, resending),
    beginSending: (key, at) => beginSending(database, key, at),
    settleText: (key, sent, at) => database.transaction((sql) => settleText(sql, key, sent, at, resending)),
    reportText: (reference, report, at) => database.transaction((sql) => reportText(sql, reference, report, at, resending)),
    textSentAs: (gatewayId, to) => textSentAs(database, gatewayId, to),
    begunDue: (at, limit) => begunDue(database, at, limit),
    settleBegun: (key, look) => settleBegun(database, key, look),
    tellOfLost: (at, limit, tell) => tellOfLost(database, at, limit, tell),
    end: () => database.close(),
  };
}
