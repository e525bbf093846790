// Texts that did not reach a phone, or of which nobody knows, for a person to look at. Next: figures.ts, which counts them.

import type { Sql } from '../database.ts';
import { aroundPeriod, type Period } from './period.ts';

export interface NotDelivered {
  /** Epoch milliseconds. */
  readonly at: number;
  readonly recipient: string;
  readonly urgent: boolean;
  readonly state: 'given-up' | 'undelivered' | 'unknown';
  readonly attempts: number;
  readonly reason: string | null;
}

/** Newest first. Never what was written: that speaks of a baby. */
export function readNotDelivered(sql: Sql, period: Period, limit: number): Promise<NotDelivered[]> {
  const { first, last } = aroundPeriod(period);
  return sql.query<NotDelivered>(
    `select at, recipient, urgent, state, attempts, reason from texts_out
       where at >= $1 and at < $2 and state in ('given-up', 'undelivered', 'unknown') order by at desc, key limit $3`,
    [first, last, limit],
  );
}
