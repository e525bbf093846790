// Goes through the work that is due, each piece in a transaction of its own, so that one that breaks stops no other and two
// processes never have the same one. Locks: the work, then its alert, then its referral. Next: due-work.ts.

import type { DueWork, WorkAnswer } from '../conversation/records.ts';
import { lockAlert } from './alerts.ts';
import { readBaby } from './baby-records.ts';
import type { Database, Sql } from './database.ts';
import { type DueRow, dueAgain, hasDue, holdDue, lockDue, postponeDue, settleDue } from './due-work.ts';
import { recordEntries } from './entries.ts';
import { lockReferral } from './referrals.ts';

/** How many pieces were answered; void ones are not counted. */
export async function answerDue(
  database: Database,
  at: number,
  limit: number,
  answer: (work: DueWork) => WorkAnswer,
  failed: (work: string, error: unknown) => void,
): Promise<number> {
  if (!(await hasDue(database, at))) return 0;
  let answered = 0;
  while (answered < limit) {
    let row: DueRow | null = null;
    try {
      const outcome = await database.transaction(async (sql) => {
        row = await lockDue(sql, at);
        return row === null ? 'none' : answerOne(sql, row, at, answer);
      });
      if (outcome === 'none') break;
      if (outcome === 'answered') answered += 1;
    } catch (error) {
      const broken = row as DueRow | null;
      if (broken === null) throw error;
      // When this fails too the database is away, and the piece is still due when it is back.
      await postponeDue(database, broken.key, at);
      failed(broken.work, error);
    }
  }
  return answered;
}

async function answerOne(sql: Sql, row: DueRow, at: number, answer: (work: DueWork) => WorkAnswer): Promise<'answered' | 'void'> {
  const { key, work, dueAt, times, body } = row;
  const baby = await readBaby(sql, row.baby);
  const alert = row.alert === null ? null : await lockAlert(sql, row.alert);
  const referral = row.referral === null ? null : await lockReferral(sql, row.referral);
  const stands =
    row.alert !== null
      ? // Null: what it was raised for joined an alert that has work of its own.
        alert !== null && alert.state !== 'closed'
      : baby?.status === 'followed' &&
        (row.examination === null || row.examination === baby.last?.key) &&
        (row.referral === null || referral !== null);
  if (!stands) {
    await settleDue(sql, key, 'void', at);
    return 'void';
  }
  const { entries, next } = answer({ key, work: work as DueWork['work'], dueAt, times, body, baby, alert, referral });
  await recordEntries(sql, entries);
  // Never due in the same instant again: a loop that answers until nothing is due would have no end.
  if (next.kind === 'again') await dueAgain(sql, key, Math.max(next.at, at + 1));
  else if (next.kind === 'held') await holdDue(sql, key, Math.max(next.at, at + 1));
  else await settleDue(sql, key, next.kind, at);
  return 'answered';
}
