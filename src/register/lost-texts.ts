// Urgent texts that were lost: given up, or not delivered at the last attempt. Somebody is told of each, once, in the transaction
// that notes it, so that no two processes tell twice. What is said: src/conversation/lost-text.ts.

import type { LostText, TextEntry } from '../conversation/records.ts';
import type { Database } from './database.ts';
import { recordTexts } from './texts.ts';

const isLost = `urgent and state in ('given-up', 'undelivered') and lost_told_at is null`;

/** Returns  how many were lost. */
export async function tellOfLost(
  database: Database,
  at: number,
  limit: number,
  tell: (lost: LostText) => readonly TextEntry[],
): Promise<number> {
  if ((await database.query(`select from texts_out where ${isLost} limit 1`)).length === 0) return 0;
  return database.transaction(async (sql) => {
    const lost = await sql.query<LostText>(
      `select key, recipient as "to", text, baby from texts_out where ${isLost} order by at, key limit $1 for update skip locked`,
      [limit],
    );
    const keys = lost.map(({ key }) => key);
    await sql.query('update texts_out set lost_told_at = $2 where key = any($1)', [keys, at]);
    await recordTexts(
      sql,
      lost.filter(({ key }) => !key.startsWith('lost:')).flatMap((one) => tell(one)),
    );
    return lost.length;
  });
}
