// The table of examinations: one row for each, written once. What they say of their baby is gathered in babies.ts.

import type { ExaminationEntry } from '../conversation/records.ts';
import { settleBaby } from './babies.ts';
import type { Sql } from './database.ts';
import { storableJson, storableText } from './storable.ts';

/** Leaves a known examination as it is, and writes none of a baby that was erased on request. */
export async function recordExamination(sql: Sql, entry: ExaminationEntry): Promise<void> {
  const written = await sql.query(
    `insert into examinations (key, baby, worker, facility, code, flow, urgency, version, at, facts, body)
       select $1, $2, $3, $4, $5, $6, $7, $8, $9::bigint, $10::jsonb, $11::jsonb
         where not exists (select from babies where id = $2 and status = 'erased')
       on conflict do nothing returning key`,
    [
      ...[entry.key, entry.baby, entry.worker, entry.facility, entry.code, entry.flow, entry.urgency, entry.version].map(storableText),
      entry.at,
      storableJson(entry.facts),
      storableJson(entry.body),
    ],
  );
  if (written.length > 0) await settleBaby(sql, entry.baby);
}
