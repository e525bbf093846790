// Writes entries of any kind with the caller's transaction. A new kind of entry is one more line here and a file of its own.
// Locks are taken in one order everywhere, so that no two writers wait crosswise: babies, due work, alerts, referrals, texts;
// within a kind in the order of the keys. Next: babies.ts, and one file for each kind.

import type { Waiting } from '../conversation/ports.ts';
import type { Entry } from '../conversation/records.ts';
import { recordAlert, recordAsked } from './alerts.ts';
import { recordAudit } from './audit.ts';
import { lockBabies, recordBabyNews } from './babies.ts';
import { recordBegun } from './begun.ts';
import type { Sql } from './database.ts';
import { recordDue } from './due-work.ts';
import { withoutErased } from './erased-babies.ts';
import { recordExamination } from './examinations.ts';
import { recordReferral, recordReferralNews } from './referrals.ts';
import { withSealedCard } from './sealing/sealed-card.ts';
import { recordTexts } from './texts.ts';

/** Writes those whose key is new, with no card number that can be read, and nothing of an erased baby. What others refer to goes first. */
export async function recordEntries(sql: Sql, entries: readonly Waiting[]): Promise<void> {
  const known = [...new Map(entries.map((entry) => [entry.key, entry])).values()].sort(byKey);
  await lockBabies(sql, known);
  const sorted = withSealedCard(sql, await withoutErased(sql, known));
  const of = <Kind extends Entry['kind']>(kind: Kind): Extract<Waiting, { kind: Kind }>[] =>
    sorted.filter((entry): entry is Extract<Waiting, { kind: Kind }> => entry.kind === kind);

  for (const entry of of('begun')) await recordBegun(sql, entry);
  for (const entry of of('examination')) await recordExamination(sql, entry);
  for (const entry of of('baby-news')) await recordBabyNews(sql, entry);
  await recordDue(sql, of('due'));
  for (const entry of of('alert')) await recordAlert(sql, entry);
  for (const entry of of('asked')) await recordAsked(sql, entry);
  for (const entry of of('referral')) await recordReferral(sql, entry);
  for (const entry of of('referral-news')) await recordReferralNews(sql, entry);
  await recordTexts(sql, of('text'));
  await recordAudit(sql, of('audit'));
}

function byKey(a: Entry, b: Entry): number {
  return a.key < b.key ? -1 : a.key > b.key ? 1 : 0;
}
