// The table of examinations: one row for each, written once. Next: entries.ts.

import type { Entry } from '../conversation/ports.ts';
import type { Sql } from './database.ts';
import { storableJson, storableText } from './storable.ts';

export type ExaminationEntry = Extract<Entry, { kind: 'examination' }>;

/** Leaves a known examination as it is. */
export async function recordExamination(sql: Sql, entry: ExaminationEntry): Promise<void> {
  await sql.query(
    `insert into examinations (key, worker, facility, code, at, body) values ($1, $2, $3, $4, $5, $6)
      on conflict do nothing`,
    [...[entry.key, entry.worker, entry.facility, entry.code].map(storableText), entry.at, storableJson(entry.body)],
  );
}
