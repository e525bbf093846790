// Writes entries of any kind with the caller's transaction. A new kind of entry is one more line here and a file of its own.
// Next: examinations.ts, alerts.ts, texts.ts.

import type { Entry } from '../conversation/ports.ts';
import { recordAlert } from './alerts.ts';
import type { Sql } from './database.ts';
import { recordExamination } from './examinations.ts';
import { recordText } from './texts.ts';

/** Writes those whose key is new. In the order of their keys, so that two writers of the same entries never wait crosswise. */
export async function recordEntries(sql: Sql, entries: readonly Entry[]): Promise<void> {
  for (const entry of [...entries].sort(byKindAndKey)) await recordEntry(sql, entry);
}

function recordEntry(sql: Sql, entry: Entry): Promise<void> {
  switch (entry.kind) {
    case 'examination':
      return recordExamination(sql, entry);
    case 'alert':
      return recordAlert(sql, entry);
    case 'text':
      return recordText(sql, entry);
  }
}

function byKindAndKey(a: Entry, b: Entry): number {
  const [left, right] = [`${a.kind} ${a.key}`, `${b.kind} ${b.key}`];
  return left < right ? -1 : left > right ? 1 : 0;
}
