// What is still written of a baby that was erased: nothing that was said before, all that is said later, and an alert in any case.
// Next: entries.ts, which asks before it writes; erase.ts.

import type { Entry } from '../conversation/records.ts';
import type { Sql } from './database.ts';
import { storableText } from './storable.ts';

/**
 * Leaves out what was said of a baby before it was erased, in whichever order the two came. What is said later is a new record
 * and brings the baby back. So does an alert that is not in the register yet: a worker was told that help was called, and it is.
 */
export async function withoutErased<One extends Entry>(sql: Sql, entries: readonly One[]): Promise<readonly One[]> {
  const erased = await lockErased(
    sql,
    [...new Set(entries.map(babyOf))].filter((baby) => baby !== null),
  );
  if (erased.size === 0) return entries;
  const known = await knownAlerts(sql, entries);
  const erasedAtOf = (entry: Entry): number | undefined => erased.get(babyOf(entry) ?? '');
  const bringsBack = (entry: One): boolean =>
    (entry.kind === 'alert' && !known.has(entry.key)) ||
    ((entry.kind === 'examination' || entry.kind === 'referral') && entry.at > (erasedAtOf(entry) ?? 0));
  const back = new Map(entries.filter((entry) => erasedAtOf(entry) !== undefined && bringsBack(entry)).map((one) => [babyOf(one), one]));
  await bringBack(sql, [...back.values()]);
  return entries.filter((entry) => {
    const erasedAt = erasedAtOf(entry);
    return erasedAt === undefined || (back.has(babyOf(entry)) && (entry.at > erasedAt || isOfAlert(entry)));
  });
}

function babyOf(entry: Entry): string | null {
  return 'baby' in entry && entry.baby !== undefined ? storableText(entry.baby) : null;
}

/** An alert, and what sees to it that somebody takes it. */
function isOfAlert(entry: Entry): boolean {
  return entry.kind === 'alert' || (entry.kind === 'text' && entry.urgent) || (entry.kind === 'due' && entry.alert !== undefined);
}

/** When each of them that is erased was; none of them can be erased until the transaction ends. */
async function lockErased(sql: Sql, babies: readonly string[]): Promise<ReadonlyMap<string, number>> {
  if (babies.length === 0) return new Map();
  const rows = await sql.query<{ id: string; status: string; erasedAt: number | null }>(
    'select id, status, erased_at as "erasedAt" from babies where id = any($1) order by id for key share',
    [babies],
  );
  return new Map(rows.filter(({ status }) => status === 'erased').map(({ id, erasedAt }) => [id, erasedAt ?? 0]));
}

async function knownAlerts(sql: Sql, entries: readonly Entry[]): Promise<ReadonlySet<string>> {
  const keys = entries.flatMap(({ kind, key }) => (kind === 'alert' ? [storableText(key)] : []));
  if (keys.length === 0) return new Set();
  const rows = await sql.query<{ key: string }>(
    'select key from alerts where key = any($1) union all select key from alert_news where key = any($1)',
    [keys],
  );
  return new Set(rows.map(({ key }) => key));
}

/** Followed again, under the code that it is spoken of now. */
async function bringBack(sql: Sql, entries: readonly Entry[]): Promise<void> {
  for (const entry of entries) {
    if (entry.kind !== 'examination' && entry.kind !== 'alert' && entry.kind !== 'referral') continue;
    await sql.query(`update babies set status = 'followed', code = $2, facility = $3, worker = $4 where id = $1`, [
      ...[entry.baby, entry.code, entry.facility, entry.worker].map(storableText),
    ]);
  }
}
